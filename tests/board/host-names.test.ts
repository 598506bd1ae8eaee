import { request } from 'node:http';
import { describe, expect, test } from 'vitest';
import { createBoard } from '../../adapters/board/board.ts';
import { createHostNames } from '../../adapters/board/host-names.ts';
import { fakeBoard } from './fakes.ts';

const stop = JSON.stringify({ kind: 'do', command: { type: 'stop-work', text: '' } });

describe('the names the board answers under', () => {
  const on = (host: string, names: readonly string[] = []) => {
    const hosts = createHostNames(names);
    hosts.bind(host, 4870);
    return (asked: string) => hosts.allows(asked);
  };

  test.each([
    'localhost',
    'localhost:4870',
    'LOCALHOST:9',
    '127.0.0.1:4870',
    '[::1]:4870',
    'localhost.:4870',
  ])('%s is this machine', (asked) => expect(on('127.0.0.1')(asked)).toBe(true));

  test.each([
    'evil.example',
    'evil.example:4870',
    'localhost.evil.example',
    '127.0.0.1.evil.example',
    '192.0.2.7:4870',
    '[2001:db8::1]',
    'evil.example@localhost',
    'localhost/evil.example',
    'localhost?evil.example',
    '',
  ])('%j is not, on a board for this machine alone', (asked) => expect(on('127.0.0.1')(asked)).toBe(false));

  test.each(['0.0.0.0', '192.0.2.7', '::'])('listening on %s any plain address will do, no name', (host) => {
    const allows = on(host);
    expect(allows('192.0.2.7:4870')).toBe(true);
    expect(allows('[2001:db8::1]:4870')).toBe(true);
    expect(allows('evil.example:4870')).toBe(false);
    expect(allows('192.0.2.7.evil.example:4870')).toBe(false);
  });

  test('the bound name goes with its port; given names go with any', () => {
    const allows = on('shed-screen', ['Shed.example']);
    expect(allows('shed-screen:4870')).toBe(true);
    expect(allows('shed-screen:80')).toBe(false);
    expect(allows('shed.example')).toBe(true);
    expect(allows('shed.example:8443')).toBe(true);
    expect(allows('other.shed.example')).toBe(false);
  });
});

describe('a request under a foreign name', () => {
  test.each(['/', '/emergency', '/live', '/healthz', '/fragment/today', '/login'])(
    'is refused on %s, in words that say how to mend it',
    async (path) => {
      const fake = fakeBoard();
      const answer = await fake.board.app.request(`http://evil.example${path}`);
      expect(answer.status).toBe(421);
      expect(answer.headers.get('content-type')).toContain('text/plain');
      const text = await answer.text();
      expect(text).toContain('does not answer under the name "evil.example"');
      expect(text).toContain('add this name to its host names');
      expect(fake.logged).toEqual([
        expect.objectContaining({ level: 'warn', details: { host: 'evil.example', path } }),
      ]);
    },
  );

  test.each([
    ['/do', { _command: 'press-0001', _action: stop }],
    ['/login', { who: 'ada', pin: '4711' }],
  ])('that matches its origin cannot press %s: a name led here from elsewhere', async (path, fields) => {
    const fake = fakeBoard();
    const answer = await fake.board.app.request(`http://evil.example${path}`, {
      method: 'POST',
      body: new URLSearchParams(fields as Record<string, string>),
      headers: { origin: 'http://evil.example', host: 'evil.example' },
    });
    expect(answer.status).toBe(421);
    expect(answer.headers.getSetCookie()).toEqual([]);
    expect(fake.requests).toEqual([]);
    expect(fake.pinChecks).toEqual([]);
  });

  test('goes through once the name is given', async () => {
    const fake = fakeBoard({ hostNames: ['shed.example'] });
    const answer = await fake.board.app.request('http://shed.example/do', {
      method: 'POST',
      body: new URLSearchParams({ _command: 'press-0001', _action: stop }),
      headers: { origin: 'http://shed.example' },
    });
    expect(answer.status).toBe(303);
    expect(fake.requests).toHaveLength(1);
  });

  test('is refused over the wire as well; the bound address is not', async () => {
    const running = await createBoard(fakeBoard().services).start({ port: 0 });
    const { port, host } = new URL(running.url);
    const status = (name: string) =>
      new Promise((resolve, reject) => {
        request({ host: '127.0.0.1', port, path: '/healthz', headers: { host: name } }, (answer) => {
          answer.resume();
          resolve(answer.statusCode);
        })
          .on('error', reject)
          .end();
      });
    expect(await status('evil.example')).toBe(421);
    expect(await status(`evil.example:${port}`)).toBe(421);
    expect(await status(host)).toBe(200);
    await running.stop();
  });
});
