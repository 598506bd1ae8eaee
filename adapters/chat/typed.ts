import { askRigLines, helpLines } from '../../src/chat/help.ts';
import { list, message } from '../../src/message/build.ts';
import type { Message } from '../../src/message/message.ts';
import { words } from './messages.ts';
import { offerForm, openForm } from './open-form.ts';
import { showPage } from './pages.ts';
import { answerTo, unknownPerson } from './refused.ts';
import type { Put } from './said.ts';
import type { ChatServices } from './services.ts';
import type { Showing } from './showing.ts';
import { ask, visitOf } from './visit.ts';

/** One typed line, of a command or to the bot. */
export async function takeLine(
  services: ChatServices,
  put: Put,
  show: Showing,
  line: { readonly member: string; readonly text: string },
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
    return show.tell(visit, unknownPerson(visit));
  }
  const say = (answer: Message) => show.tell(visit, answer);
  switch (typed.kind) {
    case 'do': {
      const asked = await ask(services, visit, typed.command, show.pressId);
      await ack();
      return say(answerTo(visit, typed.command, asked));
    }
    case 'open':
      await ack();
      return (show.opensForms ? openForm : offerForm)(services, show, visit, typed.form);
    case 'show':
      await ack();
      return showPage(services, put, show, visit, typed.page);
    case 'help':
      await ack();
      return say(message(texts.say('talk.help'), 'plain', list(helpLines(texts))));
    case 'ask-rig': {
      await ack();
      const asked = askRigLines(typed, texts);
      return say(message(asked.title, 'attention', list(asked.lines)));
    }
    case 'wrong':
      await ack();
      return say(words('attention', typed.message));
  }
}
