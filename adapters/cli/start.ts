import { steadyClock } from '../host/clock.ts';
import type { Log } from '../host/log.ts';
import { compose, openStore } from './compose.ts';
import type { LoadedSite } from './site.ts';

export interface StartOptions {
  readonly site: LoadedSite;
  readonly data: string;
  readonly host: string;
  readonly port: number;
  readonly log: Log;
  readonly print: (text: string) => void;
}

/** Run until a signal ends it. Resolves once everything is up; `done` when it is down again. */
export async function start(
  options: StartOptions,
): Promise<{ readonly url: string; readonly done: Promise<void> }> {
  const { site, data, log, print } = options;
  const store = openStore(data);
  const potbell = await compose(site, store, steadyClock(log), log);
  await potbell.host.start();
  const board = await potbell.board
    .start({ host: options.host, port: options.port })
    .catch(async (error: unknown) => {
      await potbell.stop();
      throw error;
    });
  print(welcome(site, board.url, data));

  let end: () => void = () => undefined;
  const done = new Promise<void>((resolve) => {
    end = resolve;
  });
  const stop = async (signal: string) => {
    log.info({ signal }, 'stopping');
    await board.stop();
    await potbell.stop();
    end();
  };
  process.once('SIGINT', () => void stop('SIGINT'));
  process.once('SIGTERM', () => void stop('SIGTERM'));
  return { url: board.url, done };
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
