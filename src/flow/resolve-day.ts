import { checkLift } from '../facts/pressure.ts';
import type { Day } from '../model/day.ts';
import type { DayEntry } from '../model/day-entry.ts';
import { own } from '../model/own.ts';
import type { SitePack } from '../model/site.ts';
import { HOUR, type Instant, instantOf, MINUTE, nextInstantOf } from '../model/time.ts';
import { potLifeMinutes } from '../trade/pot-life.ts';
import { TradeRefusal } from '../trade/refusal.ts';
import { type Refusal, refuse } from './decision.ts';

/**
 * Join a day entry with the pack's people, coatings and rigs, and turn its wall-clock times into instants.
 * Refuses unknown names, people in roles they do not have, a rig that has no planned pressure, film outside the sheet.
 */
export function resolveDay(entry: DayEntry, pack: SitePack): { readonly day: Day } | Refusal {
  const coatings = Object.fromEntries(pack.coatings.map((sheet) => [sheet.id, sheet]));
  const rigs = Object.fromEntries(pack.rigs.map((rig) => [rig.id, rig]));
  const people = Object.fromEntries(pack.people.map((person) => [person.id, person]));

  for (const job of entry.jobs) {
    const sheet = own(coatings, job.coating);
    const rig = own(rigs, job.rig);
    if (!sheet)
      return refuse('refusal.unknown-coating', {
        coating: job.coating,
        known: Object.keys(coatings).join(', '),
      });
    if (!rig) return refuse('refusal.unknown-rig', { rig: job.rig, known: Object.keys(rigs).join(', ') });
    if (rig.drive === 'air' && job.airBar === undefined)
      return refuse('refusal.pressure-missing', { rig: rig.name, area: job.area });
    if (rig.drive !== 'air' && job.fluidBar === undefined)
      return refuse('refusal.fluid-pressure-missing', { rig: rig.name, area: job.area });
    if (rig.maxAirBar !== undefined && job.airBar !== undefined && job.airBar > rig.maxAirBar)
      return refuse('refusal.air-over-maximum', { rig: rig.name, bar: job.airBar, most: rig.maxAirBar });
    if (rig.maxFluidBar !== undefined && job.fluidBar !== undefined && job.fluidBar > rig.maxFluidBar)
      return refuse('refusal.fluid-over-maximum', {
        rig: rig.name,
        bar: job.fluidBar,
        most: rig.maxFluidBar,
      });
    if (sheet.dft && (job.dftUm < sheet.dft.min || job.dftUm > sheet.dft.max))
      return refuse('refusal.film-outside-sheet', { coating: sheet.name, dft: job.dftUm, ...sheet.dft });
    const thinnerMost = sheet.thinner?.maxPercent ?? 0;
    if (job.thinnerPct > thinnerMost)
      return refuse('refusal.thinner-over-sheet', {
        coating: sheet.name,
        percent: job.thinnerPct,
        most: thinnerMost,
      });
    for (const [role, ids] of [
      ['sprayer', job.sprayers],
      ['mixer', job.mixers],
    ] as const) {
      for (const id of ids) {
        const person = own(people, id);
        if (!person) return refuse('refusal.unknown-person', { person: id });
        if (!person.roles.includes(role)) return refuse('refusal.wrong-role', { person: person.name, role });
      }
    }
    try {
      if (sheet.potLife) potLifeMinutes(sheet.potLife, entry.weather.airC);
      checkLift(rig, sheet, job);
    } catch (error) {
      if (!(error instanceof TradeRefusal)) throw error;
      return refuse('refusal.out-of-range', {
        field: error.field,
        value: String(error.value),
        valid: error.valid,
        why: error.why,
      });
    }
  }
  for (const id of entry.others)
    if (!own(people, id)) return refuse('refusal.unknown-person', { person: id });

  const zone = pack.site.timeZone;
  const startsAt = instantOf(entry.date, entry.start, zone);
  const endsAt = nextInstantOf(startsAt + 1, entry.end, zone);
  const breaks = entry.breaks.map(({ from, to }) => {
    const fromAt = nextInstantOf(startsAt, from, zone);
    return { from: fromAt, to: nextInstantOf(fromAt + 1, to, zone) };
  });
  const order = [...breaks].sort((x, y) => x.from - y.from);
  if (order.some(({ to }, index) => to > (order[index + 1]?.from ?? Number.POSITIVE_INFINITY)))
    return refuse('refusal.breaks-overlap');
  const outside = breaks.findIndex(({ to }) => to > endsAt);
  const stray = entry.breaks[outside];
  if (stray)
    return refuse('refusal.break-outside', {
      from: stray.from,
      to: stray.to,
      start: entry.start,
      end: entry.end,
    });
  const prestartAt = prestartOf(startsAt, instantOf(entry.date, pack.site.prestart, zone));
  const crew = new Set<string>();
  for (const job of entry.jobs) for (const id of [...job.sprayers, ...job.mixers]) crew.add(id);
  for (const id of entry.others) crew.add(id);

  const { id, name, timeZone, language, units, altitudeM } = pack.site;
  return {
    day: {
      entry,
      site: { id, name, timeZone, language, units, altitudeM },
      emergency: pack.site.emergency,
      policy: pack.policy,
      coatings,
      rigs,
      people,
      crew: [...crew],
      startsAt,
      endsAt,
      prestartAt,
      breaks,
      ...(pack.cautions && { cautions: pack.cautions }),
    },
  };
}

/** A night crew is not briefed in the morning: the site's prestart time counts when it lies shortly before the start. */
const LONGEST_BEFORE_START = 3 * HOUR;
const USUAL_BEFORE_START = 30 * MINUTE;

function prestartOf(startsAt: Instant, sitePrestart: Instant): Instant {
  const before = startsAt - sitePrestart;
  return before >= 0 && before <= LONGEST_BEFORE_START ? sitePrestart : startsAt - USUAL_BEFORE_START;
}
