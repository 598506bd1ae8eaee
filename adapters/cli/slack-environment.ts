import { readSlackConfig, type SlackConfig } from '../slack/config.ts';
import { UsageProblem } from './site.ts';

/** The Slack configuration of this machine; null when there is none. @throws UsageProblem for half of one. */
export function slackFromEnvironment(): SlackConfig | null {
  const read = readSlackConfig(process.env);
  switch (read.kind) {
    case 'none':
      return null;
    case 'ok':
      return read.config;
    case 'bad':
      throw new UsageProblem(`Slack is not set up rightly:\n${read.problems.join('\n')}`);
  }
}
