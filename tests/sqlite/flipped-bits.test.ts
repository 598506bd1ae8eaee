import { describe, expect, test } from 'vitest';
import { filledDatabase, read } from './filled.ts';
import { tempFile } from './temp.ts';

/** A small seeded generator (mulberry32): the same cases in every run. */
function draws(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return Math.floor((((t ^ (t >>> 14)) >>> 0) / 2 ** 32) * below);
  };
}

function flipBit(bytes: Buffer, at: number, bit: number): Buffer {
  const changed = Buffer.from(bytes);
  changed[at] = (changed[at] ?? 0) ^ (1 << bit);
  return changed;
}

function zeroSector(bytes: Buffer, sector: number): Buffer {
  return Buffer.from(bytes).fill(0, sector * 512, (sector + 1) * 512);
}

describe('a damaged database is noticed, or the damage changes nothing', async () => {
  const good = await filledDatabase();
  const whole = await read(tempFile(good));

  /** Counts the cases noticed; fails on one that reads differently, or fails in words nobody can act on. */
  async function noticed(cases: readonly Buffer[]): Promise<number> {
    let count = 0;
    for (const [index, bytes] of cases.entries()) {
      const found = await read(tempFile(bytes));
      if (found instanceof Error) {
        expect(found, `case ${index}`).toMatchObject({
          name: expect.stringMatching(/^Store(Damaged|Unavailable)$/),
          message: expect.stringMatching(/potbell\.db/),
        });
        count += 1;
      } else expect(found, `case ${index}`).toBe(whole);
    }
    return count;
  }

  test('undamaged it reads whole', () => {
    expect(whole).toEqual(expect.stringContaining('word-899'));
  });

  test('80 flipped bits', async () => {
    const draw = draws(1);
    const cases = Array.from({ length: 80 }, () => flipBit(good, draw(good.length), draw(8)));
    expect(await noticed(cases)).toBeGreaterThan(30);
  });

  test('24 zeroed sectors', async () => {
    const draw = draws(2);
    const cases = Array.from({ length: 24 }, () => zeroSector(good, draw(good.length / 512)));
    expect(await noticed(cases)).toBeGreaterThan(10);
  });

  test('every bit of a next bell', async () => {
    const bell = Buffer.alloc(6);
    bell.writeUIntBE(1_773_036_000_000 + 60_000, 0, 6);
    const at = good.indexOf(bell);
    expect(at).toBeGreaterThan(0);
    const cases = Array.from({ length: 48 }, (_, bit) => flipBit(good, at + (bit >> 3), bit & 7));
    expect(await noticed(cases)).toBe(48);
  });
});
