import type { Actor } from '../../src/model/actor.ts';
import { type FlushStep, flushSteps, type RigCheck, rigChecks } from '../../src/model/checks.ts';
import type { CarryOver } from '../../src/model/day.ts';
import type { SitePack } from '../../src/model/site.ts';
import type { TextsFor } from '../../src/texts/texts.ts';
import { type CrewDay, crewDay, demoPack, textsFor } from './crew-day.ts';

export const DATE = '2026-06-08';
const atTheBoard: Actor = { kind: 'unknown', surface: 'board' };
const allOk = Object.fromEntries(rigChecks.map((check) => [check, 'ok'])) as Record<
  RigCheck,
  'ok' | 'defect'
>;

export interface DayChanges {
  readonly pack?: SitePack;
  readonly words?: TextsFor;
  /** Takes the place of people's own words. */
  readonly said?: (text: string) => string;
}

/** A whole invented shift in which everything that can happen does happen at least once. */
export async function wholeDay({
  pack = demoPack().pack,
  words = textsFor,
  said = (text) => text,
}: DayChanges = {}): Promise<CrewDay> {
  const { day } = demoPack();
  const before = leftOn('2026-06-05', {
    settledSolvent: [{ rig: 'rig-1', solvent: 'Cleaner E (demo)', litres: 6 }],
  });
  const crew = crewDay(pack, DATE, words, before);
  const others = day.others.filter((name) => name !== 'tomas');
  const entry = { ...day, date: DATE, others, notes: said(day.notes) };

  await crew.until('06:32');
  await crew.does('ines', { type: 'post-day', entry });
  await crew.until('07:02');
  for (const name of ['duarte', 'bento', 'rui', 'ines'])
    await crew.signs(name, { wrongFirst: name === 'bento' });
  await crew.does('marta', { type: 'raise-concern', text: said('The ladder at span 2 is not tied off.') });
  await crew.until('07:08');
  await crew.signs('nuno', { witness: 'ines' });
  await crew.does('ines', {
    type: 'resolve-concern',
    concern: 'concern-1',
    text: said('Tied off by the scaffolders, looked at it myself.'),
  });
  await crew.signs('marta');
  await crew.until('07:13');
  await crew.answers('ines', 'unsigned');
  await crew.signs('clara');
  await crew.signs('livia');
  await crew.until('07:20');
  await crew.does('ines', { type: 'arrive', person: 'tomas' });
  await crew.signs('tomas');

  await crew.until('07:26');
  const jobs = entry.jobs.map((job) => (job.rig === 'rig-1' ? { ...job, airBar: 5.5 } : job));
  await crew.does('ines', { type: 'post-day', entry: { ...entry, jobs } });
  for (const name of ['ines', 'duarte', 'marta', 'bento', 'rui', 'livia', 'clara', 'tomas'])
    await crew.signs(name);
  await crew.signs('nuno', { witness: 'ines' });

  await crew.until('07:34');
  await crew.does('duarte', { type: 'check-rig', rig: 'rig-1', results: allOk });
  await crew.does('rui', {
    type: 'check-rig',
    rig: 'rig-2',
    results: { ...allOk, 'earth-lead': 'defect' },
    note: said('Clamp broken'),
  });
  await crew.until('07:41');
  await crew.does('ines', {
    type: 'clear-tag',
    rig: 'rig-2',
    text: said('New clamp fitted, lead measured.'),
  });
  await crew.does('rui', { type: 'check-rig', rig: 'rig-2', results: allOk });
  await crew.until('07:48');
  await crew.does('bento', {
    type: 'take-reading',
    airC: 19,
    rhPct: 68,
    steelC: 21,
    place: said('Span 2, lower flange'),
  });

  await crew.until('07:55');
  await crew.does('bento', mix('rig-1', 'epoxy-mid', 20, 22, 0.6));
  await crew.until('08:05');
  await crew.does('livia', mix('rig-2', 'pu-finish', 14, 21, 0.7));
  await crew.deliver();
  await crew.does('livia', { type: 'mend-mix-temperature', rig: 'rig-2', batch: 'rig-2-1', c: 21.5 });
  await crew.until('08:35');
  await crew.does('bento', { type: 'pot-temperature', rig: 'rig-1', c: 25 });
  await crew.does('rui', { type: 'hose-temperature', rig: 'rig-2', c: 27 });
  await crew.until('08:52');
  await crew.does('bento', { type: 'pot-empty', rig: 'rig-1' });
  await crew.does('bento', mix('rig-1', 'epoxy-mid', 20, 24, 0.6));
  await crew.until('09:10');
  await crew.does('duarte', { type: 'line-renewed', rig: 'rig-1', sprayedL: 11.5 });
  await crew.does('duarte', { type: 'pause', rig: 'rig-1', why: said('Moving the cradle') });
  await crew.until('09:16');
  await crew.does('duarte', { type: 'hose-warm', rig: 'rig-1' });
  await crew.does('duarte', { type: 'resume', rig: 'rig-1' });
  await crew.does('duarte', { type: 'test-fan', rig: 'rig-1', tip: '521', widthMm: 235 });
  await crew.until('09:31');
  await crew.as(atTheBoard, { type: 'stop-work', text: said('Somebody under the scaffold') });
  await crew.until('09:37');
  await crew.answers('ines', 'stop-work');
  await crew.does('ines', { type: 'clear-stop-work', text: said('Barrier closed, nobody below.') });
  crew.unreachable('clara');

  await crew.until('09:38');
  await flush(crew, 'duarte', 'rig-1', 1, { from: 'lock-trigger', to: 'primary-flush' });
  await crew.deliver();
  await crew.until('09:58', { down: true });
  await crew.until('10:01', { down: true });
  await crew.ring();
  await crew.deliver();
  await crew.answers('rui', 'start-flush');
  await flush(crew, 'rui', 'rig-2', 1, { from: 'lock-trigger', to: 'solvent-away' });
  await flush(crew, 'duarte', 'rig-1', 1, {
    from: 'secondary-flush',
    to: 'solvent-away',
    skip: { filters: said('New filters go in tomorrow, old ones thrown away') },
  });
  await crew.does('duarte', {
    type: 'report-defect',
    rig: 'rig-1',
    part: said('gun').slice(0, 60),
    text: said('hairline crack at the swivel'),
  });
  await crew.deliver();

  await crew.until('11:41');
  await crew.does('bento', {
    type: 'take-reading',
    airC: 18,
    wetC: 16.5,
    steelC: 18.5,
    place: said('Handrails, shade'),
  });
  await crew.until('13:20');
  await crew.does('livia', mix('rig-2', 'pu-finish', 14, 19, 0));
  await crew.until('14:05');
  await crew.does('livia', { ...mix('rig-2', 'pu-finish', 7, 19, 0), aL: 6, bL: 1, pot: 'on-top' });
  await crew.does('rui', { ...mix('rig-2', 'pu-finish', 7, 19, 0), aL: 6, bL: 1, pot: 'on-top' });
  await crew.until('14:08');
  await crew.does('ines', {
    type: 'void-batch',
    rig: 'rig-2',
    batch: 'rig-2-4',
    reason: said('Livia and Rui both logged it'),
  });
  await crew.does('duarte', { type: 'start-flush', rig: 'rig-1' });
  await crew.does('duarte', {
    type: 'abandon-flush',
    rig: 'rig-1',
    flush: 'rig-1-flush-2',
    reason: said('Meant the small pump'),
  });
  await crew.until('15:10');
  await crew.deliver();
  await flush(crew, 'rui', 'rig-2', 2, { from: 'lock-trigger', to: 'solvent-away' });
  await crew.until('15:51');
  await crew.deliver();
  await crew.until('16:36');
  await crew.does('ines', { type: 'take-reading', airC: 21, rhPct: 38, steelC: 21, place: '' });
  const slip = crew.at();
  await crew.does('ines', { type: 'void-reading', takenAt: slip, reason: said('Dropped a digit') });
  await crew.does('ines', {
    type: 'close-shift',
    reason: said('Rig 1 waits for a new gun; it comes tomorrow at eight.'),
  });
  await crew.deliver();
  return crew;
}

const litres: Readonly<Partial<Record<FlushStep, number>>> = {
  'primary-flush': 9.5,
  'secondary-flush': 6,
  'solvent-away': 14,
};

/** Start the flush if it is not running and answer its steps from the first to the last named, half a minute each. */
async function flush(
  crew: CrewDay,
  name: string,
  rig: string,
  number: number,
  { from, to, skip = {} }: { from: FlushStep; to: FlushStep; skip?: Partial<Record<FlushStep, string>> },
): Promise<void> {
  const flush = `${rig}-flush-${number}`;
  if (from === flushSteps[0]) await crew.does(name, { type: 'start-flush', rig });
  for (const step of flushSteps.slice(flushSteps.indexOf(from), flushSteps.indexOf(to) + 1)) {
    const reason = skip[step];
    const amount = litres[step];
    crew.after(30);
    if (reason !== undefined) await crew.does(name, { type: 'skip-step', rig, flush, step, reason });
    else
      await crew.does(name, {
        type: 'confirm-step',
        rig,
        flush,
        step,
        ...(amount === undefined ? {} : { litres: amount }),
      });
  }
}

function mix(rig: string, coating: string, litres: number, paintC: number, thinnerL: number) {
  return { type: 'mix-batch', rig, coating, litres, paintC, thinnerL, pot: 'fresh' } as const;
}

/** What the shift of an earlier date left: nothing but what is given. */
export function leftOn(date: string, left: Partial<CarryOver>) {
  const carryOver: CarryOver = {
    fromShift: `gannet-footbridge:${date}`,
    fromDate: date,
    tags: [],
    unflushed: [],
    skippedSteps: [],
    settledSolvent: [],
    concerns: [],
    stop: null,
    coats: [],
    ...left,
  };
  return { head: 'f'.repeat(64), carryOver };
}
