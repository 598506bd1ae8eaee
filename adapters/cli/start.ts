import { steadyClock } from '../host/clock.ts';
import type { Log } from '../host/log.ts';
import type { SlackConfig } from '../slack/config.ts';
import type { TeamsConfig } from '../teams/config.ts';
import { compose, openRunning } from './compose.ts';
import { type LoadedSite, UsageProblem } from './site.ts';

export interface StartOptions {
  readonly site: LoadedSite;
  readonly data: string;
  readonly host: string;
  readonly port: number;
  /** Names under which phones open the board, beside its address. */
  readonly names: readonly string[];
  readonly log: Log;
  readonly slack: SlackConfig | null;
  readonly teams: TeamsConfig | null;
  readonly print: (text: string) => void;
}

/** Run until a signal ends it. Resolves once everything is up; `done` when it is down again. */
export async function start(
  options: StartOptions,
): Promise<{ readonly url: string; readonly done: Promise<void> }> {
  const { site, data, log, print } = options;
  // From here on, so that a stop asked for while it starts is a clean one too.
  const signalled = untilSignal();
  const { store, copyTo, memoryFor } = openRunning(data);
  const clock = steadyClock(log);
  const memory = memoryFor(clock);
  const potbell = await compose(site, store, clock, log, {
    hostNames: options.names,
    copyTo,
    slack: options.slack && { config: options.slack, memory },
    teams: options.teams && { config: options.teams, memory },
  });
  await potbell.host.start();
  potbell.join();
  const board = await potbell.board
    .start({ host: options.host, port: options.port })
    .catch(async (error: unknown) => {
      await potbell.stop();
      // The address was asked for by the person who starts it, and another one mends it.
      throw new UsageProblem(error instanceof Error ? error.message : String(error));
    });
  print(welcome(site, board.url, data));

  const done = signalled.then(async (signal) => {
    log.info({ signal }, 'stopping');
    await board.stop();
    await potbell.stop();
  });
  return { url: board.url, done };
}

/** The first of them counts. Ctrl-C under npm can bring two; neither may cut the stopping short. */
function untilSignal(): Promise<NodeJS.Signals> {
  return new Promise((resolve) => {
    process.on('SIGINT', resolve);
    process.on('SIGTERM', resolve);
  });
}

function welcome({ pack, demoPins, warnings }: LoadedSite, url: string, data: string): string {
  const people = pack.people.map(({ id, name, roles }) => {
    const pin = demoPins[id];
    return `  ${name.padEnd(12)} ${pin === undefined ? '' : `PIN ${pin}   `}${roles.join(', ')}`;
  });
  return [
    `Potbell for ${pack.site.name}`,
    `Board: ${url}`,
    `Data:  ${data}`,
    ...(warnings.length > 0 ? ['', 'Warnings about the site pack:', ...warnings] : []),
    '',
    pack.site.demo ? 'Demo site, all invented. Its PINs are public:' : 'Who can log in with their PIN:',
    ...people,
    '',
    'Stop with Ctrl-C. Nothing is lost by stopping; bells do not ring while it is down.',
  ].join('\n');
}
