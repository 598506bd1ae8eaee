import { readSlackConfig, type SlackConfig } from '../slack/config.ts';
import { readTeamsConfig, type TeamsConfig } from '../teams/config.ts';
import { UsageProblem } from './site.ts';

type Read<Config> =
  | { readonly kind: 'none' }
  | { readonly kind: 'ok'; readonly config: Config }
  | { readonly kind: 'bad'; readonly problems: readonly string[] };

/** The configuration of a chat on this machine; null when there is none. @throws UsageProblem for half of one. */
function whole<Config>(title: string, read: Read<Config>): Config | null {
  switch (read.kind) {
    case 'none':
      return null;
    case 'ok':
      return read.config;
    case 'bad':
      throw new UsageProblem(`${title} is not set up rightly:\n${read.problems.join('\n')}`);
  }
}

export const slackFromEnvironment = (): SlackConfig | null => whole('Slack', readSlackConfig(process.env));
export const teamsFromEnvironment = (): TeamsConfig | null => whole('Teams', readTeamsConfig(process.env));
