import { wantedBells } from '../flow/bells.ts';
import { type Conflict, conflictsOf, type RigClock, rigClocks } from '../flow/clocks.ts';
import { flushMinutes } from './batch.ts';
import type { BellWords, RungBell } from './bell-words.ts';
import { sunText } from './clock-notes.ts';
import { at, minutesLeft, type View } from './context.ts';

/** The bells that are about mixed paint in a rig. */
export type PaintBell = 'before-break' | 'before-end' | 'use-by-soon' | 'use-by' | 'start-flush' | 'dead';

/** What such a bell says: of which paint, by which times, and what to do. */
export function paintBellWords(view: View, rung: RungBell, kind: PaintBell, rig: string): BellWords {
  const { texts, shift, now } = view;
  const rigId = rung.rig ?? '';
  const clocks = clocksOf(view, rung);
  const named = { rig, paint: paintName(view, rigId, clocks) };
  const words = earliestWords(view, clocks);
  // A bell that an estimate rings early is put right by one press; that is said while there is time for it.
  const standing = clocks.some(({ where }) => where === 'line') && sunText(view, rigId) !== null;
  const estimated = standing ? ` ${texts.say('clock.sun-bell')}` : '';
  switch (kind) {
    case 'before-break': {
      const found = conflicts(view, rigId, clocks).find(
        (conflict) => conflict.kind === 'break' && rung.bell.endsWith(`:${conflict.index}`),
      );
      const [from, to] = found?.kind === 'break' ? [at(view, found.from), at(view, found.to)] : ['–', '–'];
      return {
        say: texts.say('bell.before-break', { ...named, from, to, by: byWords(view, found) }),
        todo: pastWords(view, found) + texts.say('bell.before-break-do'),
      };
    }
    case 'before-end': {
      const found = conflicts(view, rigId, clocks).find((conflict) => conflict.kind === 'end');
      const end = at(view, shift.day.endsAt);
      return {
        say: texts.say('bell.before-end', { ...named, by: byWords(view, found), end }),
        todo: pastWords(view, found) + texts.say('bell.before-end-do'),
      };
    }
    case 'use-by-soon': {
      const useBy = Math.min(...clocks.map(({ times }) => times.useBy));
      const minutes = clocks.length > 0 ? minutesLeft(useBy, now) : 0;
      return {
        say: texts.say('bell.use-by-soon', { ...named, minutes, ...words }),
        todo: texts.say('bell.use-by-soon-do') + estimated,
      };
    }
    case 'use-by':
      return {
        say: texts.say('bell.use-by', { ...named, ...words }),
        todo: texts.say('bell.use-by-do') + estimated,
      };
    case 'start-flush':
      return {
        say: texts.say('bell.start-flush', { ...named, minutes: flushMinutes(view, rigId), ...words }),
        todo: texts.say('bell.start-flush-do'),
      };
    case 'dead':
      return { say: texts.say('bell.dead', { ...named, ...words }), todo: texts.say('bell.dead-do') };
  }
}

/** The clocks a bell is about: its keys name place and batch, or a batch that runs into a break or the end. */
function clocksOf({ shift }: View, rung: RungBell): readonly RigClock[] {
  const all = rigClocks(shift, rung.rig ?? '');
  const also = wantedBells(shift).find(({ key }) => key === rung.bell)?.also ?? [];
  const about = (key: string, { where, mixed }: RigClock) =>
    key.endsWith(`:${where}:${mixed.batch}`) ||
    `${key.replace(/^before-(break|end):/, '')}:`.startsWith(`${rung.rig}:${mixed.batch}:`);
  const found = all.filter((clock) => [rung.bell, ...also].some((key) => about(key, clock)));
  return found.length > 0 ? found : all.slice(0, 1);
}

/** BE9: place and batch, so that two batches of one rig can be told apart: "line, batch 1 and pot, batch 2". */
function paintName({ shift, texts }: View, rig: string, clocks: readonly RigClock[]): string {
  const { line, pot } = shift.rigs[rig] ?? {};
  const all = rigClocks(shift, rig);
  const parts = clocks.map(({ where, mixed: { batch } }) => {
    // A pot with the line's batch has no clock of its own while it says nothing new.
    const one = all.filter(({ mixed }) => mixed.batch === batch).length === 1;
    const whole = line?.batch === batch && pot?.batch === batch && (one || clocks.length > 1);
    return texts.say('bell.paint', { where: whole ? 'both' : where, batch });
  });
  const [first = '–', second] = [...new Set(parts)];
  return second === undefined ? first : texts.say('bell.paint-and', { first, second });
}

/** Of two paints the earlier of each time. */
function earliestWords(view: View, clocks: readonly RigClock[]) {
  const earliest = (time: keyof RigClock['times'] & ('useBy' | 'startFlushBy' | 'deadAt')) =>
    clocks.length === 0 ? '–' : at(view, Math.min(...clocks.map(({ times }) => times[time])));
  return { useBy: earliest('useBy'), startFlushBy: earliest('startFlushBy'), deadAt: earliest('deadAt') };
}

function conflicts({ shift }: View, rig: string, clocks: readonly RigClock[]) {
  return clocks.flatMap((clock) => conflictsOf(shift.day, rig, clock, clock.mixed.mixedAt));
}

function byWords(view: View, conflict: Conflict | undefined): string {
  return conflict ? at(view, conflict.flushBy) : '–';
}

/** BE5: a bell that rings on after the time it names says so. */
function pastWords({ texts, now }: View, conflict: Conflict | undefined): string {
  return conflict && now >= conflict.flushBy ? `${texts.say('bell.flush-past')} ` : '';
}
