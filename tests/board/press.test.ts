import { describe, expect, test } from 'vitest';
import { needsFreshPin } from '../../adapters/board/press.ts';
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

  test('whose answer a panel gives as well shows one line that leads there, and that panel first for two minutes', async () => {
    const fake = fakeBoard();
    const flush = {
      summary: 'Flush of rig 1: step 2 is next',
      tone: 'attention',
      blocks: [{ kind: 'paragraph', line: ['Lock the trigger.'] }],
    } as const;
    const other = { summary: 'Dry enough', tone: 'plain', blocks: [] } as const;
    fake.panels = [
      { id: 'conditions', tone: 'plain', title: 'Conditions', message: other },
      { id: 'rig-rig-1', tone: 'attention', title: 'Rig 1', message: flush },
    ];
    fake.answer = () => ({ ok: true, shift: fake.shift as never, events: [], repeated: false, shown: flush });
    const ada = visitor(fake);
    await ada.logIn('ada');
    await ada.press(warm, { ...here, _back: '/' });
    const page = await ada.page('/');
    expect(page).toContain(
      '<p class="summary"><a href="#p-rig-rig-1">Flush of rig 1: step 2 is next</a></p>',
    );
    expect(page.match(/Lock the trigger\./g)).toHaveLength(1);
    const order = (text: string) => [...text.matchAll(/id="(p-[\w-]+)" data-tone/g)].map(([, id]) => id);
    expect(order(page)).toEqual(['p-rig-rig-1', 'p-conditions']);
    const fragment = /data-fragment="([^"]*)"/.exec(page)?.[1]?.replaceAll('&amp;', '&') ?? '';
    expect(order(await ada.page(fragment))).toEqual(['p-rig-rig-1', 'p-conditions']);
    fake.now = START + 2 * MIN;
    expect(order(await ada.page(fragment))).toEqual(['p-conditions', 'p-rig-rig-1']);
    expect(order(await ada.page('/'))).toEqual(['p-conditions', 'p-rig-rig-1']);
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

  test('a button to the sign-off page leads to the log-in and from there to the page', async () => {
    const fake = fakeBoard();
    const label = 'Read, answer, sign';
    fake.panels = [
      {
        id: 'sign',
        tone: 'attention',
        title: 'Sign-off',
        message: {
          summary: 's',
          tone: 'attention',
          blocks: [
            {
              kind: 'buttons',
              buttons: [{ label, tone: 'main', action: { kind: 'show', page: 'sign-off' } }],
            },
          ],
        },
      },
    ];
    const screen = visitor(fake);
    const button = (page: string) => /<a class="button" id="p-sign-0-0"[^>]*href="([^"]*)"/.exec(page)?.[1];
    expect(button(await screen.page('/'))).toBe('/login?next=%2Fsign-off');
    const press = () =>
      screen.post('/do', {
        _command: 'press-0001',
        _action: JSON.stringify({ kind: 'show', page: 'sign-off' }),
      });
    expect(leadsTo(await press())).toBe('/login?next=%2Fsign-off');
    expect(leadsTo(await screen.logIn('ada', { next: '/sign-off' }))).toBe('/sign-off');
    expect(button(await screen.page('/'))).toBe('/sign-off');
    expect(leadsTo(await press())).toBe('/sign-off');
  });

  test('the sign-off page can be read and offers the log-in on top, which leads back', async () => {
    const screen = visitor(fakeBoard());
    for (const path of ['/sign-off', '/fragment/sign-off']) {
      const page = await screen.page(path);
      expect(page).toMatch(/<div id="panels" class="panels"><section class="panel" id="p-who"/);
      expect(page).toContain('data-tone="main" href="/login?next=%2Fsign-off">Log in</a>');
    }
    await screen.logIn('ada');
    expect(await screen.page('/sign-off')).not.toContain('id="p-who"');
    expect(await visitor(fakeBoard()).page('/briefing')).not.toContain('id="p-who"');
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

  const post = { type: 'post-day', entry: { date: '2026-03-09' } };
  const heavy: readonly (readonly [string, object])[] = [
    ['lifting a stop', { type: 'clear-stop-work', text: 'Ladder tied.' }],
    ['clearing a tag', { type: 'clear-tag', rig: 'rig-1', text: 'New hose.' }],
    ['closing a concern', { type: 'resolve-concern', concern: 'c1', text: 'Fan moved.' }],
    ['taking a batch back', { type: 'void-batch', rig: 'rig-1', batch: 'rig-1-1', reason: 'Logged twice.' }],
    ['closing the shift', { type: 'close-shift', reason: '' }],
    ['a signature for somebody', { type: 'sign', revision: 2, witnessFor: 'yusra' }],
    [
      'an answer for somebody',
      { type: 'answer', revision: 2, question: 'q', choice: 0, witnessFor: 'yusra' },
    ],
  ];

  test.each(heavy)('and %s need a fresh PIN as well', async (_name, command) => {
    const fake = fakeBoard();
    const ada = visitor(fake);
    await ada.logIn('ada');
    fake.now = START + 3 * MIN;
    await ada.press(command, { ...here, _command: 'press-0001' });
    expect(fake.requests).toHaveLength(1);
    fake.now = START + 3 * MIN + 1;
    const login = leadsTo(await ada.press(command, { ...here, _command: 'press-0002' }));
    expect(login).toMatch(/^\/login\?held=.*&who=ada$/);
    expect(fake.requests).toHaveLength(1);
    const held = new URLSearchParams(login.split('?')[1]).get('held') ?? '';
    await ada.logIn('ada', { held });
    expect(fake.requests).toHaveLength(2);
  });

  test('posting the day needs one as well, and what was typed goes on by itself', async () => {
    const fake = fakeBoard({
      readForm: () => ({ ok: true, command: { type: 'close-shift', reason: 'rain' } }),
    });
    const ada = visitor(fake);
    await ada.logIn('ada');
    fake.now = START + 4 * MIN;
    const login = leadsTo(await ada.post('/form/close-shift', { _command: 'press-0001', note: 'rain' }));
    expect(fake.requests).toEqual([]);
    const held = new URLSearchParams(login.split('?')[1]).get('held') ?? '';
    await ada.logIn('ada', { held });
    expect(fake.requests.map(({ command }) => command)).toEqual([{ type: 'close-shift', reason: 'rain' }]);
    expect(needsFreshPin(post as Command)).toBe(true);
  });

  test('one’s own answer needs no second PIN', () => {
    expect(needsFreshPin({ type: 'answer', revision: 2, question: 'q', choice: 0 })).toBe(false);
  });

  test('other presses need no second PIN while the log-in lasts', async () => {
    const fake = fakeBoard();
    const tomas = visitor(fake);
    await tomas.logIn('tomas');
    fake.now = START + 9 * MIN;
    expect(leadsTo(await tomas.press(warm, here))).toBe('/briefing');
  });
});
