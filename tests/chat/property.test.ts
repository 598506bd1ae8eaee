import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readTyped } from '../../src/chat/read-typed.ts';
import type { Typed, TypedContext } from '../../src/chat/typed.ts';
import { commandWords, insideWords, wordsFor } from '../../src/chat/words.ts';
import { buildForm } from '../../src/forms/forms.ts';
import { type CommandType, commandSchema } from '../../src/model/command.ts';
import { mixed, type Play, posted, ready } from '../flow/harness.ts';
import { aJob } from '../flow/pack.ts';
import { contextOf, languages, textsIn } from './site.ts';

function flushing(): Play {
  const play = mixed({ jobs: [aJob(), aJob({ rig: 'rig-2', coating: 'finish' })] });
  play.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
  return play;
}
const plays = [posted(), ready(), mixed(), flushing()];

const contexts: fc.Arbitrary<TypedContext> = fc
  .record({
    play: fc.constantFrom(null, ...plays),
    language: fc.constantFrom(...languages),
    units: fc.constantFrom('metric' as const, 'us' as const),
    viewer: fc.constantFrom(null, 'pia', 'finn', 'lou', 'nobody-known'),
  })
  .map(({ play, ...more }) => contextOf({ shift: play?.state ?? null, now: play?.now ?? 0, ...more }));

const vocabulary = languages.flatMap((language) =>
  [...Object.keys(commandWords), ...Object.keys(insideWords)].flatMap((name) =>
    wordsFor(name as keyof typeof commandWords, textsIn(language)),
  ),
);
const parts = fc
  .array(
    fc.oneof(
      fc.constantFrom(...vocabulary),
      fc.constantFrom(
        'rig 1',
        'rig-2',
        'Rig Two',
        'rig 9',
        'equipo 2',
        'epoxy',
        'test finish',
        'a',
        'b',
        'wbgt',
        'rh',
      ),
      fc.constantFrom(
        'L',
        'C',
        '°F',
        '%',
        'gal',
        'kg',
        'imp gal',
        ',',
        '!',
        '-',
        '=',
        '½',
        '\n',
        '1/2',
        '2 1/2',
        '.5',
      ),
      fc.double({ min: -50, max: 2000, noNaN: true }).map((n) => String(Math.round(n * 10) / 10)),
      fc.string({ maxLength: 4, unit: 'binary' }),
    ),
    { maxLength: 9 },
  )
  .chain((some) => fc.constantFrom(some.join(' '), some.join('')));
/** Lines made of what the grammar knows: random letters would never come near its branches. */
const lines = fc
  .tuple(fc.constantFrom(...Object.keys(commandWords), ...vocabulary), parts)
  .map(([word, rest]) => `${word} ${rest}`);
const texts = fc.oneof(
  { weight: 4, arbitrary: lines },
  { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 80 }) },
);

/** What may be done straight from text. All else is opened, read and pressed. */
const light: readonly CommandType[] = [
  'stop-work',
  'raise-concern',
  'arrive',
  'take-reading',
  'mix-batch',
  'pot-temperature',
  'hose-temperature',
  'hose-warm',
  'pause',
  'resume',
  'pot-empty',
  'start-flush',
  'confirm-step',
];

describe('any text', () => {
  test('is read without throwing, and what is done with it is a light command of the schema', () => {
    const seen = new Set<Typed['kind']>();
    fc.assert(
      fc.property(texts, contexts, (text, context) => {
        const read = readTyped(text, context);
        seen.add(read.kind);
        switch (read.kind) {
          case 'do':
            expect(commandSchema.parse(read.command)).toEqual(read.command);
            expect(light).toContain(read.command.type);
            if (context.viewer === null) expect(read.command.type).toBe('stop-work');
            return;
          case 'open': {
            const built = buildForm(read.form, { ...context, previous: null });
            expect(built.ok ? built.form.id : built.shown.summary.length > 0).toBeTruthy();
            return;
          }
          case 'wrong':
            expect(read.message).toMatch(/^[^\n\r]+$/);
            return;
          case 'ask-rig':
            expect(read.rigs.length).toBeGreaterThan(1);
            return;
          case 'show':
          case 'help':
            return;
        }
      }),
      { numRuns: 3000, seed: 7 },
    );
    expect([...seen].sort()).toEqual(['ask-rig', 'do', 'help', 'open', 'show', 'wrong']);
  });

  test('a line that is offered for a rig is read as that rig', () => {
    let offered = 0;
    fc.assert(
      fc.property(texts, contexts, (text, context) => {
        const read = readTyped(text, context);
        if (read.kind !== 'ask-rig') return;
        for (const { id, typed } of read.rigs) {
          const again = readTyped(typed, context);
          expect(again.kind).not.toBe('ask-rig');
          if (again.kind === 'do') expect(again.command).toMatchObject({ rig: id });
          if (again.kind === 'open') expect(again.form.about.rig).toBe(id);
          offered += 1;
        }
      }),
      { numRuns: 3000, seed: 8 },
    );
    expect(offered).toBeGreaterThan(50);
  });

  test('that begins with stop stops, whatever follows', () => {
    const after = fc
      .tuple(fc.constantFrom(' ', '!', ': ', '...', '-', '\n'), texts)
      .map((parts) => parts.join(''));
    const start = fc.constantFrom('stop', 'STOP', 'Stop', 'StOp', ' stop', '!stop', '**STOP**', 'stooop');
    fc.assert(
      fc.property(start, after, contexts, (stop, rest, context) => {
        const read = readTyped(stop + rest, context);
        expect(read.kind === 'do' ? read.command.type : read).toBe('stop-work');
      }),
      { numRuns: 1000, seed: 9 },
    );
  });
});

describe('figures', () => {
  const tenths = (min: number, max: number) =>
    fc.integer({ min: min * 10, max: max * 10 }).map((n) => n / 10);
  const written = (n: number, comma: boolean) => (comma ? String(n).replace('.', ',') : String(n));
  const metric = contextOf({ shift: ready().state });

  test('come through as typed, in any order, with the rig anywhere', () => {
    fc.assert(
      fc.property(
        tenths(0.1, 1000),
        tenths(-30, 80),
        tenths(0, 500),
        fc.boolean(),
        fc.constantFrom('', ' '),
        fc.constantFrom('rig 2', 'rig2', 'RIG-2', 'Rig Two', 'rig two'),
        fc.nat(),
        (litres, paintC, thinnerL, comma, gap, rig, shuffle) => {
          const parts = [
            `${written(litres, comma)}${gap}L`,
            `${written(paintC, comma)}${gap}C`,
            `thinner ${written(thinnerL, comma)}`,
            rig,
            'finish',
          ];
          const by = shuffle % parts.length;
          const text = `batch ${[...parts.slice(by), ...parts.slice(0, by)].join(' ')}`;
          expect(readTyped(text, metric)).toEqual({
            kind: 'do',
            command: {
              type: 'mix-batch',
              rig: 'rig-2',
              coating: 'finish',
              litres,
              paintC,
              thinnerL,
              pot: 'fresh',
            },
          });
        },
      ),
      { numRuns: 500, seed: 10 },
    );
  });

  test('in °F come through within what °F can say', () => {
    const us = contextOf({ shift: ready().state, units: 'us' });
    fc.assert(
      fc.property(fc.integer({ min: -22, max: 176 }), (f) => {
        const read = readTyped(`temp rig 2 ${f}`, us);
        const c = read.kind === 'do' && read.command.type === 'pot-temperature' ? read.command.c : Number.NaN;
        expect(c * 1.8 + 32).toBeCloseTo(f, 9);
      }),
      { numRuns: 199, seed: 11 },
    );
  });
});
