import { describe, expect, test } from 'vitest';
import { readTyped } from '../../src/chat/read-typed.ts';
import { rigToType } from '../../src/chat/rig-words.ts';
import type { Typed } from '../../src/chat/typed.ts';
import type { Shift } from '../../src/model/shift.ts';
import { mixed } from '../flow/harness.ts';
import { aJob } from '../flow/pack.ts';
import { contextOf, messageOf, textsIn, typed } from './site.ts';

const two = mixed({ jobs: [aJob(), aJob({ rig: 'rig-2', coating: 'finish' })] });

/** The shift with its two rigs called otherwise. */
function named(first: string, second: string): Shift {
  const { state } = two;
  const [one, other] = [state.day.rigs['rig-1'], state.day.rigs['rig-2']];
  if (!one || !other) throw new Error('the pack of this test has two rigs');
  const rigs = { 'rig-1': { ...one, name: first }, 'rig-2': { ...other, name: second } };
  return { ...state, day: { ...state.day, rigs } };
}

const on = (shift: Shift, text: string): Typed => readTyped(text, contextOf({ shift, now: two.now }));
const rigOf = (read: Typed) => (read.kind === 'do' && 'rig' in read.command ? read.command.rig : read);

describe('with two rigs in use', () => {
  test.each([
    'temp 31 C',
    'warm',
    'go',
    'flush',
    'empty',
    'step',
    'hose 38',
    'check',
    'defect worn hose',
    'pause',
    'batch',
  ])('%j asks which, although paint is in one only, and each line it offers is read as that rig', (text) => {
    const read = typed(two, text);
    if (read.kind !== 'ask-rig') throw new Error(JSON.stringify(read));
    expect(read.word).toBe(text.split(' ')[0]);
    expect(read.rigs.map(({ id, name }) => [id, name])).toEqual([
      ['rig-1', 'Rig One'],
      ['rig-2', 'Rig Two'],
    ]);
    for (const { typed: line } of read.rigs) expect(typed(two, line).kind).not.toBe('ask-rig');
  });

  test('what to type keeps what was typed', () => {
    const read = typed(two, 'temp, 31 C!');
    const lines = read.kind === 'ask-rig' ? read.rigs.map((one) => one.typed) : [];
    expect(lines).toEqual(['temp rig 1 31 C!', 'temp rig 2 31 C!']);
    expect(lines.map((line) => typed(two, line))).toEqual(
      ['rig-1', 'rig-2'].map((rig) => ({ kind: 'do', command: { type: 'pot-temperature', rig, c: 31 } })),
    );
  });

  test('two rigs in one command are asked back', () => {
    const read = typed(two, 'flush rig 1 rig 2');
    expect(read.kind === 'ask-rig' ? read.rigs.map((one) => one.typed) : read).toEqual([
      'flush rig 1',
      'flush rig 2',
    ]);
  });

  test.each(['defect hose of rig 2', 'pause waiting for rig 2'])(
    '%j: a rig in the middle of people’s words may be another one than theirs',
    (text) => expect(typed(two, text).kind).toBe('ask-rig'),
  );

  test('the one in front of the words is meant, whatever rig they speak of', () => {
    expect(typed(two, 'pause rig 1 waiting for rig 2')).toEqual({
      kind: 'do',
      command: { type: 'pause', rig: 'rig-1', why: 'waiting for rig 2' },
    });
  });

  test('each rig has its own paint', () => {
    const coating = (text: string) => {
      const read = typed(two, text);
      return read.kind === 'do' && read.command.type === 'mix-batch' ? read.command.coating : read;
    };
    expect(coating('batch 20 L 20 C rig 1 fresh')).toBe('epoxy');
    expect(coating('batch 20 L 20 C rig 2')).toBe('finish');
  });
});

describe('with one rig in use', () => {
  test('words about the other rig still ask', () => {
    expect(typed(mixed(), 'pause waiting for rig 2').kind).toBe('ask-rig');
    expect(typed(mixed(), 'pause waiting for rig 1')).toMatchObject({ kind: 'do' });
  });

  test('a rig that holds paint is in use without a job', () => {
    const holding = mixed({ jobs: [aJob({ rig: 'rig-2', coating: 'finish' })] });
    expect(typed(holding, 'temp 31 C').kind).toBe('ask-rig');
  });
});

describe('a rig with several paints today', () => {
  const play = mixed({ jobs: [aJob({ rig: 'rig-2' }), aJob({ rig: 'rig-2', coating: 'finish' })] });
  test('asks which', () =>
    expect(messageOf(typed(play, 'batch 20 L 20 C rig 2'))).toBe(
      'Rig Two: which paint? Nothing was done. Add one of: Test epoxy, Test finish',
    ));
  test.each([
    ['batch 20 L 20 C rig 2 test finish', 'finish'],
    ['batch Test Epoxy 20 L 20 C rig 2', 'epoxy'],
    ['batch 20 L finish 20 C rig 2', 'finish'],
  ])('%j', (text, coating) =>
    expect(typed(play, text)).toMatchObject({ kind: 'do', command: { litres: 20, paintC: 20, coating } }),
  );
});

describe('names', () => {
  test.each<[string, string, string, string]>([
    ['Rig 1 (large pump)', 'Rig 2 (small pump)', 'warm rig 2', 'rig-2'],
    ['Rig 1 (large pump)', 'Rig 2 (small pump)', 'warm Rig 2 (small pump)', 'rig-2'],
    ['Rig 1 (large pump)', 'Rig 2 (small pump)', 'warm rig-2', 'rig-2'],
    ['Big Żuraw', 'Ratón', 'warm raton', 'rig-2'],
    ['Big Żuraw', 'Ratón', 'warm BIG ZURAW', 'rig-1'],
    ['Pump 7', 'Pump 8', 'warm rig 8', 'rig-2'],
    ['Pump 7', 'Pump 8', 'warm pump 7', 'rig-1'],
    ['Rig 1', 'Rig 1 north', 'warm rig 1 north', 'rig-2'],
    ['Rig 1', 'Rig 12', 'warm rig 12', 'rig-2'],
    ['Rig 2', 'Rig 1', 'warm rig-2', 'rig-2'],
  ])('%s, %s: %j', (first, second, text, rig) => expect(rigOf(on(named(first, second), text))).toBe(rig));

  test('a number in a name that is another rig’s id is asked back, with what names each', () => {
    const crossed = named('Rig 2', 'Rig 1');
    const read = on(crossed, 'warm rig 1');
    const lines = read.kind === 'ask-rig' ? read.rigs : [];
    expect(lines.map(({ id }) => id)).toEqual(['rig-1', 'rig-2']);
    expect(lines.map((one) => rigOf(on(crossed, one.typed)))).toEqual(['rig-1', 'rig-2']);
  });

  test.each(['2', 'C', 'top', 'b'])(
    'a rig called %j needs the word rig, or a figure would be lost to it',
    (name) => {
      const shift = named('Rig 1', name);
      expect(on(shift, 'temp 2 C')).toMatchObject({ kind: 'ask-rig' });
      expect(on(shift, `temp rig ${name} 30 C`)).toMatchObject({
        kind: 'do',
        command: { rig: 'rig-2', c: 30 },
      });
    },
  );

  test.each(['temp rig 2.5 C', 'temp rig 2b 31 C', 'temp rig 2/3 C', 'temp rig 2'])(
    '%j: a piece of a figure is no rig, and a rig no figure',
    (text) => expect(on(named('Rig 1', 'Rig 2'), text).kind).not.toBe('do'),
  );

  test('each is told by what names it and no other', () => {
    const ways = (shift: Shift) =>
      Object.values(shift.day.rigs).map((rig) => rigToType(rig, shift, textsIn('en')));
    expect(ways(named('Rig 1 (large)', 'Rig 2 (small)'))).toEqual(['rig 1', 'rig 2']);
    expect(ways(named('Pump 4 north', 'Pump 4 south'))).toEqual(['Pump 4 north', 'Pump 4 south']);
    expect(ways(named('Same', 'Same'))).toEqual(['rig 1', 'rig 2']);
  });
});
