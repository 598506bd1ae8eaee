import { describe, expect, test } from 'vitest';
import { fakeBoard, pack, START } from './fakes.ts';
import { leadsTo, visitor } from './visitor.ts';

const MIN = 60_000;

describe('the log-in page', () => {
  test('shows the names as tiles, then the PIN with a numeric keyboard', async () => {
    const screen = visitor(fakeBoard());
    const names = await screen.page('/login?next=%2Fbriefing');
    expect(names).toContain('<h1>Who are you?</h1>');
    expect(names).toContain('href="/login?who=ada&amp;held=&amp;next=%2Fbriefing"');
    expect(names).toContain('Tomas &lt;b&gt;Vell&lt;/b&gt;');
    const pin = await screen.page('/login?who=ada&next=%2Fbriefing');
    expect(pin).toContain('<h1>Ada Fenwright, your PIN</h1>');
    expect(pin).toMatch(/id="pin" name="pin" type="password" inputmode="numeric"/);
    expect(pin).toContain('name="next" value="/briefing"');
  });

  test('keeps a name that runs from right to left from turning the words around it', async () => {
    const people = pack.people.map((one) => (one.id === 'yusra' ? { ...one, name: 'يسرى' } : one));
    const screen = visitor(fakeBoard({ pack: () => ({ ...pack, people }) }));
    expect(await screen.page('/login?who=yusra')).toContain('<h1>\u2068يسرى\u2069, your PIN</h1>');
  });

  test('does not know strangers', async () => {
    const screen = visitor(fakeBoard());
    const answer = await screen.get('/login?who=nobody');
    expect(answer.status).toBe(422);
    expect(await answer.text()).toContain('not on this site’s list');
    const posted = await screen.post('/login', { who: '__proto__', pin: '1234' });
    expect(posted.status).toBe(422);
  });

  test.each([
    'https://elsewhere.invalid/',
    '//elsewhere.invalid',
    '/\\elsewhere.invalid',
    '/login',
    '/logout',
  ])('never leads to %s', async (next) =>
    expect(leadsTo(await visitor(fakeBoard()).logIn('ada', { next }))).toBe('/'),
  );

  test('leads to where the person was going', async () => {
    expect(leadsTo(await visitor(fakeBoard()).logIn('ada', { next: '/form/pause?rig=rig-1' }))).toBe(
      '/form/pause?rig=rig-1',
    );
  });
});

describe('a PIN', () => {
  test('that is wrong logs nobody in and says how many tries are left', async () => {
    const fake = fakeBoard();
    const screen = visitor(fake);
    const answer = await screen.post('/login', { who: 'ada', pin: '9999', next: '/briefing' });
    expect(answer.status).toBe(422);
    const page = await answer.text();
    expect(page).toContain('Nothing was done. Tries left: 4.');
    expect(page).toContain('aria-describedby="pin-problem"');
    expect(page).toContain('name="next" value="/briefing"');
    expect(page).not.toContain('9999');
    expect(screen.cookie()).toBeNull();
    expect(fake.logged).toContainEqual({
      level: 'warn',
      details: { person: 'ada', triesLeft: 4 },
      message: 'wrong PIN on the board',
    });
    expect(JSON.stringify(fake.logged)).not.toContain('9999');
  });

  test.each(['', 'abcd', '1234567890123'])('%j is not looked at and does not count', async (pin) => {
    const fake = fakeBoard();
    const answer = await visitor(fake).post('/login', { who: 'ada', pin });
    expect(answer.status).toBe(422);
    expect(await answer.text()).toContain('Type your PIN, digits only.');
    expect(fake.pinChecks).toEqual([]);
  });

  test('wrong five times closes the name until a time that is said; even the right one waits', async () => {
    const fake = fakeBoard();
    const screen = visitor(fake);
    for (let turn = 0; turn < 5; turn += 1) await screen.post('/login', { who: 'ada', pin: '9999' });
    fake.now = START + 30_000;
    const answer = await screen.logIn('ada');
    expect(answer.status).toBe(429);
    const page = await answer.text();
    expect(page).toContain('Too many wrong PINs for Ada Fenwright. Try again at 06:45.');
    expect(page).toContain('Stop work and Emergency need no PIN.');
    expect(fake.pinChecks).toHaveLength(5);
    expect(leadsTo(await visitor(fake).logIn('mira'))).toBe('/');
    fake.now = START + 5 * MIN;
    expect(leadsTo(await screen.logIn('ada'))).toBe('/');
  });

  test('the time said is never before the name is open again', async () => {
    const fake = fakeBoard();
    fake.now = START + 1000;
    const screen = visitor(fake);
    for (let turn = 0; turn < 5; turn += 1) await screen.post('/login', { who: 'ada', pin: '9999' });
    expect(await (await screen.logIn('ada')).text()).toContain('Try again at 06:46.');
  });
});

describe('a log-in', () => {
  test('is a cookie that scripts and other sites cannot use', async () => {
    const answer = await visitor(fakeBoard()).logIn('ada');
    const cookie = answer.headers.getSetCookie().join();
    expect(cookie).toMatch(/^potbell_visit=[\w-]{43};/);
    expect(cookie).toContain('HttpOnly');
    expect(cookie).toContain('SameSite=Strict');
    expect(cookie).toContain('Path=/');
  });

  test('is marked for encrypted transport only when the board is reached that way', async () => {
    const { board } = fakeBoard({ hostNames: ['shed.example'] });
    const at = (origin: string) =>
      board.app.request(`${origin}/login`, {
        method: 'POST',
        body: new URLSearchParams({ who: 'ada', pin: '4711' }),
        headers: { origin },
      });
    expect((await at('https://shed.example')).headers.get('set-cookie')).toContain('Secure');
    expect((await at('http://shed.example')).headers.get('set-cookie')).not.toContain('Secure');
  });

  test('shows who is here, and ends with log out', async () => {
    const ada = visitor(fakeBoard());
    await ada.logIn('ada');
    const old = ada.cookie();
    expect(await ada.page('/')).toContain('Here as Ada Fenwright');
    expect(leadsTo(await ada.post('/logout', {}))).toBe('/');
    expect(ada.cookie()).toBeNull();
    ada.steal(old);
    expect(await ada.page('/')).not.toContain('Here as');
  });

  test('ends after ten quiet minutes, and what a page asks by itself does not keep it', async () => {
    const fake = fakeBoard();
    const ada = visitor(fake);
    await ada.logIn('ada');
    fake.now = START + 9 * MIN;
    expect(await ada.page('/briefing')).toContain('Here as Ada');
    fake.now = START + 18 * MIN;
    expect(await ada.page('/fragment/today')).toContain('Here as Ada');
    expect(await ada.page('/?_auto=1')).toContain('Here as Ada');
    fake.now = START + 19 * MIN;
    expect(await ada.page('/')).not.toContain('Here as');
    expect(ada.cookie()).toBeNull();
  });

  test('ends half an hour after the PIN, however busy the screen is', async () => {
    const fake = fakeBoard();
    const ada = visitor(fake);
    await ada.logIn('ada');
    for (const minute of [8, 16, 24]) {
      fake.now = START + minute * MIN;
      expect(await ada.page('/')).toContain('Here as Ada');
    }
    fake.now = START + 30 * MIN - 1;
    expect(await ada.page('/')).toContain('Here as Ada');
    fake.now = START + 30 * MIN;
    expect(await ada.page('/')).not.toContain('Here as');
    expect(leadsTo(await ada.press({ type: 'hose-warm', rig: 'rig-1' }))).toMatch(/^\/login\?held=/);
    expect(fake.requests).toEqual([]);
  });

  test('as another person replaces the first; an old token opens nothing', async () => {
    const screen = visitor(fakeBoard());
    await screen.logIn('ada');
    const adas = screen.cookie();
    await screen.logIn('mira');
    expect(screen.cookie()).not.toBe(adas);
    const thief = visitor(fakeBoard());
    thief.steal(adas);
    expect(await thief.page('/')).not.toContain('Here as');
  });

  test('gives the page in that person’s language and direction', async () => {
    const yusra = visitor(fakeBoard());
    await yusra.logIn('yusra');
    expect(await yusra.page('/')).toContain('<html lang="ar" dir="rtl">');
  });
});
