import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Clock, SurfaceMemory } from '../../src/ports.ts';
import { MIN, T0 } from './fixtures.ts';

/** What every surface memory promises; `make` gives an empty one, and what is to be done with it after the test. */
export function surfaceMemoryContract(
  name: string,
  make: (clock: Clock) => { readonly memory: SurfaceMemory; readonly close: () => void },
): void {
  describe(`surface memory contract: ${name}`, () => {
    let now: number;
    let memory: SurfaceMemory;
    let close: () => void;
    beforeEach(() => {
      now = T0;
      ({ memory, close } = make({ now: () => now }));
    });
    afterEach(() => close());

    const putAll = async (keys: readonly string[]) => {
      for (const key of keys) await memory.put('slack', key, JSON.stringify(key));
    };
    const keysOf = async (prefix: string) => (await memory.list('slack', prefix)).map(({ key }) => key);

    describe('get, put, remove', () => {
      test('what was never put is null, listed nowhere, and no error to remove', async () => {
        expect(await memory.get('slack', 'panel')).toBeNull();
        expect(await memory.list('slack', '')).toEqual([]);
        await memory.remove('slack', 'panel');
        expect(await memory.forget('slack', '', T0 + MIN)).toBe(0);
      });

      test('what was put comes back letter for letter; the last one counts, with its time', async () => {
        const value = '{"channel":"C 7","at":"16.25","note":"\\u0000 🎨 d’été"}';
        await memory.put('slack', 'panel', '{"old":true}');
        now += 0.25;
        await memory.put('slack', 'panel', value);
        expect(await memory.get('slack', 'panel')).toBe(value);
        expect(await memory.list('slack', '')).toEqual([{ key: 'panel', value, at: T0 + 0.25 }]);
      });

      test('a clock that was set back is taken at its word', async () => {
        await memory.put('slack', 'panel', '1');
        now -= MIN;
        await memory.put('slack', 'panel', '2');
        expect(await memory.list('slack', '')).toEqual([{ key: 'panel', value: '2', at: T0 - MIN }]);
      });

      test('removed is gone, alone, and can be put again', async () => {
        await putAll(['panel', 'panel:2']);
        await memory.remove('slack', 'panel');
        expect(await memory.get('slack', 'panel')).toBeNull();
        expect(await keysOf('')).toEqual(['panel:2']);
        await memory.put('slack', 'panel', '2');
        expect(await memory.get('slack', 'panel')).toBe('2');
      });

      test.each([
        ['case', 'Panel', 'panel'],
        ['a space at the end', 'panel', 'panel '],
        ['one form of a letter', 'caf\u00e9', 'cafe\u0301'],
        ['what follows a NUL', 'a\0b', 'a\0c'],
        ['a number’s spelling', '1', '01'],
      ])('keys that differ by %s are two', async (_, one, other) => {
        await putAll([one, other]);
        expect(await memory.get('slack', one)).toBe(JSON.stringify(one));
        expect(await memory.get('slack', other)).toBe(JSON.stringify(other));
        await memory.remove('slack', one);
        expect(await keysOf('')).toEqual([other]);
      });
    });

    describe('prefixes', () => {
      test.each([
        ['%', ['%', '%a'], ['a', '$', '&']],
        ['a%', ['a%', 'a%b'], ['a', 'ab', 'axb']],
        ['dm_', ['dm_', 'dm_ana'], ['dm', 'dm:ana', 'dmx', 'dm-ana']],
        ['[a-c]*?', ['[a-c]*?', '[a-c]*?d'], ['a', 'axx', 'b', '[a-c]']],
        ['a\\', ['a\\', 'a\\%'], ['a', 'a%', 'a]']],
        ["a'", ["a'", "a'b"], ['a', 'a"']],
        ['Message:', ['Message:1'], ['message:1', 'MESSAGE:1', 'message:']],
        ['é', ['é', 'éa'], ['e', 'É', 'e\u0301']],
        ['🎨', ['🎨', '🎨1'], ['🎩', 'z']],
        ['a\0', ['a\0', 'a\0b'], ['a', 'a\x01', 'ab']],
        ['a\u{10ffff}', ['a\u{10ffff}', 'a\u{10ffff}b'], ['a', 'a\uffff', 'b']],
      ])(
        '%j finds only the keys that begin with it, to list and to forget',
        async (prefix, inside, outside) => {
          await putAll([...outside, ...inside]);
          expect(await keysOf(prefix)).toEqual(inside);
          expect(await memory.forget('slack', prefix, T0 + 1)).toBe(inside.length);
          expect(await keysOf(prefix)).toEqual([]);
          expect(new Set(await keysOf(''))).toEqual(new Set(outside));
        },
      );

      test('the whole key is its own prefix; a longer one finds nothing', async () => {
        await putAll(['panel', 'panel:1']);
        expect(await keysOf('panel')).toEqual(['panel', 'panel:1']);
        expect(await keysOf('panel:12')).toEqual([]);
      });

      test('keys come by code points, in whatever order they were put', async () => {
        // U+FF5E is below U+1F3A8, though its UTF-16 unit is above both halves of that one.
        const inOrder = ['k1', 'k10', 'k2', 'kZ', 'k_', 'ka', 'ké', 'kあ', 'k\uff5e', 'k🎨', 'k🎩'];
        await putAll([...inOrder].reverse());
        await putAll(['k2', 'ka']);
        expect(await keysOf('k')).toEqual(inOrder);
        expect(await keysOf('')).toEqual(inOrder);
      });

      test('what was listed is a copy', async () => {
        await putAll(['panel']);
        for (const entry of await memory.list('slack', '')) Object.assign(entry, { value: 'changed', at: 0 });
        expect(await memory.list('slack', '')).toEqual([{ key: 'panel', value: '"panel"', at: T0 }]);
      });
    });

    describe('forget', () => {
      beforeEach(async () => {
        for (const key of ['message:1', 'message:2', 'message:3', 'dm:ana']) {
          await memory.put('slack', key, '1');
          now += MIN;
        }
      });

      test('what was put at the moment itself stays, what was put a moment before goes', async () => {
        expect(await memory.forget('slack', 'message:', T0)).toBe(0);
        expect(await memory.forget('slack', 'message:', T0 + MIN)).toBe(1);
        expect(await keysOf('')).toEqual(['dm:ana', 'message:2', 'message:3']);
        expect(await memory.forget('slack', 'message:', T0 + MIN + 0.5)).toBe(1);
        expect(await keysOf('')).toEqual(['dm:ana', 'message:3']);
      });

      test('what was put again counts from then on', async () => {
        await memory.put('slack', 'message:1', '2');
        expect(await memory.forget('slack', 'message:', T0 + 3 * MIN)).toBe(2);
        expect(await keysOf('')).toEqual(['dm:ana', 'message:1']);
      });

      test('an empty prefix is all of the surface', async () => {
        expect(await memory.forget('slack', '', Number.POSITIVE_INFINITY)).toBe(4);
        expect(await keysOf('')).toEqual([]);
      });
    });

    test('two surfaces do not see each other’s keys', async () => {
      await memory.put('slack', 'panel', '"s"');
      await memory.put('teams', 'panel', '"t"');
      await memory.put('Slack', 'panel:2', '"S"');
      expect(await memory.get('teams', 'panel')).toBe('"t"');
      expect(await memory.get('teams', 'panel:2')).toBeNull();
      expect(await memory.list('slack', '')).toEqual([{ key: 'panel', value: '"s"', at: T0 }]);
      await memory.remove('slack', 'panel');
      expect(await memory.get('slack', 'panel')).toBeNull();
      expect(await memory.forget('slack', '', T0 + 1)).toBe(0);
      expect(await memory.get('teams', 'panel')).toBe('"t"');
      expect(await memory.get('Slack', 'panel:2')).toBe('"S"');
    });

    describe('what is refused, by rejection', () => {
      const cut = '🎨'.slice(0, 1);
      const cases: Readonly<Record<string, readonly [RegExp, () => Promise<unknown>]>> = {
        'an empty key to put': [
          /surface "slack", key "".*the key is empty/,
          () => memory.put('slack', '', '1'),
        ],
        'an empty key to get': [/the key is empty/, () => memory.get('slack', '')],
        'an empty key to remove': [/the key is empty/, () => memory.remove('slack', '')],
        'an empty surface to put': [/name of the surface is empty/, () => memory.put('', 'new', '1')],
        'an empty surface to list': [/name of the surface is empty/, () => memory.list('', '')],
        'a value that is too long': [
          /key "new".*20001 characters, at most 20000/,
          () => memory.put('slack', 'new', 'x'.repeat(20_001)),
        ],
        'a longer value for a key that is there': [
          /20001 characters/,
          () => memory.put('slack', 'old', 'x'.repeat(20_001)),
        ],
        'a key cut inside an emoji': [/the key has half a character/, () => memory.put('slack', cut, '1')],
        'a value cut inside an emoji': [
          /the value has half a character/,
          () => memory.put('slack', 'old', cut),
        ],
        'a surface cut inside an emoji': [
          /the surface has half a character/,
          () => memory.get(`slack${cut}`, 'old'),
        ],
        'a prefix cut inside an emoji to list': [
          /the prefix has half a character/,
          () => memory.list('slack', cut),
        ],
        'a prefix cut inside an emoji to forget': [
          /the prefix has half a character/,
          () => memory.forget('slack', cut, T0 + 1),
        ],
        'no number as the time to forget before': [
          /prefix "".*is no number/,
          () => memory.forget('slack', '', Number.NaN),
        ],
      };

      test.each(Object.entries(cases))(
        '%s: said where and why, nothing is changed',
        async (_, [why, ask]) => {
          await memory.put('slack', 'old', '"kept"');
          now += MIN;
          await expect(ask()).rejects.toThrow(why);
          expect(await memory.list('slack', '')).toEqual([{ key: 'old', value: '"kept"', at: T0 }]);
        },
      );

      test('20,000 characters are kept, also of four bytes each', async () => {
        for (const value of ['x'.repeat(20_000), '🎨'.repeat(10_000)]) {
          await memory.put('slack', 'long', value);
          expect(await memory.get('slack', 'long')).toBe(value);
        }
      });
    });
  });
}
