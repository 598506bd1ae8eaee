import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { genesis, link, sha256, verifyChain } from '../../adapters/host/chain.ts';
import type { ChainedEvent } from '../../src/ports.ts';
import { anEvent } from '../contracts/fixtures.ts';

const written = link(
  'a',
  null,
  Array.from({ length: 12 }, (_, index) => anEvent(index + 1)),
);
const head = written.at(-1)?.hash ?? '';
const place = fc.nat({ max: written.length - 1 });

/** Check that a journal is refused, and return the line that is named. */
function refusedAt(lines: readonly ChainedEvent[], from = head): number {
  const check = verifyChain('a', lines, from);
  if (check.ok) throw new Error('the change was not found');
  return check.line;
}

describe('the chain of a journal', () => {
  test('NIST FIPS 180-4 example: SHA-256 of "abc"', () => {
    expect(sha256('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
  });

  test('holds as written, in one go or line by line', () => {
    expect(verifyChain('a', written, head)).toEqual({ ok: true, head });
    expect(verifyChain('a', [])).toEqual({ ok: true, head: null });
    let before: string | null = null;
    for (const line of written) {
      const [again] = link('a', before, [line.event]);
      expect(again).toEqual(line);
      before = line.hash;
    }
  });

  test('the first line is chained to the shift, so a journal cannot be passed off as another shift’s', () => {
    expect(written[0]?.previous).toBe(genesis('a'));
    expect(verifyChain('b', written)).toMatchObject({ ok: false, line: 1 });
  });

  test('every changed word is found at its line', () => {
    fc.assert(
      fc.property(place, fc.constantFrom('at', 'by', 'commandId', 'body'), (at, field) => {
        const lines = written.map((line, index) =>
          index === at ? { ...line, event: { ...line.event, [field]: 'changed' } } : line,
        );
        expect(refusedAt(lines)).toBe(at + 1);
      }),
    );
  });

  test('a changed line is found also when its own hash is made to fit', () => {
    fc.assert(
      fc.property(place, (at) => {
        const lines = written.flatMap((line, index) =>
          index === at ? link('a', line.previous, [{ ...line.event, at: 0 }]) : [line],
        );
        expect(refusedAt(lines)).toBe(at + 2);
      }),
    );
  });

  test('every line left out, also the last ones', () => {
    fc.assert(
      fc.property(place, fc.integer({ min: 1, max: 12 }), (at, count) => {
        expect(refusedAt(written.toSpliced(at, count))).toBe(at + 1);
      }),
    );
  });

  test('every line put in or put twice', () => {
    fc.assert(
      fc.property(place, place, (at, from) => {
        const line = written[from];
        if (line) expect(refusedAt(written.toSpliced(at, 0, line))).toBeGreaterThan(at);
      }),
    );
  });

  test('every change of order, also when the numbers are made to fit', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray([...written], { minLength: 12 }), (lines) => {
        fc.pre(lines.some((line, index) => line !== written[index]));
        expect(refusedAt(lines)).toBeGreaterThan(0);
        const renumbered = lines.map((line, index) => ({
          ...line,
          event: { ...line.event, seq: index + 1 },
        }));
        expect(refusedAt(renumbered)).toBeGreaterThan(0);
      }),
    );
  });

  test('without a head kept elsewhere a cut tail is not found: this is why the head is kept', () => {
    expect(verifyChain('a', written.slice(0, 5))).toMatchObject({ ok: true });
    expect(verifyChain('a', written.slice(0, 5), head)).toEqual({
      ok: false,
      line: 6,
      why: 'the lines from here on are missing',
    });
  });
});
