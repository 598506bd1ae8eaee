import { askRigLines, helpLines } from '../../src/chat/help.ts';
import { buttons, list, message } from '../../src/message/build.ts';
import type { Message } from '../../src/message/message.ts';
import { words } from '../chat/messages.ts';
import { answerTo, unknownPerson } from '../chat/refused.ts';
import type { Put } from '../chat/said.ts';
import { ask, visitOf } from '../chat/visit.ts';
import { type ReplyTo, tell } from './answer.ts';
import { openForm } from './forms.ts';
import { showPage } from './pages.ts';
import type { Sender } from './sender.ts';
import type { SlackServices } from './services.ts';

/** One typed line, of the command or to the bot. `trigger` null: no sheet can be opened, a button is offered instead. */
export async function takeLine(
  services: SlackServices,
  out: Sender,
  put: Put,
  line: ReplyTo & { readonly member: string; readonly text: string },
  ack: () => Promise<void>,
): Promise<void> {
  const visit = await visitOf(services, line.member);
  const { texts } = visit;
  const typed = services.readTyped(line.text, {
    pack: services.pack(),
    shift: visit.shift,
    viewer: visit.person?.id ?? null,
    now: services.clock.now(),
    texts,
  });
  // Somebody the pack does not know is told how to get in, not how a command is written.
  if (visit.person === null && typed.kind === 'wrong') {
    await ack();
    return tell(services, out, visit, line, unknownPerson(visit));
  }
  const say = (answer: Message) => tell(services, out, visit, line, answer);
  switch (typed.kind) {
    case 'do': {
      const asked = await ask(services, visit, typed.command, line.pressId);
      await ack();
      return say(answerTo(visit, typed.command, asked));
    }
    case 'open': {
      await ack();
      if (line.trigger !== null) return openForm(services, out, visit, line, typed.form);
      const open = texts.say('talk.open-form');
      const press = { label: open, tone: 'main', action: { kind: 'open', form: typed.form } } as const;
      return say(message(open, 'plain', ...buttons(press)));
    }
    case 'show':
      await ack();
      return showPage(services, out, put, visit, line, typed.page);
    case 'help':
      await ack();
      return say(message(texts.say('talk.help'), 'plain', list(helpLines(texts))));
    case 'ask-rig': {
      await ack();
      const [title = '', ...rigs] = askRigLines(typed, texts);
      return say(message(title, 'attention', list(rigs)));
    }
    case 'wrong':
      await ack();
      return say(words('attention', typed.message));
  }
}
