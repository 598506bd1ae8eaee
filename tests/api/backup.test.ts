import { expect, test } from 'vitest';
import { createApi } from '../../adapters/api/api.ts';
import { createPinAttempts } from '../../adapters/host/pin-attempts.ts';
import { pins } from './world.ts';

function anApi(copies = true) {
  let made = 0;
  const api = createApi({
    handle: async () => {
      throw new Error('a copy is no command');
    },
    attempts: createPinAttempts({ now: () => 0 }),
    log: { info: () => {}, warn: () => {}, error: () => {} },
    checkPin: async (person, pin) => Object.hasOwn(pins, person) && pins[person] === pin,
    shiftIdFor: (date) => date,
    currentShift: async () => null,
    backup: copies
      ? {
          isForeman: (person) => person === 'finn',
          copy: async () => {
            made += 1;
            return new Uint8Array([1, 2, 3]);
          },
        }
      : null,
  });
  const ask = (body: unknown, type = 'application/json') =>
    api.request('/backup', {
      method: 'POST',
      body: typeof body === 'string' ? body : JSON.stringify(body),
      headers: { 'content-type': type },
    });
  return { ask, made: () => made };
}
const foreman = { person: 'finn', pin: pins.finn };

test('a foreman with the PIN gets the bytes of the copy, kept by no cache', async () => {
  const { ask } = anApi();
  const response = await ask(foreman);
  expect(response.status).toBe(200);
  expect(response.headers.get('cache-control')).toBe('no-store');
  expect([...new Uint8Array(await response.arrayBuffer())]).toEqual([1, 2, 3]);
});

test.each([
  ['somebody else', { person: 'max', pin: pins.max }, 403, /Only a foreman/],
  ['a wrong PIN', { person: 'finn', pin: '000000' }, 401, /PIN is not right/],
  ['no PIN', { person: 'finn' }, 422, /pin/],
  ['no JSON', 'person=finn', 400, /not JSON/],
])('%s gets none, and none is made', async (_who, body, status, says) => {
  const { ask, made } = anApi();
  const response = await ask(body);
  expect(response.status).toBe(status);
  expect(((await response.json()) as { text: string }).text).toMatch(says);
  expect(made()).toBe(0);
});

test('a form of another page gets none', async () => {
  const { ask, made } = anApi();
  expect((await ask(foreman, 'text/plain')).status).toBe(415);
  expect(made()).toBe(0);
});

test('a store that cannot be copied has no such way in', async () => {
  expect((await anApi(false).ask(foreman)).status).toBe(404);
});
