import { describe, expect, test } from 'vitest';
import { type Dict, dicts } from '../peers/slack/json.ts';
import { blocksHtml, messageHtml, viewHtml } from './picture.ts';
import { COLON, drawable, readable } from './picture-blocks.ts';
import { blockListsOf, days } from './picture-days.ts';
import { read } from './render-check.ts';

const nameOf = (member: string) => `Somebody called ${member}`;

/** What people see of a page of HTML: words of elements, and values that stand in fields. Without white space. */
function seen(html: string): string {
  const values = [...html.matchAll(/<input[^>]* type="(?:text|url|time|date)"[^>]* value="([^"]*)"/g)];
  const words = [html.replace(/<[^>]*>/g, ' '), ...values.map(([, value = '']) => value)].join(' ');
  return plain(
    words
      .replaceAll('&lt;', '<')
      .replaceAll('&gt;', '>')
      .replaceAll('&quot;', '"')
      .replaceAll('&#x27;', "'")
      .replaceAll('&amp;', '&'),
  );
}

const plain = (words: string): string => words.replace(/\s/g, '').replaceAll(COLON, ':');

/** As people read it: marks are not seen, a mention is a name. */
const asRead = (markup: string): string =>
  plain(
    read(
      markup
        .replace(/<@([A-Z0-9]+)>/g, (_, id: string) => `@${nameOf(id)}`)
        .replaceAll('<!channel>', '@channel'),
    ),
  );

/** Each block that is drawn with nothing in it, and each text that cannot be read in the drawing. */
function faults(blocks: readonly Dict[]): readonly string[] {
  return blocks.flatMap((block) => {
    const html = blocksHtml([block], nameOf);
    const shown = seen(html);
    const lost = readable([block]).filter((words) => !shown.includes(asRead(words)));
    const empty =
      block.type !== 'divider' && shown === '' ? [`nothing is drawn of ${JSON.stringify(block)}`] : [];
    return [...empty, ...lost.map((words) => `lost: ${words} in: ${shown}`)];
  });
}

const cases = ['en', 'es', 'pt', 'pl'].flatMap((language) =>
  Object.entries(days).map(([name, play]) => [language, name, play] as const),
);

/** Drawn once only: most blocks stand in many messages. */
const known = new Map<string, readonly string[]>();
function faultsOf(blocks: readonly Dict[]): readonly string[] {
  return blocks.flatMap(({ block_id: _, ...block }) => {
    const key = JSON.stringify(block);
    const found = known.get(key) ?? faults([block]);
    known.set(key, found);
    return found;
  });
}

describe('pictures', () => {
  test.each(cases)('in %s, %s: every text of every message and sheet can be read', (language, name, play) => {
    const { messages, sheets } = blockListsOf(play, language);
    expect(messages.length).toBeGreaterThan(name === 'no day' ? 3 : 15);
    expect(sheets.length).toBeGreaterThan(name === 'no day' ? 0 : 10);
    for (const blocks of [...messages, ...sheets]) {
      expect(blocks.length).toBeGreaterThan(0);
      expect(faultsOf(blocks)).toEqual([]);
    }
  });

  test('a block that would be drawn empty is an error, and a text that is lost is found', () => {
    expect(() => blocksHtml([{ type: 'nonsense', text: { type: 'mrkdwn', text: 'x' } }], nameOf)).toThrow(
      'Pictures know header, section',
    );
    // The library takes a line that begins with "#" for something else and drops it.
    expect(faults([{ type: 'section', text: { type: 'mrkdwn', text: 'over\n# gone' } }])).toHaveLength(1);
  });

  test('a list that is closed shows what was chosen, and a field that may stay empty says so', () => {
    const option = { text: { type: 'plain_text', text: 'Rig 2' }, value: 'rig-2' };
    const element = { type: 'static_select', action_id: 'rig', options: [option], initial_option: option };
    const block = { type: 'input', label: { type: 'plain_text', text: 'Rig' }, optional: true, element };
    const shown = seen(blocksHtml([block], nameOf));
    expect(shown).toContain('Rig(optional)');
    expect(shown).toContain('Rig2');
    expect(dicts(drawable([block]))[0]?.label).toEqual({ type: 'plain_text', text: 'Rig (optional)' });
  });

  test('an error stands under its field, the buttons of a sheet at its foot', () => {
    const label = (words: string) => ({ type: 'plain_text', text: words });
    const element = { type: 'plain_text_input', action_id: 'litres' };
    const blocks = [{ type: 'input', block_id: 'litres', label: label('Litres'), element }];
    const view = { title: label('Log a batch'), submit: label('Log it'), close: label('Close'), blocks };
    const shown = seen(viewHtml(view, 'no title', nameOf, { litres: 'Give a number, such as 20.' }));
    for (const words of ['Logabatch', 'Litres', '▲Giveanumber,suchas20.', 'CloseLogit'])
      expect(shown).toContain(words);
  });

  test('a message says who, when and for whom', () => {
    const html = messageHtml(
      {
        channel: 'C1',
        ts: '1780904400.000000',
        threadTs: null,
        user: 'U1',
        botId: 'B1',
        text: 'fallback',
        blocks: [],
        attachments: [],
        metadata: null,
        edited: true,
        deleted: false,
        ephemeralTo: 'U2',
        scheduledId: null,
        files: [{ id: 'F1', name: 'a.html', title: 'Record <1>' }],
        subtype: null,
      },
      { nameOf, clock: (ms) => `at ${ms}` },
    );
    const shown = seen(html);
    for (const words of ['Potbell(app)at1780904400000·edited·onlySomebodycalledU2seesthis', 'File:Record<1>'])
      expect(shown).toContain(words);
  });
});
