import { talkWords } from '../../adapters/cli/talk-words.ts';
import { optionsFor } from '../../adapters/slack/look.ts';
import { renderFormSteps } from '../../adapters/slack/render-steps.ts';
import { dict, text } from '../peers/slack/json.ts';
import type { MessageState, ViewState } from '../peers/slack/types.ts';
import { CHANNEL, type Crew } from '../slack/crew.ts';
import { messageHtml, pushHtml, type Shown, viewHtml } from '../slack/picture.ts';
import { keeping } from './keeping.ts';
import { memberOf } from './slack-hands.ts';
import { STRANGER, type Watch } from './stage.ts';

export function watching(crew: Crew): Watch {
  const { shots, keep, fresh, conversation, nameOf, clock } = keeping(crew.site, () =>
    crew.slack.clock.now(),
  );
  const people = new Map(
    [...crew.site.pack.people.map(({ id }) => id), STRANGER].map((id) => [memberOf(crew, id), nameOf(id)]),
  );
  const shown: Shown = { nameOf: (member) => people.get(member) ?? member, clock };
  const draw = (one: MessageState) => `${one.botId ? pushHtml(one.text) : ''}${messageHtml(one, shown)}`;

  function talk(where: string, messages: readonly MessageState[], name: string, title: string, note: string) {
    conversation(
      fresh(where, messages, ({ ts }) => ts),
      draw,
      { name, title, note },
    );
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
    line: (typed) => `/potbell ${typed}`,
    channel(name, note) {
      const all = crew.channel().filter((one) => one.ephemeralTo === null && inChannel(one));
      talk('channel', all, name, '#span-2, the crew’s channel', note);
    },
    thread(name, note) {
      const all = crew
        .channel()
        .filter(({ threadTs, ephemeralTo }) => threadTs !== null && ephemeralTo === null);
      talk('thread', all, name, '#span-2, the thread of the day', note);
    },
    dm: (person, name, note) =>
      talk(`dm ${person}`, crew.dm(person), name, `${nameOf(person)}’s own conversation`, note),
    alone(person, name, note) {
      const member = memberOf(crew, person);
      const all = crew.slack.seenBy(member, CHANNEL).filter(({ ephemeralTo }) => ephemeralTo === member);
      talk(`alone ${person}`, all, name, `#span-2, as ${nameOf(person)} sees it`, note);
    },
    home: (person, name, note) =>
      view(crew.slack.home(crew.member(person)), name, `${nameOf(person)}’s Home`, note),
    modal: (person, name, note) =>
      view(crew.slack.modals(crew.member(person)).at(-1), name, `Sheet that ${nameOf(person)} sees`, note),
    sheet(form, name, viewer, { pack, texts }) {
      const options = optionsFor({ pack: () => pack, words: talkWords }, texts, 'demo', 'inline');
      for (const [at, { view: sheet }] of renderFormSteps(form, options).entries())
        keep({
          form: form.id,
          name: name(at + 1),
          title: `Sheet "${form.id}" as ${viewer} sees it`,
          note: 'It opens by a button or a typed word.',
          body: () => viewHtml({ ...sheet }, form.title, (member) => member),
        });
    },
  };
}
