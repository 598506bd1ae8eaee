import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { canonicalJson } from '../../src/journal/canonical-json.ts';

describe('canonical JSON', () => {
  test('RFC 8785, section 3.2.2: the sample object', () => {
    const sample = JSON.parse(String.raw`{
      "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
      "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
      "literals": [null, true, false]
    }`) as unknown;
    expect(canonicalJson(sample)).toBe(
      String.raw`{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}`,
    );
  });

  test('RFC 8785, section 3.2.3: keys in the order of UTF-16 code units', () => {
    const sample = JSON.parse(String.raw`{
      "\u20ac": "Euro Sign", "\r": "Carriage Return", "\ufb33": "Hebrew Letter Dalet With Dagesh",
      "1": "One", "\ud83d\ude00": "Emoji: Grinning Face", "\u0080": "Control",
      "\u00f6": "Latin Small Letter O With Diaeresis"
    }`) as unknown;
    expect(
      Object.values(
        JSON.parse(
          `[${canonicalJson(sample)
            .match(/:"[^"]+"/g)
            ?.map((v) => v.slice(1))}]`,
        ),
      ),
    ).toEqual([
      'Carriage Return',
      'One',
      'Control',
      'Latin Small Letter O With Diaeresis',
      'Euro Sign',
      'Emoji: Grinning Face',
      'Hebrew Letter Dalet With Dagesh',
    ]);
  });

  test('whatever is JSON comes back as it was, in one spelling whatever the order of its keys', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        const plain = JSON.parse(JSON.stringify(value)) as unknown;
        const text = canonicalJson(plain);
        expect(JSON.parse(text)).toEqual(plain);
        expect(canonicalJson(turned(plain))).toBe(text);
      }),
    );
  });

  test('half a surrogate pair survives UTF-8', () => {
    const text = canonicalJson(['\ud83d']);
    expect(JSON.parse(Buffer.from(text, 'utf8').toString('utf8'))).toEqual(['\ud83d']);
  });

  test.each([
    [{ rigs: { 'rig-1': { dose: Number.NaN } } }, 'NaN at $.rigs.rig-1.dose'],
    [[1, [Number.NEGATIVE_INFINITY]], '-Infinity at $.1.0'],
    [{ at: new Date(0) }, 'an object with a class of its own at $.at'],
    [{ seen: new Set() }, 'an object with a class of its own at $.seen'],
    [[undefined], 'undefined at $.0'],
    [new Array(1), 'undefined at $.0'],
    [{ n: 1n }, 'bigint at $.n'],
    [undefined, 'undefined at $'],
  ])('what would come back as something else is refused: %o', (value, where) => {
    expect(() => canonicalJson(value)).toThrow(where);
  });

  test('an undefined property is left out', () => {
    expect(canonicalJson({ b: undefined, a: 1 })).toBe('{"a":1}');
  });
});

/** The same value with the keys of every object in the opposite order. */
function turned(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(turned);
  if (value === null || typeof value !== 'object') return value;
  const entries = Object.entries(value).map(([key, item]) => [key, turned(item)] as const);
  return Object.fromEntries(entries.reverse());
}
