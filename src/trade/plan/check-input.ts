import type { TemperatureStep } from '../dose.ts';
import { checkedPotLife } from '../pot-life.ts';
import { inRange, someOf, TradeRefusal } from '../refusal.ts';
import { paintC, sortedTable } from '../temperature-table.ts';
import type { PlanInput, PlanJob, Span } from './types.ts';

const LONGEST_SHIFT_MS = 26 * 3_600_000;
const LAST_INSTANT = 8.64e15 - LONGEST_SHIFT_MS;
const DAY = 1440;

/** Hands the input back when a plan can be worked out from it. @throws TradeRefusal naming the field that is out of range. */
export function checkedInput(input: PlanInput): PlanInput {
  const start = instant('startsAt', input.startsAt);
  const end = inRange(
    'endsAt',
    input.endsAt,
    start + 60_000,
    start + LONGEST_SHIFT_MS,
    'ms since 1970',
    'A shift lasts from a minute to 26 hours.',
  );
  input.breaks.forEach((one, i) => {
    span(`breaks[${i}]`, one);
    inRange(`breaks[${i}].from`, one.from, start, end, 'ms since 1970', 'A break lies in the shift.');
    inRange(`breaks[${i}].to`, one.to, start, end, 'ms since 1970', 'A break lies in the shift.');
  });
  steps('paintC', input.paintC);
  steps('coldC', input.coldC);
  steps('hose.towardsC', input.hose.towardsC);
  inRange('hose.timeConstantMinutes', input.hose.timeConstantMinutes, 1, DAY, 'min', 'See src/trade/sun.ts.');
  inRange('reserveFraction', input.reserveFraction, 0, 0.95, 'of the pot life', 'A quarter is usual.');
  inRange('flushMinutes', input.flushMinutes, 0, DAY, 'min', 'Work it out for this rig.');
  inRange('setupMinutes', input.setupMinutes, 0, DAY, 'min', 'Time it once.');
  inRange('mixMinutes', input.mixMinutes, 0, DAY, 'min', 'Time it once.');
  for (const field of ['primaryL', 'secondaryL', 'renewL'] as const)
    inRange(field, input[field], 0, 10_000, 'L', 'Work it out for this rig.');
  inRange('mostPotLitres', input.mostPotLitres, 0.1, 10_000, 'L', 'Give the size of the largest pot.');
  someOf('jobs', input.jobs, 'A plan needs a job.').forEach((job, i) => {
    checkedJob(job, `jobs[${i}]`);
    const same = input.jobs.find(({ coating }) => coating === job.coating);
    if (JSON.stringify(same?.potLife) !== JSON.stringify(job.potLife))
      throw new TradeRefusal(
        `jobs[${i}].potLife`,
        job.potLife,
        `the same as that of the other jobs with ${job.coating}`,
        'One coating has one pot life, and it stays in the line from one job to the next.',
      );
  });
  return input;
}

function checkedJob(job: PlanJob, at: string): void {
  const sheet = 'Copy it from the data sheet.';
  inRange(`${at}.litres`, job.litres, 0.1, 1e8, 'L', 'Work it out from area and film.');
  inRange(`${at}.areaM2`, job.areaM2, 0.01, 1e6, 'm²', 'Area is in square metres.');
  if (job.ratio) {
    inRange(`${at}.ratio.a`, job.ratio.a, 0.01, 1000, 'parts', sheet);
    inRange(`${at}.ratio.b`, job.ratio.b, 0.01, 1000, 'parts', sheet);
  }
  if (job.kitLitres !== null) inRange(`${at}.kitLitres`, job.kitLitres, 0.1, 1000, 'L', sheet);
  inRange(`${at}.thinnerPct`, job.thinnerPct, 0, 100, '%', 'Thinner is counted per 100 volumes of paint.');
  inRange(`${at}.sprayLPerMin`, job.sprayLPerMin, 1e-6, 100, 'L/min', 'Work it out from tip and pressure.');
  if (job.potLife) checkedPotLife(job.potLife);
  if (job.induction.length > 0) sortedTable(job.induction, 0, 1440);
  job.closed.forEach((one, i) => {
    span(`${at}.closed[${i}]`, one);
  });
}

function steps(field: string, list: readonly TemperatureStep[]): void {
  someOf(field, list, 'A plan needs at least one expected temperature.').forEach((step, i) => {
    instant(`${field}[${i}].at`, step.at);
    paintC(`${field}[${i}].c`, step.c);
  });
}

function span(field: string, { from, to }: Span): void {
  instant(`${field}.from`, from);
  instant(`${field}.to`, to);
  if (to < from)
    throw new TradeRefusal(`${field}.to`, to, 'no earlier than its start', 'It ends before it begins.');
}

const instant = (field: string, value: number) =>
  inRange(
    field,
    value,
    -LAST_INSTANT,
    LAST_INSTANT,
    'ms since 1970',
    'Give the moment as epoch milliseconds.',
  );
