import type { FlushStep } from '../../../src/model/checks.ts';
import type { Job } from '../../../src/model/day-entry.ts';
import { stepName } from '../../../src/views/flush.ts';
import { tagWords } from '../../../src/views/holds.ts';
import type { CarrySummary } from '../summary/close.ts';
import { clock, type Page } from './context.ts';

/** What one shift leaves to the next, a line each. */
export function carryLines(page: Page, carry: CarrySummary): readonly string[] {
  const { texts, view } = page;
  const { stop } = carry;
  return [
    ...(stop ? [texts.say('bell.stop-work', { time: clock(page, stop.at), text: stop.text })] : []),
    ...carry.tags.map(({ rig, cause, text, since }) => {
      const why = cause === 'not-flushed' ? texts.say('tag.not-flushed') : tagWords(view, text);
      return texts.say('paper.close.tag', { rig: rig.name, time: clock(page, since), text: why });
    }),
    ...carry.unflushed.map(({ rig, coating, mixedAt }) =>
      texts.say('paper.close.unflushed', {
        rig: rig.name,
        coating: coating.name,
        time: clock(page, mixedAt),
      }),
    ),
    ...carry.skippedSteps.map(({ rig, step, reason }) =>
      texts.say('flush.skip', { rig: rig.name, step: stepName(view, rig.id, step as FlushStep), reason }),
    ),
    ...carry.settledSolvent.map(({ rig, solvent, litres }) =>
      texts.say('paper.close.solvent', { rig: rig.name, litres, solvent }),
    ),
    ...carry.concerns.map(({ by, text }) => texts.say('concern.raised', { person: by.name, text })),
    ...carry.coats.map((one) => coatLine(page, one)),
  ];
}

/** A coat that waits, and its window by the sheet and the steel readings. */
function coatLine(page: Page, { area, coating, coat, at, window }: CarrySummary['coats'][number]): string {
  const { texts } = page;
  const words = {
    area,
    coating: coating.name,
    coat: texts.say(`word.coat.${coat as Job['coat']}`),
    time: clock(page, at),
  };
  if (!window) return texts.say('paper.close.coat', words);
  const opens = clock(page, window.opensAt);
  if (window.closesAt === null) return texts.say('paper.close.coat-open', { ...words, opens });
  const closes = clock(page, window.closesAt);
  const known = { ...words, opens, closes };
  if (window.maxHours !== null) return texts.say('paper.close.coat-window', known);
  return texts.say('paper.close.coat-hot', { ...known, c: window.heldC ?? '–' });
}
