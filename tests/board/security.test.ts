import { describe, expect, test } from 'vitest';
import { StoreDamaged } from '../../src/ports.ts';
import { fakeBoard, SHIFT } from './fakes.ts';
import { leadsTo, visitor } from './visitor.ts';

describe('every answer', () => {
  test.each(['/', '/login', '/no-such-page', '/healthz', '/fragment/today'])(
    '%s carries the strict headers',
    async (path) => {
      const { headers } = await fakeBoard().board.app.request(path);
      const policy = headers.get('content-security-policy') ?? '';
      expect(policy).toContain("default-src 'none'");
      expect(policy).toContain("script-src 'self'");
      expect(policy).toContain("style-src 'self'");
      expect(policy).toContain("form-action 'self'");
      expect(policy).toContain("frame-ancestors 'none'");
      expect(policy).not.toContain('unsafe');
      expect(headers.get('x-content-type-options')).toBe('nosniff');
      expect(headers.get('x-frame-options')).toBe('DENY');
      expect(headers.get('cache-control')).toBe('no-store');
    },
  );

  test('lets browsers name our own origin with our own forms', async () => {
    const { headers } = await fakeBoard().board.app.request('/');
    expect(headers.get('referrer-policy')).toBe('same-origin');
  });

  test('has no inline script, style or handler', async () => {
    const ada = visitor(fakeBoard());
    await ada.logIn('ada');
    for (const path of ['/', '/emergency', '/record', '/login?who=ada', '/form/mix-batch']) {
      const page = await ada.page(path);
      expect(page).not.toMatch(/<script(?![^>]* src="\/assets\/)/);
      expect(page).not.toMatch(/<style|\sstyle=|\son\w+=/);
      expect(page).not.toMatch(/(src|href)="(https?:)?\/\//);
    }
  });

  test('assets are served by the board, kept by address, and fresh when the address is old', async () => {
    const { app } = fakeBoard().board;
    const page = await (await app.request('/')).text();
    for (const [kind, type] of [
      ['css', 'text/css'],
      ['js', 'text/javascript'],
    ]) {
      const path = new RegExp(`/assets/[0-9a-f]{12}/board\\.${kind}`).exec(page)?.[0] ?? '';
      const answer = await app.request(path);
      expect(answer.headers.get('content-type')).toContain(type);
      expect(answer.headers.get('cache-control')).toContain('immutable');
      expect((await app.request(`/assets/000000000000/board.${kind}`)).headers.get('cache-control')).toBe(
        'no-store',
      );
    }
  });
});

describe('a press from a foreign page', () => {
  const warm = JSON.stringify({ kind: 'do', command: { type: 'hose-warm', rig: 'rig-1' } });
  const stop = JSON.stringify({ kind: 'do', command: { type: 'stop-work', text: '' } });

  test.each([
    ['/do', { _command: 'press-0001', _shift: SHIFT, _action: warm }],
    ['/do', { _command: 'press-0001', _action: stop }],
    ['/form/pause?rig=rig-1', { _command: 'press-0001' }],
    ['/login', { who: 'ada', pin: '4711' }],
    ['/logout', {}],
  ])('to %s is refused and changes nothing', async (path, fields) => {
    const fake = fakeBoard();
    const ada = visitor(fake);
    await ada.logIn('ada');
    const token = ada.cookie();
    const answer = await ada.post(path, fields as Record<string, string>, 'https://elsewhere.invalid');
    expect(answer.status).toBe(403);
    expect(await answer.text()).toContain('did not come from the board’s own page');
    expect(fake.requests).toEqual([]);
    expect(ada.cookie()).toBe(token);
  });

  test('without any origin is refused as well', async () => {
    const fake = fakeBoard();
    const answer = await fake.board.app.request('/do', {
      method: 'POST',
      body: new URLSearchParams({ _command: 'press-0001', _action: stop }),
    });
    expect(answer.status).toBe(403);
    expect(fake.requests).toEqual([]);
  });

  test('sent as another kind of body carries nothing', async () => {
    const fake = fakeBoard();
    const answer = await fake.board.app.request('/do', {
      method: 'POST',
      body: JSON.stringify({ _command: 'press-0001', _action: stop }),
      headers: { 'content-type': 'application/json', origin: 'https://elsewhere.invalid' },
    });
    expect(answer.status).toBe(400);
    expect(fake.requests).toEqual([]);
  });
});

test('too large a form is refused in words', async () => {
  const fake = fakeBoard();
  const ada = visitor(fake);
  await ada.logIn('ada');
  const answer = await ada.post('/form/mix-batch', { _command: 'press-0001', note: 'x'.repeat(70_000) });
  expect(answer.status).toBe(413);
  expect(await answer.text()).toContain('shorten what you typed');
  expect(fake.requests).toEqual([]);
});

describe('when something is broken', () => {
  test('the page says what is not known, gives a number, and hides the inner error', async () => {
    const fake = fakeBoard();
    fake.answer = () => {
      throw new Error('secret inner words');
    };
    const ada = visitor(fake);
    await ada.logIn('ada');
    const answer = await ada.press({ type: 'hose-warm', rig: 'rig-1' }, { _shift: SHIFT });
    expect(answer.status).toBe(500);
    const page = await answer.text();
    expect(page).toContain('It is not known whether your last press was noted');
    expect(page).not.toContain('secret inner words');
    const ref = /Fault number for the foreman: (id-\d+)/.exec(page)?.[1];
    expect(fake.logged).toContainEqual(
      expect.objectContaining({ level: 'error', details: expect.objectContaining({ ref }) }),
    );
  });

  test('a damaged shift says so in its own words', async () => {
    const damaged = new StoreDamaged(
      'line 4 of shift quay:2026-03-09 does not match its checksum; restore the backup',
      { shift: SHIFT, what: 'journal' },
    );
    const fake = fakeBoard({ currentShift: () => Promise.reject(damaged) });
    const answer = await fake.board.app.request('/');
    expect(answer.status).toBe(500);
    const page = await answer.text();
    expect(page).toContain('The stored shift cannot be read');
    expect(page).toContain('does not match its checksum; restore the backup');
    expect(page).toContain('id="emergency"');
  });

  test('even pages that cannot be made end in words', async () => {
    const fake = fakeBoard({
      pages: () => {
        throw new Error('no panels');
      },
    });
    const answer = await fake.board.app.request('/');
    expect(answer.status).toBe(500);
    expect(await answer.text()).toContain('The printed times still hold');
  });

  test('the emergency page comes up without the shift', async () => {
    const fake = fakeBoard({ currentShift: () => Promise.reject(new Error('disk gone')) });
    const answer = await fake.board.app.request('/emergency');
    expect(answer.status).toBe(200);
    const page = await answer.text();
    expect(page).toContain('The shift cannot be read just now');
    expect(page).toContain('Rig 1, yellow hose');
  });

  test('and without its own panels, from the site pack', async () => {
    const fake = fakeBoard({
      currentShift: () => Promise.reject(new Error('disk gone')),
      pages: () => {
        throw new Error('no panels');
      },
    });
    const answer = await fake.board.app.request('/emergency');
    expect(answer.status).toBe(200);
    const page = await answer.text();
    for (const words of [
      '112',
      'Gate 3, North Quay',
      'Invented General, hand surgery',
      'Mira Okonjo',
      'Green post by gate 3',
      'Shed wall, left of the door',
    ]) {
      expect(page).toContain(`<strong>${words}</strong>`);
    }
  });
});

test('a redirect after a press is to the board alone', async () => {
  const ada = visitor(fakeBoard());
  await ada.logIn('ada');
  expect(
    leadsTo(
      await ada.press({ type: 'hose-warm', rig: 'rig-1' }, { _shift: SHIFT, _back: '//elsewhere.invalid' }),
    ),
  ).toBe('/');
});
