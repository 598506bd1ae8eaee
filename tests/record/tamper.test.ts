import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { link } from '../../adapters/host/chain.ts';
import { fileSeal } from '../../adapters/record/record-document.ts';
import type { RecordInput } from '../../adapters/record/record-input.ts';
import { recordJson } from '../../adapters/record/record-json.ts';
import { verifyRecord } from '../../adapters/record/verify-record.ts';
import { wholeDay } from './whole-day.ts';

let input: RecordInput;
let text: string;

beforeAll(async () => {
  input = await (await wholeDay()).record();
  text = recordJson(input);
}, 30_000);

// biome-ignore lint/suspicious/noExplicitAny: somebody who edits a file by hand knows no types
type Loose = any;

/** The file changed by hand; `reseal`: by somebody who makes the seal of the file anew as well. */
function changed(change: (record: Loose) => void, reseal = false): string {
  const record = JSON.parse(text);
  change(record);
  if (reseal) record.seal.file = fileSeal(record);
  return JSON.stringify(record);
}

const line = (record: Loose, type: string) =>
  record.journal.findIndex(({ event }: Loose) => event.body.type === type);

/** Changes to the journal, the summary and the frame, with what has to be said about each. */
const tampers: readonly (readonly [string, (record: Loose) => void, RegExp])[] = [
  [
    'the litres of a batch in the journal',
    (record) => {
      record.journal[line(record, 'batch-mixed')].event.body.batch.litres = 25;
    },
    /Journal line \d+ does not hold: its words do not match its hash/,
  ],
  [
    'the litres of a batch in the summary',
    (record) => {
      record.summary.batches[0].litres = 25;
    },
    /does not follow from the journal at batches\.0\.litres: the file says 25, the journal gives 20/,
  ],
  [
    'a time in the journal',
    (record) => {
      record.journal[line(record, 'flush-started')].event.at -= 60_000;
    },
    /does not hold: its words do not match its hash/,
  ],
  [
    'how late a bell rang, in the summary',
    (record) => {
      record.summary.bells.find(({ rings }: Loose) =>
        rings.some(({ late }: Loose) => late),
      ).rings[0].late = false;
    },
    /does not follow from the journal at bells\.\d+\.rings\.0\.late/,
  ],
  [
    'a skipped step that is made a done one in the summary',
    (record) => {
      const step = record.summary.flushes[0].steps.find(({ outcome }: Loose) => outcome === 'skipped');
      step.outcome = 'done';
    },
    /does not follow from the journal at flushes\.0\.steps\.\d+\.outcome/,
  ],
  [
    'a concern taken out of the summary',
    (record) => {
      record.summary.concerns = [];
    },
    /does not follow from the journal at concerns\.0: the file says nothing/,
  ],
  [
    'a line left out',
    (record) => {
      record.journal.splice(line(record, 'work-stopped'), 1);
    },
    /Journal line \d+ does not hold: line \d+ stands where line \d+ should/,
  ],
  [
    'a line left out and the rest numbered anew',
    (record) => {
      record.journal.splice(line(record, 'rig-tagged'), 1);
      record.journal.forEach(({ event }: Loose, index: number) => {
        event.seq = index + 1;
      });
    },
    /Journal line \d+ does not hold/,
  ],
  [
    'two lines in the other order',
    (record) => {
      const at = line(record, 'reading-taken');
      [record.journal[at], record.journal[at + 1]] = [record.journal[at + 1], record.journal[at]];
    },
    /Journal line \d+ does not hold/,
  ],
  [
    'a line put in twice',
    (record) => {
      record.journal.splice(3, 0, record.journal[3]);
    },
    /Journal line 5 does not hold/,
  ],
  [
    'the last lines cut off',
    (record) => {
      record.journal.splice(-3);
    },
    /sealed with \d+ journal lines and holds \d+/,
  ],
  [
    'the last lines cut off and the seal fitted to it',
    (record) => {
      record.journal.splice(-3);
      record.seal.lines = record.journal.length;
      record.seal.head = record.journal.at(-1).hash;
    },
    /does not follow from the journal/,
  ],
  [
    'a whole tail of the summary and the journal, so that the shift looks open',
    (record) => {
      record.journal.splice(line(record, 'shift-closed'));
      record.summary.closed = null;
      record.summary.status = 'open';
      record.summary.undelivered = [];
    },
    /The last journal line is not the one the file was sealed with/,
  ],
  [
    'another shift',
    (record) => {
      record.summary.shift = 'gannet-footbridge:2026-06-09';
    },
    /Journal line 1 does not hold/,
  ],
  [
    'messages shown for lines that are not there',
    (record) => {
      record.shown.push({ ...record.shown.at(-1), line: 9999 });
    },
    /Messages were shown for journal lines that are not in the file/,
  ],
  [
    'an event that is none of ours',
    (record) => {
      record.journal[5].event.body = { type: 'nothing-known' };
    },
    /cannot be replayed at line 6/,
  ],
];

describe.each(tampers)('%s', (_what, change, says) => {
  test.each([false, true])('is found (seal of the file made anew: %s)', (reseal) => {
    const found = verifyRecord(changed(change, reseal));
    expect(found.ok).toBe(false);
    expect(found.problems.join('\n')).toMatch(says);
  });
});

/** Only the seal of the file stands for these: they are in no journal line. */
const sealedOnly: readonly (readonly [string, (record: Loose) => void])[] = [
  [
    'the words of a message',
    (record) => {
      record.shown[0].text += ' And wear gloves.';
    },
  ],
  [
    'a message taken out',
    (record) => {
      record.shown.pop();
    },
  ],
  [
    'when it was made',
    (record) => {
      record.madeAt = record.madeAt.replace('16:36', '16:30');
    },
  ],
];
test.each(sealedOnly)('%s changed: the seal of the file does not match', (_what, change) => {
  expect(verifyRecord(changed(change)).problems).toEqual([
    expect.stringMatching(/^The seal of the file does not match/),
  ]);
});

test('a figure given twice, the first for people and the second for programs, is found', () => {
  const twice = text.replace('"litres": 20,', '"litres": 35,\n   "litres": 20,');
  expect(twice).not.toBe(text);
  expect(verifyRecord(twice).problems).toEqual([expect.stringMatching(/not spelled as Potbell spells it/)]);
});

test('a byte order mark, other line ends and other spaces change nothing', () => {
  expect(verifyRecord(`\uFEFF${text.replaceAll('\n', '\r\n')}`)).toMatchObject({ ok: true, problems: [] });
  expect(verifyRecord(JSON.stringify(JSON.parse(text), null, 4))).toMatchObject({ ok: true, problems: [] });
});

test('any one character changed is found', () => {
  const place = fc.nat({ max: text.length - 1 }).filter((at) => /\S/.test(text[at] ?? ''));
  const character = fc.integer({ min: 33, max: 126 }).map((code) => String.fromCharCode(code));
  fc.assert(
    fc.property(place, character, (at, put) => {
      fc.pre(text[at] !== put);
      expect(verifyRecord(text.slice(0, at) + put + text.slice(at + 1)).ok).toBe(false);
    }),
    { numRuns: 60 },
  );
}, 120_000);

test('a record forged with every hash made anew is found by the head that was signed on paper', () => {
  const honest = input.journal.at(-1)?.hash;
  const events = structuredClone(input.journal.map(({ event }) => event)) as Loose[];
  const mixed = events.find(({ body }) => body.type === 'batch-mixed');
  mixed.body.batch.paintC = 12;
  const forged = recordJson({ ...input, journal: link(input.shift.id, null, events) });
  expect(verifyRecord(forged)).toMatchObject({ ok: true });
  const found = verifyRecord(forged, honest);
  expect(found).toMatchObject({ ok: false, lines: input.journal.length });
  expect(found.problems).toEqual([
    expect.stringMatching(/^The journal ends with [0-9a-f]{64}, not with the seal you gave/),
  ]);
});
