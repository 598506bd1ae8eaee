import { clockTime } from '../../src/model/time.ts';
import { dict, text } from '../peers/slack/json.ts';
import type { MessageState, ViewState } from '../peers/slack/types.ts';
import { CHANNEL, type Crew, STRANGER } from '../slack/crew.ts';
import { messageHtml, pushHtml, type Shown, viewHtml } from '../slack/picture.ts';
import type { Shot } from './shots.ts';

/** Looks over people's shoulders and keeps what is there to see, in the order of the day. */
export interface Watch {
  readonly shots: readonly Shot[];
  /** The crew's channel: what is new or changed since somebody last looked. */
  channel(name: string, note: string): void;
  /** The thread of the day, as far as it is new. */
  thread(name: string, note: string): void;
  /** A person's own conversation with the app, as far as it is new. */
  dm(person: string, name: string, note: string): void;
  home(person: string, name: string, note: string): void;
  modal(person: string, name: string, note: string): void;
  /** What one member alone sees in the channel, as far as it is new. */
  alone(member: string, name: string, note: string): void;
  /** Anything else that was drawn. */
  keep(shot: Shot): void;
}

export function watching(crew: Crew): Watch {
  const shots: Shot[] = [];
  const seen = new Map<string, string>();
  const names = new Map([
    ...crew.site.pack.people.map(({ id, name }) => [crew.member(id), name] as const),
    [STRANGER, 'Sam'] as const,
  ]);
  const shown: Shown = {
    nameOf: (member) => names.get(member) ?? member,
    clock: (ms) => clockTime(ms, crew.site.pack.site.timeZone),
  };
  const nameOf = (person: string) => shown.nameOf(crew.member(person));

  function keep(shot: Shot): void {
    shots.push({ ...shot, note: `${shown.clock(crew.slack.clock.now())}. ${shot.note}` });
  }

  /** Each of `where`'s messages that is not as it was. */
  function fresh(where: string, messages: readonly MessageState[]): readonly MessageState[] {
    return messages.filter((message) => {
      const key = `${where} ${message.ts}`;
      const now = JSON.stringify(message);
      const same = seen.get(key) === now;
      seen.set(key, now);
      return !same;
    });
  }

  function conversation(messages: readonly MessageState[], name: string, title: string, note: string): void {
    const draw = (one: MessageState) => `${one.botId ? pushHtml(one.text) : ''}${messageHtml(one, shown)}`;
    // That somebody is told nothing is to be seen as well.
    const nothing = '<p>Nothing is new here.</p>';
    keep({ name, title, note, body: () => messages.map(draw).join('\n') || nothing });
  }

  const view = (state: ViewState | null | undefined, name: string, title: string, note: string): void => {
    if (!state) throw new Error(`There is no view for the picture "${name}".`);
    const form = /^form:(.+)$/.exec(text(state.view.callback_id))?.[1];
    keep({ form, name, title, note, body: () => viewHtml(state.view, title, shown.nameOf, state.errors) });
  };
  /** What was said in the thread and shown in the channel besides. */
  function broadcast(ts: string): boolean {
    return crew.slack
      .callsOf('chat.postMessage')
      .some(({ args, response }) => String(args.reply_broadcast) === 'true' && dict(response).ts === ts);
  }
  const inChannel = ({ threadTs, ts }: MessageState) => threadTs === null || broadcast(ts);

  return {
    shots,
    keep,
    channel: (name, note) =>
      conversation(
        fresh(
          'channel',
          crew.channel().filter((one) => one.ephemeralTo === null && inChannel(one)),
        ),
        name,
        '#span-2, the crew’s channel',
        note,
      ),
    thread: (name, note) =>
      conversation(
        fresh(
          'thread',
          crew.channel().filter(({ threadTs, ephemeralTo }) => threadTs !== null && ephemeralTo === null),
        ),
        name,
        '#span-2, the thread of the day',
        note,
      ),
    dm: (person, name, note) =>
      conversation(
        fresh(`dm ${person}`, crew.dm(person)),
        name,
        `${nameOf(person)}’s own conversation`,
        note,
      ),
    alone: (member, name, note) =>
      conversation(
        fresh(
          `alone ${member}`,
          crew.slack.seenBy(member, CHANNEL).filter(({ ephemeralTo }) => ephemeralTo === member),
        ),
        name,
        `#span-2, as ${shown.nameOf(member)} sees it`,
        note,
      ),
    home: (person, name, note) => {
      const state = crew.slack.home(crew.member(person));
      view(state, name, `${nameOf(person)}’s Home`, note);
    },
    modal: (person, name, note) => {
      const state = crew.slack.modals(crew.member(person)).at(-1);
      view(state, name, `Sheet that ${nameOf(person)} sees`, note);
    },
  };
}
