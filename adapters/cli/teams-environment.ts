import { readTeamsConfig, type TeamsConfig } from '../teams/config.ts';
import { UsageProblem } from './site.ts';

/** The Teams configuration of this machine; null when there is none. @throws UsageProblem for half of one. */
export function teamsFromEnvironment(): TeamsConfig | null {
  const read = readTeamsConfig(process.env);
  switch (read.kind) {
    case 'none':
      return null;
    case 'ok':
      return read.config;
    case 'bad':
      throw new UsageProblem(`Teams is not set up rightly:\n${read.problems.join('\n')}`);
  }
}
