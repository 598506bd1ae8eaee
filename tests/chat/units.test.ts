import { describe, expect, test } from 'vitest';
import type { Typed } from '../../src/chat/typed.ts';
import { ready } from '../flow/harness.ts';
import { messageOf, typed } from './site.ts';

const play = ready();
const us = (text: string): Typed => typed(play, text, { units: 'us' });

/** 1 US gallon = 3.785 411 784 L, °F = °C × 9/5 + 32: NIST SP 811, appendix B.8. */
const GALLON = 3.785411784;

describe('a site in US units', () => {
  test.each<[string, number, number]>([
    ['batch 4 gal 77 F', 4 * GALLON, 25],
    ['batch 4 77 F', 4 * GALLON, 25],
    ['batch 4 gal 77', 4 * GALLON, 25],
    ['batch 77 f 4', 4 * GALLON, 25],
    ['batch 2 1/2 gal 77 F', 2.5 * GALLON, 25],
    ['batch 1/2 Gallons 77°', 0.5 * GALLON, 25],
    ['batch 4 US gal 77 °F', 4 * GALLON, 25],
    ['batch 15 L 25 C', 15, 25],
    ['batch 15 l 77', 15, 25],
    ['batch rig 1 1/2 gal 77 F', 0.5 * GALLON, 25],
  ])('%j', (text, litres, paintC) => {
    const read = us(text);
    const command = read.kind === 'do' && read.command.type === 'mix-batch' ? read.command : null;
    expect(command?.litres).toBeCloseTo(litres, 9);
    expect(command?.paintC).toBeCloseTo(paintC, 9);
  });

  test('every figure of a reading without a unit is the site’s', () => {
    expect(us('reading 68 60% steel 59 wbgt 77')).toMatchObject({
      kind: 'do',
      command: { airC: 20, rhPct: 60, steelC: 15, wbgtC: 25 },
    });
  });

  test('limits and examples are said in the units of the site', () => {
    expect(messageOf(us('temp 300'))).toBe('“300”: At most 176 °F. Is it the right unit? Nothing was done.');
    expect(messageOf(us('batch 4 77'))).toBe(
      '“4” could be two things. Nothing was done. Write each unit: batch 4 gal 77 °F',
    );
    expect(messageOf(us('batch 4 uk gallons 77 F'))).toContain('Imperial gallons are not known here.');
  });
});

test('US units typed on a metric site are taken as typed, as in its forms', () => {
  expect(typed(play, 'temp 86 F')).toMatchObject({ kind: 'do', command: { c: 30 } });
  const read = typed(play, 'batch 4 gal 25');
  const litres = read.kind === 'do' && read.command.type === 'mix-batch' ? read.command.litres : null;
  expect(litres).toBeCloseTo(4 * GALLON, 9);
});
