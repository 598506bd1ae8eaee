import { describe, expect, test } from 'vitest';
import type { Command } from '../../src/model/command.ts';
import { fakeBoard, refused, SHIFT, START } from './fakes.ts';
import { leadsTo, visitor } from './visitor.ts';

const MIN = 60_000;
const warm: Command = { type: 'hose-warm', rig: 'rig-1' };
const sign: Command = { type: 'sign', revision: 2 };
const here = { _shift: SHIFT, _back: '/briefing' };

describe('a button', () => {
  test('reaches the one door as the person who logged in, and its answer is shown once where it was pressed', async () => {
    const fake = fakeBoard();
    const ada = visitor(fake);
    await ada.logIn('ada');
    expect(leadsTo(await ada.press(warm, here))).toBe('/briefing');
    expect(fake.requests).toEqual([
      {
        shift: SHIFT,
        command: warm,
        actor: { kind: 'person', person: 'ada', surface: 'board' },
        commandId: expect.stringMatching(/^board:press-0001:/),
      },
    ]);
    const page = await ada.page('/briefing');
    expect(page).toContain('Noted: hose-warm');
    expect(page).toMatch(/<title>Noted: hose-warm – Briefing – Potbell<\/title>/);
    expect(await ada.page('/briefing')).not.toContain('Noted: hose-warm');
  });

  test('pressed twice is one press, and the first answer is the one shown', async () => {
    const fake = fakeBoard();
    const ada = visitor(fake);
    await ada.logIn('ada');
    await ada.press(warm, here);
    await ada.press(warm, here);
    const [first, second] = fake.requests;
    expect(second?.commandId).toBe(first?.commandId);
    const page = await ada.page('/briefing');
    expect(page).toContain('Noted: hose-warm');
    expect(page).not.toContain('Already noted');
  });

  test('pressed again later says peacefully that it was noted', async () => {
    const fake = fakeBoard();
    const ada = visitor(fake);
    await ada.logIn('ada');
    await ada.press(warm, here);
    await ada.page('/');
    await ada.press(warm, here);
    expect(await ada.page('/')).toContain('Already noted');
  });

  test('from a page brought back but pressed by somebody else is a press of its own', async () => {
    const fake = fakeBoard();
    const screen = visitor(fake);
    await screen.logIn('ada');
    await screen.press(warm, here);
    await screen.logIn('tomas');
    await screen.press(warm, here);
    expect(new Set(fake.requests.map(({ commandId }) => commandId)).size).toBe(2);
  });

  test('refused by the flow says why on the page', async () => {
    const fake = fakeBoard();
    fake.answer = () => ({ ok: false, shown: refused('Rig 1 is tagged out.') });
    const ada = visitor(fake);
    await ada.logIn('ada');
    await ada.press(warm, here);
    expect(await ada.page('/briefing')).toContain('Rig 1 is tagged out.');
  });

  test.each([
    ['a forged value', { _action: '{"kind":"do","command":{"type":"hose-warm","rig":"rig-1","by":"mira"}}' }],
    ['a cut value', { _action: '{"kind":"do","comm' }],
    ['no value', { _action: '' }],
    ['a bell that only the loop may ring', { _action: '{"kind":"do","command":{"type":"ring"}}' }],
    [
      'a note that only the outbox may make',
      {
        _action: JSON.stringify({
          kind: 'do',
          command: { type: 'note-undelivered', message: 'm', to: 't', surface: 's', why: 'w' },
        }),
      },
    ],
    [
      'a shift that does not exist',
      { _action: JSON.stringify({ kind: 'do', command: warm }), _shift: 'quay:1999-01-01' },
    ],
    ['no press id', { _action: JSON.stringify({ kind: 'do', command: warm }), _command: '' }],
  ])('with %s is answered clearly and changes nothing', async (_why, fields) => {
    const fake = fakeBoard();
    const ada = visitor(fake);
    await ada.logIn('ada');
    const answer = await ada.post('/do', { _command: 'press-0001', ...here, ...fields });
    expect(answer.status).toBe(400);
    expect(await answer.text()).toContain('This button is from an old page');
    expect(fake.requests).toEqual([]);
  });

  test('that shows a page or opens a form leads there', async () => {
    const ada = visitor(fakeBoard());
    const post = (action: object) =>
      ada.post('/do', { _command: 'press-0001', _action: JSON.stringify(action) });
    expect(leadsTo(await post({ kind: 'show', page: 'record' }))).toBe('/record');
    expect(leadsTo(await post({ kind: 'open', form: { id: 'pause', about: { rig: 'rig-1' } } }))).toBe(
      '/form/pause?rig=rig-1&_back=%2F',
    );
  });

  test('with no shift posted says so', async () => {
    const fake = fakeBoard();
    fake.shift = null;
    const ada = visitor(fake);
    await ada.logIn('ada');
    const answer = await ada.press({ type: 'issue-briefing' });
    expect(answer.status).toBe(409);
    expect(await answer.text()).toContain('No shift is posted');
  });
});

describe('without a log-in', () => {
  test('a press waits, asks who it is, and goes on by itself', async () => {
    const fake = fakeBoard();
    const screen = visitor(fake);
    const login = leadsTo(await screen.press(warm, here));
    expect(login).toMatch(/^\/login\?held=/);
    expect(fake.requests).toEqual([]);
    const names = await screen.page(login);
    expect(names).toContain('This needs your name');
    expect(names).toContain('Ada Fenwright');
    const held = new URLSearchParams(login.split('?')[1]).get('held') ?? '';
    expect(names).toContain(`who=ada&amp;held=${held}`);
    expect(leadsTo(await screen.logIn('ada', { held, next: '/briefing' }))).toBe('/briefing');
    expect(fake.requests.map(({ command, actor }) => ({ command, actor }))).toEqual([
      { command: warm, actor: { kind: 'person', person: 'ada', surface: 'board' } },
    ]);
    expect(await screen.page('/briefing')).toContain('Noted: hose-warm');
  });

  test('somebody else cannot make a person press what waits: it is bound to the browser', async () => {
    const fake = fakeBoard();
    const login = leadsTo(await visitor(fake).press(warm, here));
    const held = new URLSearchParams(login.split('?')[1]).get('held') ?? '';
    const victim = visitor(fake);
    expect(leadsTo(await victim.logIn('ada', { held, next: '/' }))).toBe('/');
    expect(fake.requests).toEqual([]);
  });

  test('stop-work needs one press and no log-in, from every page', async () => {
    const fake = fakeBoard();
    const screen = visitor(fake);
    for (const path of [
      '/',
      '/briefing',
      '/sign-off',
      '/notices',
      '/record',
      '/emergency',
      '/login',
      '/login?who=ada',
      '/no-such-page',
    ]) {
      const page = await screen.page(path);
      expect(page).toContain('id="stop-work"');
      expect(page).toContain('id="emergency"');
    }
    await screen.press({ type: 'stop-work', text: '' });
    expect(fake.requests[0]?.actor).toEqual({ kind: 'unknown', surface: 'board' });
    expect(fake.requests[0]?.shift).toBe(SHIFT);
    expect(await screen.page('/')).toContain('Noted: stop-work');
  });

  test('stop-work is never taken for a repeat and always goes to the current shift', async () => {
    const fake = fakeBoard();
    const screen = visitor(fake);
    await screen.press({ type: 'stop-work', text: '' }, { _shift: 'quay:1999-01-01' });
    await screen.press({ type: 'stop-work', text: '' });
    expect(fake.requests.map((request) => request.shift)).toEqual([SHIFT, SHIFT]);
    expect(fake.requests[0]?.commandId).not.toBe(fake.requests[1]?.commandId);
  });

  test('stop-work carries the name of who is logged in', async () => {
    const fake = fakeBoard();
    const tomas = visitor(fake);
    await tomas.logIn('tomas');
    await tomas.press({ type: 'stop-work', text: '' });
    expect(fake.requests[0]?.actor).toEqual({ kind: 'person', person: 'tomas', surface: 'board' });
  });

  test('stop-work with no shift says plainly that nobody was told', async () => {
    const fake = fakeBoard();
    fake.shift = null;
    const answer = await visitor(fake).press({ type: 'stop-work', text: '' });
    expect(answer.status).toBe(409);
    expect(await answer.text()).toContain('nobody was told');
  });
});

describe('a signature', () => {
  test('goes through within three minutes of the PIN', async () => {
    const fake = fakeBoard();
    const tomas = visitor(fake);
    await tomas.logIn('tomas');
    fake.now = START + 3 * MIN;
    await tomas.press(sign, here);
    expect(fake.requests.map(({ command }) => command)).toEqual([sign]);
  });

  test('later asks that person for the PIN again and then goes on by itself', async () => {
    const fake = fakeBoard();
    const tomas = visitor(fake);
    await tomas.logIn('tomas');
    fake.now = START + 3 * MIN + 1;
    const login = leadsTo(await tomas.press(sign, here));
    expect(fake.requests).toEqual([]);
    const query = new URLSearchParams(login.split('?')[1]);
    expect(query.get('who')).toBe('tomas');
    expect(await tomas.page(login)).toContain('A signature needs your PIN again');
    const wrong = await tomas.post('/login', { who: 'tomas', pin: '0000', held: query.get('held') ?? '' });
    expect(wrong.status).toBe(422);
    expect(await wrong.text()).toContain('A signature needs your PIN again');
    await tomas.logIn('tomas', { held: query.get('held') ?? '' });
    expect(fake.requests.map(({ command, actor }) => ({ command, actor }))).toEqual([
      { command: sign, actor: { kind: 'person', person: 'tomas', surface: 'board' } },
    ]);
  });

  test('other presses need no second PIN while the log-in lasts', async () => {
    const fake = fakeBoard();
    const tomas = visitor(fake);
    await tomas.logIn('tomas');
    fake.now = START + 9 * MIN;
    expect(leadsTo(await tomas.press(warm, here))).toBe('/briefing');
  });
});
