import type { Command } from '../../src/model/command.ts';
import { signOffInChat } from '../../src/views/sign-off.ts';
import { insist } from '../chat/insist.ts';
import { markerOf } from '../chat/marks.ts';
import { visitInShift } from '../chat/press-shift.ts';
import { answerTo, oldButton } from '../chat/refused.ts';
import type { Put, Said } from '../chat/said.ts';
import { type Asked, ask, type Visit, visitOf } from '../chat/visit.ts';
import { tell } from './answer.ts';
import { openForm } from './forms.ts';
import type { Press } from './inbound.ts';
import { optionsFor } from './look.ts';
import { showPage } from './pages.ts';
import { renderMessage } from './render.ts';
import type { Sender } from './sender.ts';
import { SLACK, type SlackServices } from './services.ts';

/** One press: done first, acknowledged then, shown last. A form or a page is acknowledged first: nothing is at stake. */
export async function takePress(
  services: SlackServices,
  out: Sender,
  put: Put,
  press: Press,
  ack: () => Promise<void>,
): Promise<void> {
  const now = await visitOf(services, press.member);
  const visit = await visitInShift(services, press, now);
  const { action } = press;
  if (action === null || visit === null) {
    await ack();
    return tell(services, out, now, press, oldButton(now));
  }
  switch (action.kind) {
    case 'do': {
      const asked = await ask(services, visit, action.command, press.pressId);
      await ack();
      return showAsked(services, out, put, visit, press, action.command, asked);
    }
    case 'open':
      await ack();
      return openForm(services, out, visit, press, action.form);
    case 'show':
      await ack();
      return showPage(services, out, put, visit, press, action.page);
  }
}

async function showAsked(
  services: SlackServices,
  out: Sender,
  put: Put,
  visit: Visit,
  press: Press,
  command: Command,
  asked: Asked,
): Promise<void> {
  if (asked.ok && (await refreshed(services, out, put, visit, press, command, asked))) return;
  if (asked.ok && (await goesOnThere(services, press, asked))) return;
  await tell(services, out, visit, press, answerTo(visit, command, asked));
}

/** A step of a flush pressed in the flush's own message: that message goes on with the next step for everybody. */
async function goesOnThere(
  { memory }: SlackServices,
  { place }: Press,
  { shift }: Asked & { ok: true },
): Promise<boolean> {
  if (place.kind !== 'message') return false;
  const flushes = await memory.list(SLACK, `said:${shift.id}:${place.channel}:flush:`);
  return flushes.some(({ value }) => value.includes(`"${place.ts}"`));
}

/** A read-back or sign-off in one's own conversation goes on in the same message: the next step stands where one pressed. */
async function refreshed(
  services: SlackServices,
  out: Sender,
  put: Put,
  { person, texts }: Visit,
  { place, pressId, responseUrl }: Press,
  command: Command,
  asked: Asked & { ok: true },
): Promise<boolean> {
  const own = (command.type === 'answer' || command.type === 'sign') && command.witnessFor === undefined;
  if (!own || person === null || place.kind !== 'message') return false;
  const { shift } = asked;
  const prefix = `said:${shift.id}:${place.channel}:`;
  const standing = await services.memory.list(SLACK, `${prefix}sign-off:${person.id}`);
  const pressed = standing.find(({ value }) => value.includes(`"${place.ts}"`));
  if (pressed === undefined) return false;
  const message = signOffInChat({ shift, texts, now: services.clock.now() }, person.id);
  const [first] = renderMessage(
    message,
    optionsFor(services, texts, markerOf(shift.id, [pressId]), 'button'),
  );
  if (responseUrl !== null && first !== undefined) {
    const replaced = await out.replace(responseUrl, { text: first.text, blocks: first.blocks });
    if (replaced.kind === 'ok') return true;
    services.log.warn({ outcome: replaced.kind }, 'a sign-off could not be changed where it was pressed');
  }
  const next: Said = {
    id: `pressed:${pressId}`,
    shift: shift.id,
    key: pressed.key.slice(prefix.length),
    audience: { kind: 'person', person: person.id },
    urgency: 'quiet',
    message,
    possibleRepeat: false,
  };
  await insist(services, () => put(next));
  return true;
}
