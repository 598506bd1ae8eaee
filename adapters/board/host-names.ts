import { isIP } from 'node:net';
import type { MiddlewareHandler } from 'hono';
import type { BoardEnv, Log } from './services.ts';
import { type BoardWords, fill } from './words.ts';

export interface HostNames {
  /** Call when it is known where the board listens. */
  bind(host: string, port: number): void;
  /** `host` as in an address, with or without a port. */
  allows(host: string): boolean;
}

const LOOPBACK_NAMES = ['localhost', '127.0.0.1', '[::1]'];

/** Whether an address or name to listen on is this machine's alone. */
export const isLoopback = (host: string): boolean =>
  host === 'localhost' || host === '::1' || /^127(\.\d{1,3}){3}$/.test(host);

/**
 * Under which names the board answers. Another site can let a name of its own lead to this machine; the browser then
 * takes the board for a part of that site, with all that its pages may do. So a name nobody gave us is refused. Plain
 * addresses belong to no site: once the board listens beyond this machine, each of its addresses will do.
 * The port is looked at for the bound address alone: behind a tunnel or a proxy the others have another one.
 */
export function createHostNames(names: readonly string[] = []): HostNames {
  const known = new Set([...LOOPBACK_NAMES, ...names.map(plain)]);
  let bound: { readonly name: string; readonly port: string; readonly wide: boolean } | null = null;
  return {
    bind(host, port) {
      const name = plain(isIP(host) === 6 ? `[${host}]` : host);
      bound = { name, port: String(port), wide: !isLoopback(host) };
    },
    allows(host) {
      const url = parse(host);
      if (url === null) return false;
      const name = plain(url.hostname);
      if (known.has(name)) return true;
      if (bound === null) return false;
      if (bound.wide && isIP(name.replace(/^\[|\]$/g, '')) !== 0) return true;
      return name === bound.name && (url.port || '80') === bound.port;
    },
  };
}

const plain = (name: string) => name.toLowerCase().replace(/\.$/, '');

function parse(host: string): URL | null {
  try {
    const url = new URL(`http://${host}`);
    // Anything but a name and a port would be read as something else than it was sent for.
    return url.pathname === '/' && url.username === '' && url.search === '' && url.hash === '' ? url : null;
  } catch {
    return null;
  }
}

/** Refuses every request under a foreign name, before anything else looks at it, in the site's own words. */
export function onlyUnder(
  hosts: HostNames,
  log: Log,
  site: () => { readonly words: BoardWords; readonly language: string },
): MiddlewareHandler<BoardEnv> {
  return async (c, next) => {
    const asked = new URL(c.req.url).host;
    const foreign = [asked, c.req.header('host') ?? asked].find((host) => !hosts.allows(host));
    if (foreign === undefined) return next();
    const host = foreign.slice(0, 100);
    log.warn({ host, path: c.req.path }, 'a request under a name that is not the board’s was refused');
    c.header('Cache-Control', 'no-store');
    const { words, language } = site();
    c.header('Content-Language', language);
    return c.text(fill(words.wrongName, { host }), 421);
  };
}
