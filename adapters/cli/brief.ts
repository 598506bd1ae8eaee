import { tasksOf } from '../../src/briefing/task.ts';
import { step } from '../../src/engine.ts';
import { message } from '../../src/message/build.ts';
import { plainText } from '../../src/message/plain-text.ts';
import type { Actor } from '../../src/model/actor.ts';
import type { DayEntry } from '../../src/model/day-entry.ts';
import type { Shift } from '../../src/model/shift.ts';
import type { SitePack } from '../../src/model/site.ts';
import { instantOf } from '../../src/model/time.ts';
import type { TextsFor } from '../../src/texts/texts.ts';
import { briefingMessage } from '../../src/views/briefing.ts';
import { refusalText } from '../../src/views/refusal.ts';
import { whyCautions } from '../../src/views/why-cautions.ts';
import { shiftIdFor } from '../host/handle-command.ts';
import { UsageProblem } from './site.ts';

export interface BriefOptions {
  /** Say which facts put each caution into it. */
  readonly why: boolean;
  /** A person's id: in their language, their own tasks first. */
  readonly reader: string | null;
}

/** The briefing of a day file as it would go out at the prestart time; no server, nothing stored. */
export function briefDay(
  pack: SitePack,
  entry: DayEntry,
  textsFor: TextsFor,
  { why, reader }: BriefOptions = { why: false, reader: null },
): { readonly text: string; readonly shift: Shift } {
  const foreman = pack.people.find(({ roles }) => roles.includes('foreman'));
  const actor: Actor = { kind: 'person', person: foreman?.id ?? '', surface: 'terminal' };
  const now = instantOf(entry.date, entry.start, pack.site.timeZone);
  const person = reader === null ? null : pack.people.find(({ id }) => id === reader);
  if (person === undefined) throw new UsageProblem(unknownReader(pack, reader ?? ''));
  const texts = textsFor(person?.language ?? pack.site.language);
  const context = { now, actor, commandId: 'brief', pack, before: null };
  const done = step(shiftIdFor(pack, entry.date), null, { type: 'post-day', entry }, context);
  if (done.refused) throw new UsageProblem(refusalText(done, texts));
  const view = { shift: done.shift, texts, now };
  const briefing = plainText(briefingMessage(view, person ? tasksOf(done.shift.day, person.id) : []));
  const title = texts.say('because.title');
  const causes = why ? `\n\n${plainText(message(title, 'plain', ...whyCautions(view)))}` : '';
  return { text: briefing + causes, shift: done.shift };
}

function unknownReader(pack: SitePack, reader: string): string {
  const known = pack.people.map(({ id }) => id).join(', ');
  return `--for: there is no "${reader}" in this site's people. It can be one of: ${known}.`;
}
