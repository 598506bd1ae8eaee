import type { Fake } from './fakes.ts';
import { pins } from './fakes.ts';

export const ORIGIN = 'http://localhost';

/** A browser without a script: keeps its cookie, sends forms with its origin, follows nothing by itself. */
export function visitor({ board }: Pick<Fake, 'board'>) {
  let cookie: string | null = null;
  async function send(path: string, init: RequestInit = {}): Promise<Response> {
    const headers = new Headers(init.headers);
    if (cookie !== null) headers.set('cookie', cookie);
    const response = await board.app.request(`${ORIGIN}${path}`, { ...init, headers });
    for (const line of response.headers.getSetCookie()) {
      const [pair = ''] = line.split(';');
      cookie = /max-age=0/i.test(line) ? null : pair;
    }
    return response;
  }
  const get = (path: string) => send(path);
  const post = (path: string, fields: Readonly<Record<string, string>> | URLSearchParams, origin = ORIGIN) =>
    send(path, { method: 'POST', body: new URLSearchParams(fields), headers: { origin } });
  return {
    get,
    post,
    send,
    cookie: () => cookie,
    steal: (other: string | null) => {
      cookie = other;
    },
    async page(path: string): Promise<string> {
      return (await get(path)).text();
    },
    logIn: (who: string, more: Readonly<Record<string, string>> = {}) =>
      post('/login', { who, pin: pins[who] ?? '', ...more }),
    /** Press a button that does `command`. */
    press: (command: object, more: Readonly<Record<string, string>> = {}) =>
      post('/do', { _command: 'press-0001', _action: JSON.stringify({ kind: 'do', command }), ...more }),
  };
}

/** Where an answer sends the browser. */
export function leadsTo(response: Response): string {
  if (response.status !== 303) throw new Error(`no redirect but ${response.status}`);
  return response.headers.get('location') ?? '';
}
