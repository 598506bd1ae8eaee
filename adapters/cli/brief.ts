import { step } from '../../src/engine.ts';
import { plainText } from '../../src/message/plain-text.ts';
import type { Actor } from '../../src/model/actor.ts';
import type { DayEntry } from '../../src/model/day-entry.ts';
import type { Shift } from '../../src/model/shift.ts';
import type { SitePack } from '../../src/model/site.ts';
import { instantOf } from '../../src/model/time.ts';
import type { TextsFor } from '../../src/texts/texts.ts';
import { briefingMessage } from '../../src/views/briefing.ts';
import { refusalText } from '../../src/views/refusal.ts';
import { shiftIdFor } from '../host/handle-command.ts';
import { UsageProblem } from './site.ts';

/** The briefing of a day file as it would go out at the prestart time; no server, nothing stored. */
export function briefDay(
  pack: SitePack,
  entry: DayEntry,
  textsFor: TextsFor,
): { readonly text: string; readonly shift: Shift } {
  const foreman = pack.people.find(({ roles }) => roles.includes('foreman'));
  const actor: Actor = { kind: 'person', person: foreman?.id ?? '', surface: 'terminal' };
  const now = instantOf(entry.date, entry.start, pack.site.timeZone);
  const texts = textsFor(pack.site.language);
  const context = { now, actor, commandId: 'brief', pack, before: null };
  const done = step(shiftIdFor(pack, entry.date), null, { type: 'post-day', entry }, context);
  if (done.refused) throw new UsageProblem(refusalText(done, texts));
  return { text: plainText(briefingMessage({ shift: done.shift, texts, now })), shift: done.shift };
}
