import { buildBriefing } from '../briefing/build.ts';
import { canonicalJson } from '../journal/canonical-json.ts';
import type { CommandOf } from '../model/command.ts';
import type { Day } from '../model/day.ts';
import type { EventBody, EventOf } from '../model/event.ts';
import type { ShiftId } from '../model/id.ts';
import type { Shift } from '../model/shift.ts';
import type { Instant } from '../model/time.ts';
import { withCarried } from './carry-over.ts';
import { type Apply, accept, type Context, type Decision, refuse } from './decision.ts';
import { resolveDay } from './resolve-day.ts';
import { sunNoted } from './standing.ts';
import { idleRig, untouchedPerson } from './untouched.ts';

/** DE1–DE5: post the day, or change the day that is running. */
export function decidePostDay(
  shift: Shift | null,
  command: CommandOf<'post-day'>,
  context: Context,
): Decision {
  const { actor, pack, now } = context;
  const poster =
    actor.kind === 'person' ? pack.people.find((person) => person.id === actor.person) : undefined;
  if (!poster)
    return actor.kind === 'person'
      ? refuse('refusal.not-in-pack', { person: actor.person })
      : refuse('refusal.who-are-you');
  if (!poster.roles.includes('foreman')) {
    const names = pack.people
      .filter((person) => person.roles.includes('foreman'))
      .map((person) => person.name);
    return refuse('refusal.foreman-only', { foreman: names.join(', ') });
  }
  const resolved = resolveDay(command.entry, pack);
  if ('refused' in resolved) return resolved;
  const { entry, endsAt } = resolved.day;
  if (endsAt <= now) return refuse('refusal.day-past', { date: entry.date, end: entry.end });
  // The foreman who posts is on the shift and signs like everybody else.
  const crew = resolved.day.crew.includes(poster.id) ? resolved.day.crew : [poster.id, ...resolved.day.crew];
  const day = { ...resolved.day, crew };

  if (!shift) {
    const carriedIn = context.before?.carryOver ?? null;
    const briefing = buildBriefing({ day, carriedIn }, null);
    const posted = {
      type: 'day-posted',
      day,
      briefing,
      carriedIn,
      previousHead: context.before?.head ?? null,
    } as const;
    if (now < day.prestartAt) return accept(posted);
    const { before } = context;
    const taken = before && [
      { type: 'carried-over', carriedIn: before.carryOver, previousHead: before.head, briefing } as const,
    ];
    return accept(posted, ...(taken ?? []), { type: 'briefing-issued', revision: 1 });
  }

  if (shift.status === 'closed') return refuse('refusal.shift-closed', { date: shift.date });
  for (const [rig, state] of Object.entries(shift.rigs)) {
    if (!day.rigs[rig] && (state.line || state.pot)) return refuse('refusal.rig-in-use', { rig });
  }
  for (const [id, state] of Object.entries(shift.rigs)) {
    const coating = state.line?.coating ?? state.pot?.coating;
    if (coating && !day.coatings[coating]) return refuse('refusal.coating-in-use', { coating, rig: id });
  }
  if (command.base !== undefined && command.base !== shift.briefing.revision)
    return refuse('refusal.day-changed-meanwhile', { revision: shift.briefing.revision });
  const arrived = Object.keys(shift.people).filter((id) => shift.people[id]?.arrivedLate && day.people[id]);
  const changedDay = { ...day, crew: [...new Set([...day.crew, ...arrived])] };
  // Until it has been given out nobody has heard a first revision that this one could differ from.
  const heard = shift.issuedAt === null ? null : shift.briefing;
  const briefing = buildBriefing({ day: changedDay, carriedIn: shift.carriedIn }, heard);
  if (canonicalJson(changedDay) === canonicalJson(shift.day)) return refuse('refusal.day-unchanged');
  const changed = { type: 'day-changed', day: changedDay, briefing } as const;
  if (shift.issuedAt !== null)
    return accept(changed, { type: 'briefing-issued', revision: briefing.revision });
  if (now < day.prestartAt) return accept(changed);
  return accept(changed, ...issueEvents({ ...shift, day: changedDay, briefing }, context.before));
}

export function openShift(id: ShiftId, event: EventOf<'day-posted'>, at: Instant): Shift {
  const { day, briefing, carriedIn } = event;
  const opened: Shift = {
    id,
    date: day.entry.date,
    status: 'open',
    postedAt: at,
    closedAt: null,
    closeReason: '',
    day,
    carriedIn,
    briefing,
    issuedAt: null,
    people: Object.fromEntries(day.crew.map((person) => [person, untouchedPerson])),
    concerns: [],
    stop: null,
    stopClearedAt: null,
    readings: [],
    rigs: Object.fromEntries(Object.keys(day.rigs).map((rig) => [rig, idleRig])),
    bells: {},
    undelivered: [],
    seq: 0,
  };
  return carriedIn ? withCarried(opened, carriedIn, at) : opened;
}

/**
 * DE7: what gives out a briefing. The day may have been posted yesterday afternoon; what yesterday left is looked at again
 * now, so that a line flushed since is not called unflushed and one left since is.
 */
export function issueEvents(shift: Shift, before: Context['before']): readonly EventBody[] {
  const issued = { type: 'briefing-issued', revision: shift.briefing.revision } as const;
  if (!before) return [issued];
  const { carryOver: carriedIn, head: previousHead } = before;
  const rebuilt = buildBriefing({ day: shift.day, carriedIn }, null);
  const { revision, mustSign } = shift.briefing;
  return [
    { type: 'carried-over', carriedIn, previousHead, briefing: { ...rebuilt, revision, mustSign } },
    issued,
  ];
}

export const applyCarriedOver: Apply<'carried-over'> = (shift, { carriedIn, briefing }, { at }) =>
  withCarried({ ...shift, briefing }, carriedIn, at);

/** RW1: a coat that was sprayed before the day was changed is still there. */
function pastJobsOf(shift: Shift, day: Day): Pick<Shift, 'pastJobs'> {
  const kept = day.entry.jobs;
  const past = [...(shift.pastJobs ?? []), ...shift.day.entry.jobs].filter(
    ({ area, coating, coat, rig }) =>
      shift.rigs[rig]?.batches.some((batch) => batch.coating === coating) &&
      !kept.some(
        (job) => job.area === area && job.coating === coating && job.coat === coat && job.rig === rig,
      ),
  );
  const named = past.map(({ area, coating, coat, rig }) => ({ area, coating, coat, rig }));
  return named.length === 0 && !shift.pastJobs ? {} : { pastJobs: named };
}

export const applyDayChanged: Apply<'day-changed'> = (shift, { day, briefing }, { at }) => {
  const changed: Shift = {
    ...shift,
    ...pastJobsOf(shift, day),
    day,
    briefing,
    // Until the briefing went out nobody had heard the entry that this one differs from.
    heardBefore: shift.issuedAt === null ? null : shift.day.entry,
    // Nobody is forgotten: who has left the crew list keeps what they signed.
    people: {
      ...shift.people,
      ...Object.fromEntries(day.crew.map((id) => [id, shift.people[id] ?? untouchedPerson])),
    },
    // Nor is a rig: taken out of the pack and put back it still has its tag and what went through it.
    rigs: {
      ...shift.rigs,
      ...Object.fromEntries(Object.keys(day.rigs).map((rig) => [rig, shift.rigs[rig] ?? idleRig])),
    },
  };
  return sunNoted(shift, changed, at);
};
