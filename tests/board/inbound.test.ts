import { Hono } from 'hono';
import { describe, expect, test } from 'vitest';
import {
  commandIdFor,
  type Posted,
  readFormRef,
  readPosted,
  shapeValues,
} from '../../adapters/board/inbound.ts';
import { localPath } from '../../adapters/board/local-path.ts';
import { encodeAction } from '../../src/message/action.ts';
import { everyField } from './fakes.ts';

async function read(fields: URLSearchParams | FormData): Promise<Posted | null> {
  let posted: Posted | null | undefined;
  const app = new Hono().post('/', async (c) => {
    posted = await readPosted(c);
    return c.text('');
  });
  await app.request('/', { method: 'POST', body: fields });
  if (posted === undefined) throw new Error('not read');
  return posted;
}
const form = (...pairs: [string, string][]) => new URLSearchParams([['_command', 'press-0001'], ...pairs]);

describe('a posted form', () => {
  test('gives the board its fields and the form all others, several values as a list', async () => {
    const posted = await read(
      form(['_shift', 'quay:2026-03-09'], ['_back', '/briefing'], ['who', 'a'], ['who', 'b'], ['n', '1']),
    );
    expect(posted).toEqual({
      board: { commandId: 'press-0001', shift: 'quay:2026-03-09', back: '/briefing' },
      action: null,
      values: { who: ['a', 'b'], n: '1' },
    });
  });

  test('carries an action only when it is one of ours', async () => {
    const ours = { kind: 'do', command: { type: 'resume', rig: 'rig-1' } } as const;
    expect((await read(form(['_action', encodeAction(ours)])))?.action).toEqual(ours);
    for (const bad of [
      '',
      'x',
      '{"kind":"do"}',
      '{"kind":"do","command":{"type":"resume","rig":"rig-1","person":"ada"}}',
      '{"kind":"run","command":{}}',
    ]) {
      expect((await read(form(['_action', bad])))?.action).toBeNull();
    }
  });

  test.each([
    ['no press id', new URLSearchParams({ n: '1' })],
    ['a press id that is none of ours', new URLSearchParams({ _command: 'bell:x y' })],
    ['a shift id with markup', form(['_shift', '"><b>'])],
    [
      'two press ids',
      new URLSearchParams([
        ['_command', 'press-0001'],
        ['_command', 'press-0002'],
      ]),
    ],
    ['hundreds of fields', form(...Array.from({ length: 700 }, (_, at): [string, string] => [`f${at}`, '']))],
  ])('is not read with %s', async (_why, fields) => expect(await read(fields)).toBeNull());

  test('is not read with a file in it', async () => {
    const data = new FormData();
    data.set('_command', 'press-0001');
    data.set('note', new File(['x'], 'x.txt'));
    expect(await read(data)).toBeNull();
  });

  test('goes back only within the board', async () => {
    expect((await read(form(['_back', 'https://elsewhere.invalid/'])))?.board.back).toBe('/');
  });
});

test.each([
  ['/', '/'],
  ['/form/mix-batch?rig=rig-1&_back=%2F', '/form/mix-batch?rig=rig-1&_back=%2F'],
  ['/a#b', '/a'],
])('the path %s stays', (path, kept) => expect(localPath(path)).toBe(kept));

test.each([
  '//elsewhere.invalid',
  '/\\elsewhere.invalid',
  'https://elsewhere.invalid',
  'javascript:alert(1)',
  '',
  '/\t/elsewhere.invalid',
  `/${'x'.repeat(1001)}`,
  undefined,
])('the path %j is refused', (path) => expect(localPath(path)).toBeNull());

describe('which form', () => {
  const ref = async (path: string) => {
    let found: unknown;
    const app = new Hono().get('/form/:id', (c) => {
      found = readFormRef(c);
      return c.text('');
    });
    await app.request(path);
    return found;
  };
  test('is read from the address', async () => {
    expect(await ref('/form/pause?rig=rig-1&_back=/')).toEqual({ id: 'pause', about: { rig: 'rig-1' } });
  });
  test.each([
    '/form/nonsense',
    `/form/pause?rig=${'x'.repeat(201)}`,
    '/form/pause?a%20b=1',
    `/form/pause?${Array.from({ length: 13 }, (_, at) => `k${at}=1`).join('&')}`,
  ])('is none for %s', async (path) => expect(await ref(path)).toBeNull());
});

test('values get the shape of their fields', () => {
  const shaped = shapeValues(everyField.fields, { who: 'tomas', litres: ['1', '2'], extra: 'kept' });
  expect(shaped.who).toEqual(['tomas']);
  expect(shapeValues(everyField.fields, {}).who).toEqual([]);
  expect(shaped.litres).toBe('2');
  expect(shaped.note).toBe('');
  expect(shaped.extra).toBe('kept');
});

describe('the id of a press at the one door', () => {
  const ada = { kind: 'person', person: 'ada', surface: 'board' } as const;
  const tomas = { ...ada, person: 'tomas' };
  const warm = { type: 'hose-warm', rig: 'rig-1' } as const;
  test('is the same for the same press, and another for another person or another content', () => {
    const id = commandIdFor('press-0001', ada, warm);
    expect(commandIdFor('press-0001', ada, { ...warm })).toBe(id);
    expect(commandIdFor('press-0001', tomas, warm)).not.toBe(id);
    expect(commandIdFor('press-0001', ada, { ...warm, rig: 'rig-2' })).not.toBe(id);
    expect(commandIdFor('press-0002', ada, warm)).not.toBe(id);
  });
  test('can never be the id of a bell', () => {
    expect(commandIdFor('press-0001', ada, warm)).toMatch(/^board:/);
  });
});
