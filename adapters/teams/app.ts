import { wordToType } from '../../src/chat/words.ts';
import { type Again, onTimer } from '../chat/again.ts';
import { chatSurface } from '../chat/deliver.ts';
import { guarded } from '../chat/guarded.ts';
import { takePress } from '../chat/press.ts';
import { todayMessage } from '../chat/today.ts';
import { takeLine } from '../chat/typed.ts';
import { visitOf } from '../chat/visit.ts';
import { cardBody } from './answers.ts';
import type { Verified } from './auth.ts';
import type { Conversations } from './conversations.ts';
import type { FileStore } from './file-store.ts';
import { answerSubmit } from './forms.ts';
import { createGone, helloKey } from './gone.ts';
import { type FileAnswer, type Inbound, type Line, type Press, readInbound, type Submit } from './inbound.ts';
import type { Answer } from './link.ts';
import { createOnce } from './once.ts';
import { teamsPlatform } from './platform.ts';
import { createRecordAnswers } from './record-file.ts';
import { refreshedCard } from './refresh.ts';
import { createReply, type Reply, type Way } from './reply.ts';
import type { Sender } from './sender.ts';
import { TEAMS, type TeamsServices } from './services.ts';
import { showingTo, type TeamsShowing } from './showing.ts';

/** What somebody typed, pressed or sent in Teams, brought to Potbell; and what Potbell says, brought to Teams. */
export function createTeamsApp(
  services: TeamsServices,
  out: Pick<Sender, 'post' | 'update' | 'delete' | 'openPersonal' | 'meet'>,
  conversations: Conversations,
  files: FileStore,
  again: Again = onTimer,
) {
  const { log, memory } = services;
  const surface = chatSurface(services, teamsPlatform(services, out, conversations));
  const gone = createGone(services, conversations);
  const once = createOnce();
  const recordAnswered = createRecordAnswers(services, out, files);
  const underWay = new Set<Promise<void>>();
  let heard = false;

  function inBackground(work: Promise<void>): void {
    const kept = work
      .catch((error: unknown) => log.error({ err: error }, 'something from Teams could not be shown'))
      .finally(() => underWay.delete(kept));
    underWay.add(kept);
  }

  /** The answer as soon as there is one; the work may go on after it. Nobody is left without one. */
  function answering(
    done: Press | Submit | Line | FileAnswer,
    way: Way,
    work: (show: TeamsShowing, reply: Reply) => Promise<void>,
    last: 'talk.read-on' | 'talk.in-messages' = 'talk.read-on',
  ): Promise<Answer> {
    const { member, place, pressId } = done;
    const words = (id: typeof last) => {
      const pack = services.pack();
      return services.texts(services.personOf(pack, member)?.language ?? pack.site.language).say(id);
    };
    const reply = createReply(way, again, () => words('talk.in-messages'));
    const show = showingTo(services, out, conversations, { place, pressId, reply });
    inBackground(
      guarded(services, 'Teams', member, show, () => work(show, reply)).finally(() => {
        reply.note(words(last));
      }),
    );
    return reply.given;
  }

  function pressed(press: Press): Promise<Answer> {
    const work = (show: TeamsShowing, reply: Reply) =>
      takePress(services, surface.put, show, press, async () => {
        if (press.answer === 'message') reply.give(null);
      });
    return answering(
      press,
      press.answer,
      work,
      press.action?.kind === 'show' ? 'talk.in-messages' : undefined,
    );
  }

  const submitted = (submit: Submit): Promise<Answer> =>
    answering(submit, submit.answer, (show) => answerSubmit(services, show, submit));

  /** Teams waits for this answer, and a file takes as long as the site's line does. */
  const fileAnswered = (answer: FileAnswer): Promise<Answer> =>
    answering(answer, 'message', (show, reply) => {
      reply.give(null);
      return recordAnswered(show, answer);
    });

  /** A greeting is taken for the word that shows today; help shows it below the words to type. */
  function lineOf(line: Line): Promise<Answer> {
    return answering(line, 'line', async (show, reply) => {
      const visit = await visitOf(services, line.member);
      const { texts, person, shift } = visit;
      const text = isGreeting(
        line.text,
        [texts, services.texts('en')].map((one) => one.say('talk.greetings')).join(),
      )
        ? wordToType('today', texts)
        : line.text;
      const ack = async () => void reply.give(null);
      await takeLine(services, surface.put, show, { ...line, text }, ack);
      const context = {
        pack: services.pack(),
        shift,
        viewer: person?.id ?? null,
        now: services.clock.now(),
        texts,
      };
      if (person !== null && services.readTyped(text, context).kind === 'help')
        await show.openPage(visit, 'today', todayMessage(services, visit));
    });
  }

  /** Once for each time that somebody in the pack puts the app into their own chat. */
  async function welcome({ place, by }: Extract<Inbound, { kind: 'installed' }>): Promise<void> {
    if (place.kind !== 'personal' || by === null) return;
    const visit = await visitOf(services, by);
    if (visit.person === null || (await memory.get(TEAMS, helloKey(by))) !== null) return;
    await memory.put(TEAMS, helloKey(by), '{}');
    const reply = createReply('line', again, () => '');
    const show = showingTo(services, out, conversations, {
      place,
      pressId: `hello-${services.clock.now()}-${by}`,
      reply,
    });
    await show.openPage(visit, 'today', todayMessage(services, visit));
  }

  async function handle(inbound: Inbound): Promise<Answer> {
    switch (inbound.kind) {
      case 'press':
        if (inbound.by === 'press') return once(inbound.pressId, () => pressed(inbound));
        return { status: 200, body: cardBody(await refreshedCard(services, conversations, inbound)) };
      case 'submit':
        return once(inbound.pressId, () => submitted(inbound));
      case 'line':
        return once(inbound.pressId, () => lineOf(inbound));
      case 'file':
        return once(inbound.pressId, () => fileAnswered(inbound));
      case 'installed':
        inBackground(welcome(inbound));
        return empty;
      case 'renamed':
        log.info(
          { part: 'teams', what: inbound.what, name: inbound.name },
          'renamed in Teams; its id is the same',
        );
        return empty;
      case 'removed':
      case 'members':
        return empty;
      case 'ignored':
        log.info({ part: 'teams', what: inbound.what }, 'something from Teams is not for Potbell');
        // learn.microsoft.com/azure/bot-service/rest-api: an invoke that is not known is answered with 501.
        return inbound.invoke ? { status: 501, body: null } : empty;
    }
  }

  return {
    surface,
    async take(activity: Verified): Promise<Answer> {
      const inbound = readInbound(activity);
      heard = true;
      await gone.note(inbound);
      await conversations.learn(activity, inbound);
      return handle(inbound);
    },
    /** What is known from before a restart. */
    async load(): Promise<void> {
      await gone.load();
      heard ||= (await conversations.serviceUrl(null)) !== null;
    },
    /** False until Teams has said where to write. */
    heard: () => heard,
    problems: () => gone.problems(),
    async settled(): Promise<void> {
      while (underWay.size > 0) await Promise.all(underWay);
    },
  };
}

export type TeamsApp = ReturnType<typeof createTeamsApp>;

const empty: Answer = { status: 200, body: null };

const isGreeting = (text: string, greetings: string): boolean => {
  const typed = text
    .toLowerCase()
    .replace(/[\s!.,?¡¿]+/g, ' ')
    .trim();
  return typed === '' || greetings.split(',').some((one) => one.trim() === typed);
};
