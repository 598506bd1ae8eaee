import { describe, expect, test } from 'vitest';
import { dateWords, inWeekdays, weekdayTime } from '../../src/model/time.ts';
import { spoken } from '../../src/views/spoken.ts';
import { uncheckedBlocks } from '../../src/views/unchecked.ts';

describe('times with their date, each reader in their own language', () => {
  test.each([
    ['en-GB', 'Sun 14 Jun 04:00'],
    ['es-ES', 'dom 14 jun 04:00'],
    ['pl-PL', 'niedz. 14 cze 04:00'],
  ])('in %s', (locale, words) => {
    expect(inWeekdays('2026-06-14 04:00', locale)).toBe(words);
    // 04:00 in Lisbon, summer time.
    expect(weekdayTime(Date.UTC(2026, 5, 14, 3), 'Europe/Lisbon', '2026-06-13', locale)).toBe(words);
  });

  test('nothing but a time with its date is touched, and no such day is left as it is', () => {
    const params = {
      a: '04:00',
      b: 'Hull 2026-06-14 04:00',
      c: 4,
      d: '2026-02-30 04:00',
      e: '2026-06-14 04:00',
    };
    expect(spoken(params, { locale: 'en-GB' })).toEqual({ ...params, e: 'Sun 14 Jun 04:00' });
  });

  test('a day of the board begins with the day in Britain, not with the month', () => {
    expect(dateWords('2026-06-08', 'en-GB')).toBe('Monday 8 June');
    expect(dateWords('2026-06-08', 'pt-PT')).toBe('segunda-feira, 8 de junho');
  });
});

describe('the line for readers of a machine draft', () => {
  const say = ((id: string) => id) as never;
  const texts = { language: 'es', direction: 'ltr', locale: 'es-ES', say, caution: say } as const;

  test('LA2 is one quiet note while nobody has checked it, and nothing afterwards', () => {
    expect(uncheckedBlocks({ texts: { ...texts, checked: 'not-yet' } })).toEqual([
      { kind: 'note', tone: 'plain', line: ['language.unchecked'] },
    ]);
    expect(uncheckedBlocks({ texts: { ...texts, checked: 'all' } })).toEqual([]);
  });
});
