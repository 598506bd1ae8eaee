import { describe, expect, it } from 'vitest';
import { buildBriefing } from '../../src/briefing/build.ts';
import type { Coat } from '../../src/facts/recoat.ts';
import { factsOf, job } from './days.ts';

const hour = 3_600_000;
/** 07:00, and the shift goes on until 16:00. */
const start = factsOf().day.startsAt;

/** A primer `hours` old at the start whose steel has been at these temperatures, an hour apart. */
function coat(hours: number, steel: readonly number[], more: Partial<Coat> = {}): Coat {
  const firstAt = start - hours * hour;
  return {
    area: 'Hull',
    coating: 'grey-epoxy',
    coat: 'primer',
    firstAt,
    at: firstAt,
    steel: steel.map((c, i) => ({ at: firstAt + i * hour, c })),
    ...more,
  };
}

function rowsFor(coats: readonly Coat[], jobs = [job()]) {
  const { cautions } = buildBriefing(factsOf({ left: { coats }, jobs }), null);
  return cautions.find(({ id }) => id === 'recoat-window')?.each ?? [];
}

describe('RW4 recoat windows in the briefing', () => {
  const state = (hours: number, ...steel: readonly number[]) => rowsFor([coat(hours, steel)])[0]?.state;

  it('is early, open, after the shift, closing during it, or closed', () => {
    // Rows up to 15 °C: 16 to 96 h; up to 25 °C: 8 to 48 h.
    expect(state(7.5, 10)).toBe('early');
    expect(state(17, 10)).toBe('after');
    expect(state(14.9, 10)).toBe('early');
    expect(rowsFor([coat(17, [10], { coating: 'wall-acrylic' })])[0]?.state).toBe('unknown');
    expect(state(39, 20)).toBe('closing');
    expect(state(38.9, 20)).toBe('after');
    expect(state(47.9, 20)).toBe('closing');
    expect(state(48, 20)).toBe('closed');
  });

  it('warns of a window that lies between this shift and the next', () => {
    // The wait of 8 h ends at 16:00, with the shift, or at 16:30.
    const [inside] = rowsFor([coat(5, [20], { at: start + hour })]);
    expect(inside).toMatchObject({ state: 'early', opens: '16:00', closes: '2026-05-14 02:00' });
    const [between] = rowsFor([coat(5, [20], { at: start + 1.5 * hour })]);
    expect(between).toMatchObject({ state: 'after', opens: '16:30', closes: '2026-05-14 02:00' });
  });

  it('says both times on the site’s clock, with the day when it is another one', () => {
    expect(rowsFor([coat(5, [20])])[0]).toMatchObject({
      opens: '10:00',
      end: 'known',
      closes: '2026-05-14 02:00',
      basis: 'table',
    });
  });

  it('takes the wait from the coldest steel and the end from the warmest hour', () => {
    expect(rowsFor([coat(12, [20, 20, 10])])[0]).toMatchObject({
      state: 'early',
      opens: '11:00',
      closes: '2026-05-13 19:00',
    });
  });

  it('takes the narrowest window when the steel was not read, and says so', () => {
    expect(rowsFor([coat(12, [])])[0]).toMatchObject({
      opens: '11:00',
      closes: '2026-05-13 19:00',
      basis: 'narrowest',
    });
  });

  it('knows nothing of a coat that was hotter than the table', () => {
    expect(rowsFor([coat(20, [30])])[0]).toMatchObject({ state: 'unknown', end: 'hot', c: 30 });
  });

  it('puts what is closed first, then what closes', () => {
    const coats = [coat(20, [20]), coat(2, [20]), coat(60, [20]), coat(45, [20])];
    expect(rowsFor(coats).map((row) => row.state)).toEqual(['closed', 'closing', 'after', 'early']);
  });

  it('leaves a finish alone, unless a job of today goes on it', () => {
    const finish = coat(20, [20], { coat: 'finish' });
    expect(rowsFor([finish])).toEqual([]);
    expect(rowsFor([finish], [job({ area: ' hull ', coat: 'repair' })])).toHaveLength(1);
  });
});
