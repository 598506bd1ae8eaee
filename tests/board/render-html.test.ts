import { describe, expect, test } from 'vitest';
import type { RenderContext } from '../../adapters/board/render-html.ts';
import { renderBell, renderMessage, renderPanel } from '../../adapters/board/render-message.ts';
import { defaultBoardWords as words } from '../../adapters/board/words.ts';
import { decodeAction } from '../../src/message/action.ts';
import type { Block, Message } from '../../src/message/message.ts';
import { bellPanel, START } from './fakes.ts';

const context: RenderContext = {
  words,
  now: START,
  newId: () => 'id-00000001',
  shift: 'quay:2026-03-09',
  back: '/',
  loggedIn: true,
};
const hostile = `<img src=x onerror="alert('1')">&amp;`;
const escaped = '&lt;img src=x onerror=&quot;alert(&#39;1&#39;)&quot;&gt;&amp;amp;';

const message = (...blocks: Block[]): Message => ({ summary: 'sum', tone: 'plain', blocks });
const render = (...blocks: Block[]) =>
  String(renderMessage(message(...blocks), 'm', context, { title: 'sum' }));
const flat = (text: string) => text.replace(/\s+/g, ' ');

/** One of each kind, every string hostile. A new kind fails to compile here until it is listed. */
const everyKind = {
  heading: { kind: 'heading', text: hostile },
  paragraph: {
    kind: 'paragraph',
    line: [hostile, { kind: 'strong', text: hostile }, { kind: 'person', id: hostile, name: hostile }],
  },
  list: { kind: 'list', ordered: true, items: [[hostile], [hostile]] },
  facts: { kind: 'facts', facts: [{ label: hostile, value: [hostile] }] },
  note: { kind: 'note', tone: 'danger', line: [hostile] },
  countdown: { kind: 'countdown', label: hostile, to: START, clock: hostile, tone: 'attention' },
  checklist: { kind: 'checklist', items: [{ state: 'next', line: [hostile] }] },
  timeline: {
    kind: 'timeline',
    label: hostile,
    listLabel: hostile,
    list: 'here',
    from: START,
    to: START + 60_000,
    marks: [{ at: START, label: hostile }],
    lanes: [
      {
        label: hostile,
        segments: [
          {
            kind: 'spray',
            from: START,
            to: START + 60_000,
            name: hostile,
            clock: hostile,
            label: hostile,
            mark: hostile,
          },
        ],
      },
    ],
  },
  more: { kind: 'more', label: hostile, blocks: [{ kind: 'paragraph', line: [hostile] }] },
  below: { kind: 'below', label: hostile, blocks: [{ kind: 'paragraph', line: [hostile] }] },
  divider: { kind: 'divider' },
  buttons: {
    kind: 'buttons',
    buttons: [
      { label: hostile, tone: 'main', action: { kind: 'do', command: { type: 'stop-work', text: hostile } } },
      {
        label: hostile,
        tone: 'plain',
        action: { kind: 'open', form: { id: 'pause', about: { rig: hostile } } },
      },
      { label: hostile, tone: 'danger', action: { kind: 'show', page: 'record' } },
    ],
  },
} as const satisfies { readonly [K in Block['kind']]: Extract<Block, { kind: K }> };

/** How often the hostile string stands in each kind as text. */
const times: { readonly [K in Block['kind']]: number } = {
  heading: 1,
  paragraph: 3,
  list: 2,
  facts: 2,
  note: 1,
  countdown: 2,
  checklist: 1,
  // Twice over: in the picture with its name for a screen reader, and in the list.
  timeline: 14,
  more: 2,
  below: 2,
  divider: 0,
  buttons: 3,
};

describe('every kind of block', () => {
  test.each(Object.keys(everyKind) as Block['kind'][])('%s escapes each piece exactly once', (kind) => {
    const out = render(everyKind[kind]);
    expect(out.split(escaped).length - 1).toBe(times[kind]);
    expect(out).not.toContain('<img');
  });

  test('the summary and the panel title are escaped in text and in attributes', () => {
    const named = String(renderMessage({ summary: hostile, tone: 'plain', blocks: [] }, 'm', context));
    expect(named).toContain(`aria-label="${escaped}"`);
    expect(named).not.toContain('<img');
    const titled = String(
      renderPanel({ id: `x" onload="y`, tone: 'plain', title: hostile, message: message() }, context),
    );
    expect(titled).toContain(`>${escaped}</h2>`);
    expect(titled).not.toContain('onload="y');
  });

  test('what each kind becomes', () => {
    expect(render({ kind: 'heading', text: 'Hoses' })).toContain('<h3 id="m-0">Hoses</h3>');
    expect(render({ kind: 'list', ordered: false, items: [['a'], ['b']] })).toContain(
      '<ul><li>a</li><li>b</li></ul>',
    );
    expect(render({ kind: 'list', ordered: true, items: [['a']] })).toContain('<ol><li>a</li></ol>');
    expect(render({ kind: 'facts', facts: [{ label: 'Air', value: ['14 °C'] }] })).toContain(
      '<dt>Air</dt><dd>14 °C</dd>',
    );
    expect(render({ kind: 'divider' })).toContain('<hr />');
    expect(render({ kind: 'paragraph', line: [{ kind: 'strong', text: '225 bar' }] })).toContain(
      '<p><strong>225 bar</strong></p>',
    );
  });

  test('a tone is a word and a shape, never colour alone', () => {
    const out = render(
      { kind: 'note', tone: 'danger', line: ['x'] },
      { kind: 'note', tone: 'good', line: ['y'] },
    );
    expect(out).toMatch(/<svg class="icon"[^>]*aria-hidden="true"[\s\S]*?<span>Danger<\/span>/);
    expect(out).toMatch(/<svg class="icon"[\s\S]*?<span>Noted<\/span>/);
  });

  test.each(['done', 'open', 'next', 'skipped', 'defect'] as const)(
    'a checklist item that is %s says so',
    (state) => {
      const word = { done: 'Done', open: 'Open', next: 'Next', skipped: 'Skipped', defect: 'Defect' }[state];
      expect(render({ kind: 'checklist', items: [{ state, line: ['x'] }] })).toContain(
        `<span class="state">${word}</span>`,
      );
    },
  );

  test('a countdown says the wall clock first, then what is left; it is a timer and is not read out each second', () => {
    const out = flat(
      render({ kind: 'countdown', label: 'Use by', to: START + 72 * 60_000, clock: '07:52', tone: 'plain' }),
    );
    expect(out).toContain('role="timer"');
    expect(out).not.toContain('aria-live');
    expect(out).toContain('<time class="countdown-clock" datetime="2026-03-09T07:52:00.000Z">07:52</time>');
    expect(out.indexOf('07:52</time>')).toBeLessThan(out.indexOf('1 h 12 min left'));
    expect(out).not.toContain('data-past');
  });

  test('a countdown that has passed says since when', () => {
    const out = render({
      kind: 'countdown',
      label: 'Use by',
      to: START - 4 * 60_000,
      clock: '06:36',
      tone: 'danger',
    });
    expect(out).toContain('passed 4 min ago');
    expect(out).toContain(' data-past');
  });
});

describe('buttons', () => {
  const out = render(everyKind.buttons);

  test('doing is a form of its own with the whole action, the press id, the shift and the way back', () => {
    expect(out).toContain('<form method="post" action="/do">');
    const value = /name="_action" value="([^"]*)"/.exec(out)?.[1] ?? '';
    const text = value
      .replaceAll('&quot;', '"')
      .replaceAll('&#39;', "'")
      .replaceAll('&lt;', '<')
      .replaceAll('&gt;', '>')
      .replaceAll('&amp;', '&');
    expect(decodeAction(text)).toEqual({ kind: 'do', command: { type: 'stop-work', text: hostile } });
    expect(out).toContain('name="_command" value="id-00000001"');
    expect(out).toContain('name="_shift" value="quay:2026-03-09"');
    expect(out).toContain('name="_back" value="/"');
  });

  test('opening and showing are links', () => {
    expect(out).toContain('href="/record"');
    const href = /href="(\/form\/[^"]*)"/.exec(out)?.[1]?.replaceAll('&amp;', '&') ?? '';
    const url = new URL(href, 'http://localhost');
    expect(url.pathname).toBe('/form/pause');
    expect(url.searchParams.get('rig')).toBe(hostile);
    expect(url.searchParams.get('_back')).toBe('/');
  });
});

describe('panels', () => {
  const panel = {
    id: 'rig-1',
    tone: 'attention',
    title: 'Rig 1',
    message: message({ kind: 'paragraph', line: ['x'] }),
  } as const;
  const versionOf = (out: unknown) => /data-v="([^"]+)"/.exec(String(out))?.[1];

  test('the version stays with fresh press ids and changes with what is said', () => {
    const buttons = { ...panel, message: message(everyKind.buttons) };
    const again = versionOf(renderPanel(buttons, { ...context, newId: () => 'id-00000002' }));
    expect(again).toBe(versionOf(renderPanel(buttons, context)));
    expect(
      versionOf(renderPanel({ ...panel, message: message({ kind: 'paragraph', line: ['y'] }) }, context)),
    ).not.toBe(versionOf(renderPanel(panel, context)));
  });

  test('the summary is shown unless title or blocks say the same', () => {
    const shows = (summary: string, ...blocks: Block[]) =>
      String(renderPanel({ ...panel, message: { summary, tone: 'plain', blocks } }, context)).includes(
        'class="summary"',
      );
    expect(shows('2 holds stand', { kind: 'list', ordered: false, items: [['a']] })).toBe(true);
    expect(shows('Rig 1')).toBe(false);
    expect(
      shows('Flush by 07:00', { kind: 'paragraph', line: [{ kind: 'strong', text: 'Flush by 07:00' }] }),
    ).toBe(false);
    expect(shows('Rig 1: a', { kind: 'list', ordered: false, items: [['a']] })).toBe(false);
  });

  test('a heading equal to the title is not said twice', () => {
    const out = String(
      renderPanel({ ...panel, message: message({ kind: 'heading', text: 'Rig 1' }) }, context),
    );
    expect(out.split('Rig 1').length - 1).toBe(1);
    expect(out).toContain('aria-labelledby="p-rig-1-title"');
  });

  test('a bell is named by what it says', () => {
    const out = String(renderBell(bellPanel('Rig 1: flush now'), context));
    expect(out).toContain('aria-label="Rig 1: flush now"');
    expect(out).not.toContain('>Bells<');
  });

  test('a message of many headings becomes parts; nothing of it is lost or moved', () => {
    const say = (text: string): Block => ({ kind: 'paragraph', line: [text] });
    const blocks: readonly Block[] = [
      say('p0'),
      { kind: 'heading', text: 'Alpha' },
      say('p1'),
      { kind: 'note', tone: 'plain', line: ['n1'] },
      { kind: 'heading', text: 'Beta' },
      say('p2'),
      { kind: 'heading', text: 'Gamma' },
      say('p3'),
      { kind: 'note', tone: 'danger', line: ['n2'] },
      everyKind.buttons,
    ];
    const out = String(renderPanel({ ...panel, message: message(...blocks) }, context));
    expect(out.match(/<div class="part">/g)).toHaveLength(3);
    const titled = String(
      renderPanel(
        { ...panel, message: message({ kind: 'heading', text: 'Over all' }, ...blocks.slice(1)) },
        context,
      ),
    );
    expect(titled.match(/<div class="part">/g)).toHaveLength(3);
    expect(titled.indexOf('Over all')).toBeLessThan(titled.indexOf('<div class="parts">'));
    const order = ['p0', 'Alpha', 'p1', 'n1', 'Beta', 'p2', 'Gamma', 'p3', 'n2', 'action="/do"'].map((text) =>
      out.indexOf(text),
    );
    expect(order.every((at) => at > 0)).toBe(true);
    expect([...order].sort((a, b) => a - b)).toEqual(order);
    expect(out.indexOf('n2')).toBeGreaterThan(out.lastIndexOf('<div class="part">'));
    expect(String(renderPanel({ ...panel, message: message(...blocks.slice(0, 6)) }, context))).not.toContain(
      'class="part"',
    );
  });
});

describe('words that run from right to left', () => {
  test('stand apart from what is beside them, and only they', () => {
    const line = ['Concern: ', 'رائحة مذيب', { kind: 'strong', text: 'خرطوم' }, ' 06:45'] as const;
    const apart = 'Concern: <bdi>رائحة مذيب</bdi><strong><bdi>خرطوم</bdi></strong> 06:45';
    expect(render({ kind: 'paragraph', line })).toContain(`<p>${apart}</p>`);
    expect(render({ kind: 'list', ordered: false, items: [line] })).toContain(`<li>${apart}</li>`);
    expect(render({ kind: 'note', tone: 'plain', line })).toContain(apart);
    expect(render({ kind: 'facts', facts: [{ label: 'x', value: line }] })).toContain(`<dd>${apart}</dd>`);
    expect(render({ kind: 'checklist', items: [{ state: 'open', line }] })).toContain(apart);
  });

  test('so do words with a mark that turns the line (Unicode UAX 9: RLO)', () => {
    expect(render({ kind: 'paragraph', line: ['bar \u202E032'] })).toContain(
      '<p><bdi>bar \u202E032</bdi></p>',
    );
  });

  test('a person’s name always does', () => {
    expect(render({ kind: 'paragraph', line: [{ kind: 'person', id: 'a', name: 'Ada' }] })).toContain(
      '<bdi class="person">Ada</bdi>',
    );
  });
});
