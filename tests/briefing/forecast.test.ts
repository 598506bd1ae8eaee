import { describe, expect, it, test } from 'vitest';
import type { Because } from '../../src/briefing/because.ts';
import { buildBriefing } from '../../src/briefing/build.ts';
import type { Caution } from '../../src/briefing/caution.ts';
import type { DayFacts } from '../../src/briefing/rule.ts';
import { fill, readWords } from './caution-md.ts';
import { factsOf, job, type Wanted, withSheet } from './days.ts';

const look = (facts: DayFacts, id: string): Caution | undefined =>
  buildBriefing(facts, null).cautions.find((one) => one.id === id);
function found(facts: DayFacts, id: string): Caution {
  const caution = look(facts, id);
  if (!caution) throw new Error(`${id} is not in this briefing`);
  return caution;
}
const rowsSaid = (caution: Caution) => caution.each.map((row) => fill(readWords(caution.id).each ?? '', row));
const whySaid = (caution: Caution) => fill(readWords(caution.id).why, caution.params);
const day = (field: string, value: Because['value']): Because => ({ from: 'day', of: '', field, value });

/** A mild morning is posted, 18 °C and 55 %; a hot dry noon and a cold wet afternoon are forecast. */
const hot = { at: '08:00', airC: 34, rhPct: 30 };
const wet = { at: '12:00', airC: 2, rhPct: 95 };
const forecast = (...lines: NonNullable<NonNullable<Wanted['entry']>['forecast']>) =>
  factsOf({ entry: { forecast: lines } });
const changing = forecast(hot, wet);

describe('the pot life', () => {
  it('is that of the warmest hour: no more than the 90 min of the sheet at 30 °C', () => {
    const caution = found(changing, 'pot-life');
    expect(whySaid(caution)).toMatch(/^Warmest: 34 °C\./);
    // 34 °C is 4 °C over the warmest line: at most 90 ÷ 2^0.4 = 68 min by halving (UFGS 09971), never over 90.
    expect(caution.each[0]?.minutes).toBeLessThanOrEqual(Math.floor(90 / 2 ** 0.4));
    expect(caution.each).toEqual(found(factsOf({ weather: { airC: 34 } }), 'pot-life').each);
  });

  it('in a hose in the sun begins from that hour too', () => {
    const sunny = (wanted: Wanted) => found(factsOf(wanted), 'pot-life').each[0]?.hot;
    const weather = { sun: true };
    expect(sunny({ weather, entry: { forecast: [hot] } })).toBe(sunny({ weather: { airC: 34, sun: true } }));
  });
});

describe('the cold', () => {
  it('is said for a cold hour of the shift, with the figure and its place, not for one after it', () => {
    const caution = found(changing, 'cold');
    expect(whySaid(caution)).toMatch(/^Coldest: 2 °C\./);
    expect(caution.because).toEqual([day('forecast.airC', 2)]);
    expect(look(forecast({ ...wet, at: '16:00' }), 'cold')).toBeUndefined();
  });
});

describe('fire and charge', () => {
  const cool = { weather: { airC: 10, steelC: 10 } };
  const paint = (wanted: Wanted) =>
    withSheet(factsOf(wanted), 'grey-epoxy', { flashPointC: 45, flushFlashPointC: 60 });

  it('steel that is forecast at 50 °C is warm enough for a flash point of 45 °C', () => {
    const warm = (wanted: Wanted) => found(paint(wanted), 'ignition').params.warm;
    expect(warm(cool)).toBe('no');
    expect(warm({ ...cool, entry: { forecast: [{ at: '12:00', airC: 20, steelC: 50 }] } })).toBe('yes');
    expect(warm({ ...cool, entry: { forecast: [{ at: '12:00', airC: 31 }] } })).toBe('yes');
  });

  it('the driest hour counts for charge', () => {
    const caution = found(changing, 'earthing');
    expect(caution.params).toEqual({ air: 'dry', rh: 30 });
    expect(caution.because).toContainEqual(day('forecast.rhPct', 30));
    expect(found(factsOf(), 'earthing').params.air).toBe('humid');
  });
});

describe('the standing time', () => {
  it('is that of the coldest hour', () => {
    const steps = (facts: DayFacts) =>
      withSheet(facts, 'grey-epoxy', {
        induction: [
          { c: 10, minutes: 40 },
          { c: 20, minutes: 20 },
        ],
      });
    expect(found(steps(factsOf({ weather: { airC: 20 } })), 'mixing').each[0]).toMatchObject({ wait: 20 });
    const colder = factsOf({ weather: { airC: 20 }, entry: { forecast: [{ at: '14:00', airC: 10 }] } });
    expect(found(steps(colder), 'mixing').each[0]).toMatchObject({ stand: 'known', wait: 40 });
  });
});

describe('a limit of the weather', () => {
  it('is looked at hour by hour: the worst value, and from when on it is not met', () => {
    const lines = [
      { at: '09:00', airC: 18, rhPct: 86 },
      { at: '10:00', airC: 18, rhPct: 84 },
      { at: '12:00', airC: 18, rhPct: 93, steelC: 30 },
    ];
    const caution = found(forecast(...lines), 'weather');
    expect(rowsSaid(caution)).toContain('Grey epoxy: humidity 93 %, at most 85 % – not met from 09:00');
    expect(caution.because).toContainEqual(day('forecast.rhPct', 93));
  });

  it('tells the hour with dew nearest, and says where steel is only taken', () => {
    const caution = found(changing, 'weather');
    // Dew point of 2 °C and 95 %: 1.3 °C (psychrometric tables, from memory).
    expect(whySaid(caution)).toBe(
      'Expected (12:00): 2 °C, 95 % humidity, dew point 1.3 °C. Steel 2 °C (not measured, may be colder): margin 0.7 °C.',
    );
    expect(caution.because).toContainEqual(day('forecast.steelC', null));
    const measured = found(forecast({ ...wet, steelC: 2 }), 'weather');
    expect(whySaid(measured)).toContain('Steel 2 °C: margin');
    expect(measured.because).toContainEqual(day('forecast.steelC', 2));
  });

  it('has no hour when it is so from the start, in the posted weather or in a line that holds by then', () => {
    const posted = found(factsOf({ weather: { rhPct: 90 } }), 'weather');
    const line = found(forecast({ at: '06:00', airC: 18, rhPct: 90 }), 'weather');
    expect(rowsSaid(posted)).toContain('Grey epoxy: humidity 90 %, at most 85 % – not met');
    expect(rowsSaid(line)).toEqual(rowsSaid(posted));
  });

  it('names the day of an hour after midnight', () => {
    const night = factsOf({
      entry: { start: '22:00', end: '06:00', forecast: [{ at: '02:00', airC: 18, rhPct: 90 }] },
    });
    expect(rowsSaid(found(night, 'weather'))[0]).toContain('not met from 2026-05-13 02:00');
  });

  it('is never said as not met by a figure that meets it', () => {
    const row = (rhPct: number) =>
      rowsSaid(found(factsOf({ weather: { airC: 18, rhPct, steelC: 40 } }), 'weather'))[0];
    expect(row(85)).toBe('Grey epoxy: humidity 85 %, at most 85 % – close');
    expect(row(85.4)).toBe('Grey epoxy: humidity 85.4 %, at most 85 % – not met');
    expect(row(85.02)).toBe('Grey epoxy: humidity 85.1 %, at most 85 % – not met');
    const steel = factsOf({ weather: { airC: 9.96, rhPct: 30, steelC: 9.96 } });
    expect(rowsSaid(found(steel, 'weather'))).toEqual(['Grey epoxy: steel 9.9 °C, at least 10 °C – not met']);
  });
});

test('a revision that changes the forecast alone asks again for what it changes', () => {
  const first = buildBriefing(factsOf(), null);
  const second = buildBriefing(changing, first);
  expect(second.changed).toEqual(
    expect.arrayContaining(['earthing', 'pot-life', 'mixing', 'weather', 'cold']),
  );
  // What comes after the shift changes nothing.
  expect(buildBriefing(forecast({ ...wet, at: '17:00' }), first).changed).toEqual([]);
});

test('the wash pot goes by steel that is forecast in the sun, and names it', () => {
  const given = (sun: boolean) =>
    factsOf({
      jobs: [job({ coating: 'white-urethane' })],
      weather: { sun },
      entry: { forecast: [{ at: '12:00', airC: 22, steelC: 36 }] },
    });
  expect(look(given(false), 'wash-pot')).toBeUndefined();
  expect(found(given(true), 'wash-pot').because).toContainEqual(day('forecast.steelC', 36));
});
