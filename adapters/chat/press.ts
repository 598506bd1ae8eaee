import type { Command } from '../../src/model/command.ts';
import { signOffInChat } from '../../src/views/sign-off.ts';
import { insist } from './insist.ts';
import { openForm } from './open-form.ts';
import { showPage } from './pages.ts';
import { type Pressed, visitInShift } from './press-shift.ts';
import { answerTo, oldButton } from './refused.ts';
import type { Put, Said } from './said.ts';
import type { ChatServices } from './services.ts';
import type { Showing } from './showing.ts';
import { type Asked, ask, type Visit, visitOf } from './visit.ts';

/** One press: done first, acknowledged then, shown last. A form or a page is acknowledged first: nothing is at stake. */
export async function takePress(
  services: ChatServices,
  put: Put,
  show: Showing,
  press: Pressed & { readonly member: string },
  ack: () => Promise<void>,
): Promise<void> {
  const now = await visitOf(services, press.member);
  const visit = await visitInShift(services, press, now);
  const { action } = press;
  if (action === null || visit === null) {
    await ack();
    return show.tell(now, oldButton(now));
  }
  switch (action.kind) {
    case 'do': {
      const asked = await ask(services, visit, action.command, show.pressId);
      await ack();
      return showAsked(services, put, show, visit, action.command, asked);
    }
    case 'open':
      await ack();
      return openForm(services, show, visit, action.form);
    case 'show':
      await ack();
      return showPage(services, put, show, visit, action.page);
  }
}

async function showAsked(
  services: ChatServices,
  put: Put,
  show: Showing,
  visit: Visit,
  command: Command,
  asked: Asked,
): Promise<void> {
  if (asked.ok && (await refreshed(services, put, show, visit, command, asked))) return;
  if (asked.ok && (await goesOnThere(services, show, asked))) return;
  await show.tell(visit, answerTo(visit, command, asked));
}

/** A step of a flush pressed in the flush's own message: that message goes on with the next step for everybody. */
async function goesOnThere(
  { memory, surface }: ChatServices,
  { pressedIn }: Showing,
  { shift }: Asked & { ok: true },
): Promise<boolean> {
  if (pressedIn === null) return false;
  const flushes = await memory.list(surface, `said:${shift.id}:${pressedIn.channel}:flush:`);
  return flushes.some(({ value }) => value.includes(`"${pressedIn.id}"`));
}

/** A read-back or sign-off in one's own conversation goes on in the same message: the next step stands where one pressed. */
async function refreshed(
  services: ChatServices,
  put: Put,
  show: Showing,
  visit: Visit,
  command: Command,
  asked: Asked & { ok: true },
): Promise<boolean> {
  const { person, texts } = visit;
  const { pressedIn } = show;
  const own = (command.type === 'answer' || command.type === 'sign') && command.witnessFor === undefined;
  if (!own || person === null || pressedIn === null) return false;
  const { shift } = asked;
  const prefix = `said:${shift.id}:${pressedIn.channel}:`;
  const standing = await services.memory.list(services.surface, `${prefix}sign-off:${person.id}`);
  const pressed = standing.find(({ value }) => value.includes(`"${pressedIn.id}"`));
  if (pressed === undefined) return false;
  const message = signOffInChat({ shift, texts, now: services.clock.now() }, person.id);
  if (await show.replace({ ...visit, shift }, message)) return true;
  const next: Said = {
    id: `pressed:${show.pressId}`,
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
