import { describe, expect, test } from 'vitest';
import { createBoard } from '../../adapters/board/board.ts';
import { defaultBoardWords } from '../../adapters/board/words.ts';
import type { Page } from '../../src/message/action.ts';
import { bellDelivery, bellPanel, fakeBoard, SHIFT, START } from './fakes.ts';
import { visitor } from './visitor.ts';

const paths: Readonly<Record<Page, string>> = {
  today: '/',
  briefing: '/briefing',
  'sign-off': '/sign-off',
  notices: '/notices',
  why: '/why',
  more: '/more',
  record: '/record',
  emergency: '/emergency',
};

describe('pages', () => {
  test.each(Object.entries(paths))(
    '%s is read without a log-in, has one h1, landmarks and a skip link',
    async (page, path) => {
      const asked: string[] = [];
      const fake = fakeBoard({
        pages: (which, context) => {
          asked.push(`${which} ${context.shift?.id} ${context.viewer} ${context.now}`);
          return [];
        },
      });
      const answer = await fake.board.app.request(path);
      expect(answer.status).toBe(200);
      const text = await answer.text();
      expect(text.match(/<h1>/g)).toHaveLength(1);
      for (const part of [
        '<header',
        '<nav aria-label="Pages"',
        '<main id="main"',
        '<footer>',
        'href="#main"',
        'lang="en" dir="ltr"',
      ]) {
        expect(text).toContain(part);
      }
      expect(asked).toContain(`${page} ${SHIFT} null ${START}`);
      expect(text).toContain(`data-fragment="/fragment/${page}?`);
    },
  );

  test('work without a script: they reload by themselves, presses are plain forms', async () => {
    const page = await visitor(fakeBoard()).page('/briefing');
    expect(page).toContain(
      '<noscript><meta http-equiv="refresh" content="30;url=/briefing?_auto=1" /></noscript>',
    );
    expect(page).toContain('This page reloads every 30 seconds.');
    expect(page).toContain('<form method="post" action="/do">');
    expect(page).toMatch(/<button type="button" class="button" id="bell-test" hidden>/);
  });

  test('tell the viewer’s panels from everybody’s', async () => {
    const fake = fakeBoard({
      pages: (_page, { viewer }) => [
        {
          id: 'own',
          tone: 'plain',
          title: `for ${viewer}`,
          message: { summary: 'x', tone: 'plain', blocks: [] },
        },
      ],
    });
    const ada = visitor(fake);
    expect(await ada.page('/')).toContain('for null');
    await ada.logIn('ada');
    expect(await ada.page('/')).toContain('for ada');
  });

  test('speak the words of the viewer’s language', async () => {
    const fake = fakeBoard({
      words: (language) => ({ ...defaultBoardWords, pageToday: `Today in ${language}` }),
    });
    const yusra = visitor(fake);
    expect(await yusra.page('/')).toContain('<h1>Today in en</h1>');
    await yusra.logIn('yusra');
    expect(await yusra.page('/')).toContain('<h1>Today in ar</h1>');
  });

  test('without a shift still come up', async () => {
    const fake = fakeBoard();
    fake.shift = null;
    expect((await fake.board.app.request('/')).status).toBe(200);
  });
});

describe('bells not yet answered', () => {
  test.each(['/', '/briefing', '/notices', '/emergency', '/login', '/no-such-page'])(
    'stand above everything on %s, once',
    async (path) => {
      const fake = fakeBoard();
      fake.bells = [bellPanel('Rig 1: flush now')];
      const page = await visitor(fake).page(path);
      expect(page.indexOf('aria-label="Rig 1: flush now"')).toBeGreaterThan(0);
      expect(page.indexOf('aria-label="Rig 1: flush now"')).toBeLessThan(page.indexOf('<main'));
      expect(page.match(/aria-label="Rig 1: flush now"/g)).toHaveLength(1);
      expect(page).toContain('data-count="1"');
    },
  );

  test('take no place when there are none', async () => {
    expect(await visitor(fakeBoard()).page('/')).toMatch(/<aside id="bells"[^>]*data-count="0" hidden>/);
  });
});

describe('fragments', () => {
  test('bring the moving parts of a page and the time, nothing else', async () => {
    const fake = fakeBoard();
    fake.bells = [bellPanel('Rig 1: flush now')];
    const text = await visitor(fake).page('/fragment/today?_at=%2F');
    expect(text).toContain(`data-now="${START}"`);
    for (const part of ['id="bells"', 'id="who"', 'id="panels"']) expect(text).toContain(part);
    expect(text).not.toContain('<html');
    expect(text).not.toContain('id="stop-work"');
  });

  test('for a page somebody types in bring bells and log-in only', async () => {
    const text = await visitor(fakeBoard()).page('/fragment/still?_at=%2Fform%2Fpause');
    expect(text).toContain('id="bells"');
    expect(text).toContain('/login?next=%2Fform%2Fpause');
    expect(text).not.toContain('id="panels"');
  });
});

describe('the notices page', () => {
  const stored = (summary: string, queuedAt: number, key = summary) =>
    ({
      ...bellDelivery(summary, queuedAt),
      key,
      state: 'sent',
      attempts: 1,
      settledAt: null,
      lastError: null,
    }) as const;

  test('lists what was said, newest first, once however many people it went to, the serious ones marked by a word', async () => {
    const fake = fakeBoard();
    fake.said = [
      { ...stored('Flush rig 1 now', START + 60_000, 'bell'), audience: { kind: 'person', person: 'ada' } },
      stored('Flush rig 1 now', START + 60_000, 'bell'),
      stored('Flush <rig> 2', START),
    ];
    const page = await visitor(fake).page('/notices');
    expect(page).toContain(
      '<ul><li><strong>06:41</strong> Danger: Flush rig 1 now</li><li><strong>06:40</strong> Danger: Flush &lt;rig&gt; 2</li></ul>',
    );
  });

  test('a bell that rings on and on is one line with how often, and pushes nothing out', async () => {
    const fake = fakeBoard();
    const rings = Array.from({ length: 300 }, (_, at) =>
      stored('A concern is open', START + (400 - at) * 60_000, 'bell:concern:c1'),
    );
    fake.said = [...rings, stored('Batch 1: use by 08:10', START, 'batch:b1')];
    const page = await visitor(fake).page('/notices');
    expect(page).toContain(
      '<ul><li><strong>13:20</strong> Danger: A concern is open (×300)</li><li><strong>06:40</strong> Danger: Batch 1: use by 08:10</li></ul>',
    );
  });

  test('says so when nothing was', async () => {
    expect(await visitor(fakeBoard()).page('/notices')).toContain('<p>notices.none</p>');
  });
});

describe('record files', () => {
  test('are listed on the record page and downloaded under a harmless name', async () => {
    const screen = visitor(fakeBoard());
    expect(await screen.page('/record')).toContain('href="/file/quay%3A2026-03-09/csv"');
    const csv = await screen.get(`/file/${encodeURIComponent(SHIFT)}/csv`);
    expect(csv.status).toBe(200);
    expect(await csv.text()).toBe('record csv');
    expect(csv.headers.get('content-disposition')).toBe('attachment; filename="..-record--csv-.csv"');
  });

  test('the page to print opens in the browser with its own style and no script', async () => {
    const html = await visitor(fakeBoard()).get(`/file/${encodeURIComponent(SHIFT)}/html`);
    expect(html.headers.get('content-disposition')).toContain('inline');
    const policy = html.headers.get('content-security-policy') ?? '';
    expect(policy).toContain("style-src 'unsafe-inline'");
    expect(policy).not.toContain('script-src');
  });

  test.each(['/file/quay:1999-01-01/csv', `/file/${SHIFT}/exe`, `/file/${'x'.repeat(200)}/csv`])(
    '%s is not there',
    async (path) => {
      const answer = await visitor(fakeBoard()).get(path);
      expect(answer.status).toBe(404);
      expect(await answer.text()).toContain('There is no record for this shift.');
    },
  );
});

describe('health', () => {
  test('is green', async () => {
    const answer = await fakeBoard().board.app.request('/healthz');
    expect(answer.status).toBe(200);
    expect(await answer.json()).toEqual({ ok: true, problems: [] });
  });

  test('is red with the problems', async () => {
    const fake = fakeBoard({
      health: async () => ({ ok: false, problems: ['a bell is 3 minutes overdue'] }),
    });
    const answer = await fake.board.app.request('/healthz');
    expect(answer.status).toBe(503);
    expect(await answer.json()).toEqual({ ok: false, problems: ['a bell is 3 minutes overdue'] });
  });

  test('is red when it cannot be asked', async () => {
    const fake = fakeBoard({ health: () => Promise.reject(new Error('no')) });
    expect((await fake.board.app.request('/healthz')).status).toBe(503);
  });
});

describe('listening', () => {
  test('is on this machine alone unless told otherwise, and then warns', async () => {
    const fake = fakeBoard();
    const here = await fake.board.start({ port: 0 });
    expect(here.url).toMatch(/^http:\/\/127\.0\.0\.1:\d+$/);
    expect(fake.logged.filter(({ level }) => level === 'warn')).toEqual([]);
    expect((await fetch(`${here.url}/healthz`)).status).toBe(200);
    await here.stop();
    await expect(fetch(`${here.url}/healthz`)).rejects.toThrow();

    const wide = await createBoard(fake.services).start({ host: '0.0.0.0', port: 0 });
    expect(fake.logged).toContainEqual(
      expect.objectContaining({ level: 'warn', message: expect.stringContaining('unencrypted') }),
    );
    await wide.stop();
  });

  test('on a taken port fails with words', async () => {
    const first = await fakeBoard().board.start({ port: 0 });
    const port = Number(new URL(first.url).port);
    await expect(fakeBoard().board.start({ port })).rejects.toThrow(
      `another program already uses port ${port}`,
    );
    await first.stop();
  });
});
