import { describe, expect, test } from 'vitest';
import { hostCommands } from '../../src/model/command.ts';
import { MINUTE } from '../../src/model/time.ts';
import { StoreDamaged } from '../../src/ports.ts';
import { aDay, DATE, t } from '../flow/pack.ts';
import { anApi, pins, SHIFT } from './world.ts';

const concern = (text: string) => ({ type: 'raise-concern', text }) as const;

async function withDay() {
  const one = anApi();
  expect(await one.send('finn', aDay())).toMatchObject({ status: 200, ok: true });
  return one;
}

describe('a request that cannot be read', () => {
  test('is not JSON', async () => {
    const { raw, pinChecks } = anApi();
    for (const body of ['', '{"person": "finn"', 'person=finn'])
      expect(await raw(body)).toEqual({ status: 400, ok: false, text: 'The body is not JSON.' });
    expect(pinChecks).toEqual([]);
  });

  test('is JSON, but says it is something else, as a form of another page would', async () => {
    const { raw } = anApi();
    for (const type of ['text/plain', 'application/x-www-form-urlencoded'])
      expect(await raw('{}', type)).toEqual({ status: 415, ok: false, text: 'Send JSON.' });
  });

  test('is too large', async () => {
    const { raw } = anApi();
    expect(await raw(JSON.stringify({ person: 'x'.repeat(70_000) }))).toEqual({
      status: 413,
      ok: false,
      text: 'At most 64 KB.',
    });
  });

  test('is another value of JSON', async () => {
    const { raw } = anApi();
    for (const body of ['null', '[]', '"finn"', '4'])
      expect(await raw(body)).toMatchObject({ status: 422, ok: false });
  });

  test.each([
    ['no command', { command: undefined }, 'command'],
    ['a command nobody knows', { command: { type: 'spray' } }, 'command.type'],
    ['a PIN that is a number', { pin: 640381 }, 'pin'],
    ['a PIN with letters', { pin: '64038I' }, 'pin'],
    ['an id too short to be one', { commandId: '7' }, 'commandId'],
    ['who it is, a second time', { actor: { kind: 'system', part: 'bells' } }, 'actor'],
    ['a person id that is none', { person: '__proto__' }, 'person'],
  ])('names the place: %s', async (_what, change, place) => {
    const { send, pinChecks, logged } = await withDay();
    pinChecks.length = 0;
    const answer = await send('finn', concern('x'), change);
    expect(answer).toMatchObject({ status: 422, ok: false });
    expect(answer.text).toContain(place);
    expect(answer.text).not.toContain('6403');
    expect(pinChecks).toEqual([]);
    expect(logged).toEqual([]);
  });

  test('a figure that cannot be right is answered in words, with its place', async () => {
    const { send } = await withDay();
    const reading = { type: 'take-reading', airC: 280, rhPct: 60, steelC: 20 };
    const { status, text } = await send('finn', reading);
    expect(status).toBe(422);
    expect(text).toContain('is this °C? −30 to 80 can be right here');
    expect(text).toContain('command.airC');
  });

  test('nothing but a POST is a command', async () => {
    const { api } = anApi();
    for (const method of ['GET', 'PUT', 'DELETE'])
      expect((await api.request('/command', { method })).status).toBe(404);
  });
});

describe('who asks', () => {
  test('is the person whose PIN it is, on the surface of the command line', async () => {
    const { send, journal } = await withDay();
    await send('pia', concern('The barrier is open.'));
    expect((await journal()).at(-1)?.event.by).toEqual({
      kind: 'person',
      person: 'pia',
      surface: 'command line',
    });
  });

  test('a wrong PIN and an unknown person get the same words, and nothing is done', async () => {
    const { send, journal, logged } = await withDay();
    const before = (await journal()).length;
    const wrong = await send('pia', concern('x'), { pin: pins.max });
    const unknown = await send('nobody', concern('x'));
    expect(wrong).toEqual({
      status: 401,
      ok: false,
      text: 'This PIN is not right. Nothing was done. Tries left: 4.',
    });
    expect(unknown).toEqual(wrong);
    expect(await journal()).toHaveLength(before);
    // The log says who was tried, and never what with.
    expect(logged.map(({ facts }) => facts)).toEqual([
      { person: 'pia', triesLeft: 4 },
      { person: 'nobody', triesLeft: 4 },
    ]);
    expect(JSON.stringify(logged)).not.toMatch(/862503|000000/);
  });

  test('after five wrong PINs even the right one waits five minutes, and is not looked at', async () => {
    const { send, world, pinChecks, journal } = await withDay();
    for (let left = 4; left >= 0; left -= 1)
      expect((await send('pia', concern('x'), { pin: '111111' })).text).toContain(`Tries left: ${left}.`);
    const looked = pinChecks.length;
    expect(await send('pia', concern('Really me.'))).toEqual({
      status: 429,
      ok: false,
      text: 'Too many wrong PINs. Wait five minutes.',
    });
    expect(pinChecks).toHaveLength(looked);
    expect(await send('max', concern('I am another.'))).toMatchObject({ status: 200 });

    world.now += 5 * MINUTE - 1;
    expect((await send('pia', concern('Too early.'))).status).toBe(429);
    world.now += 1;
    expect((await send('pia', concern('Really me.'))).status).toBe(200);
    const said = (await journal()).flatMap(({ event: { body } }) =>
      body.type === 'concern-raised' ? [body.text] : [],
    );
    expect(said).toEqual(['I am another.', 'Really me.']);
  });

  test('thirty wrong PINs for whatever names close the way for all', async () => {
    const { send } = await withDay();
    for (let index = 0; index < 30; index += 1)
      expect((await send(`guess-${index}`, concern('x'))).status).toBe(401);
    expect((await send('finn', concern('x'))).status).toBe(429);
  });

  test('a right PIN clears the count', async () => {
    const { send } = await withDay();
    for (let round = 0; round < 3; round += 1) {
      for (let wrong = 0; wrong < 4; wrong += 1) await send('pia', concern('x'), { pin: '111111' });
      expect((await send('pia', concern('x'))).status).toBe(200);
    }
  });
});

describe('what is asked', () => {
  const asHost = {
    ring: { type: 'ring' },
    'note-undelivered': { type: 'note-undelivered', message: 'm', to: 'pia', surface: 'wall', why: 'gone' },
    'hand-over': { type: 'hand-over', to: 'weir:2026-05-13' },
  } as const;

  test.each(hostCommands)('%s is for the host alone', async (type) => {
    const { send, journal, pinChecks } = await withDay();
    const before = (await journal()).length;
    pinChecks.length = 0;
    expect(await send('finn', asHost[type as keyof typeof asHost])).toEqual({
      status: 422,
      ok: false,
      text: `"${type}" is not for people.`,
    });
    expect(pinChecks).toEqual([]);
    expect(await journal()).toHaveLength(before);
  });

  test('a day goes to its own date, whatever day it is', async () => {
    const { send, world } = anApi();
    expect((await send('finn', aDay({ date: '2026-05-14' }))).status).toBe(200);
    expect(await world.store.shift('weir:2026-05-14')).not.toBeNull();
    expect(await world.store.shift(SHIFT)).toBeNull();
  });

  test('before a day has been posted there is nothing to do it to', async () => {
    const { send } = anApi();
    expect(await send('pia', concern('x'))).toEqual({
      status: 409,
      ok: false,
      text: 'No day has been posted.',
    });
  });

  test('a closed shift takes nothing more', async () => {
    const { send, world, journal } = await withDay();
    world.now = t('16:00');
    expect((await send('finn', { type: 'close-shift', reason: 'rain' })).status).toBe(200);
    const lines = (await journal()).length;
    const answer = await send('pia', concern('x'));
    expect(answer).toMatchObject({ status: 409, ok: false });
    expect(answer.text).toContain(DATE);
    expect(answer.text).toContain('closed');
    expect(await journal()).toHaveLength(lines);
  });

  test('what the flow refuses is refused here, in the same words', async () => {
    const { send, journal } = await withDay();
    const lines = (await journal()).length;
    const answer = await send('pia', { type: 'close-shift' });
    expect(answer).toMatchObject({ status: 409, ok: false });
    expect(answer.text).toContain('Only the foreman can do this: Finn.');
    expect(await journal()).toHaveLength(lines);
  });
});

describe('the same request again', () => {
  test('is done once, and answered yes both times', async () => {
    const { send, journal } = await withDay();
    const lines = (await journal()).length;
    const first = await send('pia', concern('The barrier is open.'), { commandId: 'the-barrier' });
    const second = await send('pia', concern('The barrier is open.'), { commandId: 'the-barrier' });
    expect(first).toMatchObject({ status: 200, ok: true });
    expect(second).toMatchObject({ status: 200, ok: true, text: 'Already done. Nothing was done twice.' });
    expect(await journal()).toHaveLength(lines + 1);
  });

  test('many at once are done once', async () => {
    const { send, journal } = await withDay();
    const lines = (await journal()).length;
    const answers = await Promise.all(
      Array.from({ length: 5 }, () => send('pia', concern('Once.'), { commandId: 'at-once-1' })),
    );
    expect(answers.map(({ status }) => status)).toEqual([200, 200, 200, 200, 200]);
    expect(await journal()).toHaveLength(lines + 1);
  });

  test('an id used again for something else, or by somebody else, is no repeat', async () => {
    const { send, journal } = await withDay();
    const lines = (await journal()).length;
    const commandId = 'always-the-same';
    await send('pia', concern('The barrier is open.'), { commandId });
    for (const [person, text] of [
      ['pia', 'The lead is off.'],
      ['max', 'The barrier is open.'],
    ] as const)
      expect((await send(person, concern(text), { commandId })).text).not.toContain('Already done');
    expect(await journal()).toHaveLength(lines + 3);
  });

  test('no id can be that of a bell or of another way in', async () => {
    const { send, journal } = await withDay();
    await send('pia', concern('x'), { commandId: 'undelivered:weir:1' });
    expect((await journal()).at(-1)?.event.commandId).toMatch(/^api:undelivered:weir:1:[0-9a-f]{16}$/);
  });

  test('one that was refused may be sent again when it has become right', async () => {
    const { send } = anApi();
    const commandId = 'barrier-0001';
    expect((await send('pia', concern('x'), { commandId })).status).toBe(409);
    await send('finn', aDay());
    expect(await send('pia', concern('x'), { commandId })).toMatchObject({ status: 200, ok: true });
  });
});

describe('when Potbell itself fails', () => {
  test('the answer is JSON too, and the log has the reason', async () => {
    const { send, logged } = anApi(() => Promise.reject(new Error('disk of the shed')));
    const answer = await send('finn', aDay());
    expect(answer).toMatchObject({ status: 500, ok: false });
    expect(answer.text).toContain('Look on the board whether it was done before you send it again.');
    expect(answer.text).not.toContain('disk of the shed');
    expect(logged.at(-1)?.facts).toMatchObject({ err: new Error('disk of the shed') });
    expect(JSON.stringify(logged)).not.toContain(pins.finn);
  });

  test('a damaged store says what to do about it', async () => {
    const damaged = new StoreDamaged('Keep the file.', { shift: null, what: 'file' });
    const { send } = anApi(() => Promise.reject(damaged));
    expect(await send('finn', aDay())).toEqual({ status: 500, ok: false, text: 'Keep the file.' });
  });
});
