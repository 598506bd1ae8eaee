import { talkWords } from '../../adapters/cli/talk-words.ts';
import { optionsFor } from '../../adapters/teams/look.ts';
import { readMetadata } from '../../adapters/teams/render-metadata.ts';
import { renderFormSteps } from '../../adapters/teams/render-steps.ts';
import { actionsIn } from '../peers/teams/card.ts';
import type { MessageState } from '../peers/teams/types.ts';
import type { Crew } from '../teams/crew.ts';
import { keeping } from './keeping.ts';
import { STRANGER, type Watch } from './stage.ts';
import { dialogHtml, messageHtml, type Shown } from './teams-frame.ts';
import { memberOf, ownChat } from './teams-hands.ts';

export function watching(crew: Crew): Watch {
  const { shots, keep, fresh, conversation, nameOf, clock } = keeping(crew.site, () =>
    crew.teams.clock.now(),
  );
  const people = new Map(
    [...crew.site.pack.people.map(({ id }) => id), STRANGER].map((id) => [memberOf(crew, id), nameOf(id)]),
  );
  const shown: Shown = { nameOf: (member) => people.get(member), clock };
  const draw = (one: MessageState) => messageHtml(one, shown);

  function talk(where: string, messages: readonly MessageState[], name: string, title: string, note: string) {
    conversation(
      fresh(where, messages, ({ id }) => id),
      draw,
      { name, title, note },
    );
  }
  const own = (person: string, name: string, note: string) =>
    talk(`own ${person}`, ownChat(crew, person), name, `${nameOf(person)}’s chat with Potbell`, note);
  const opens = ({ id, thread }: MessageState) => thread === id;

  return {
    shots,
    line: (typed) => typed,
    channel: (name, note) =>
      talk('channel', crew.channel().filter(opens), name, 'Span 2, the crew’s channel', note),
    thread: (name, note) =>
      talk(
        'thread',
        crew.channel().filter((one) => !opens(one)),
        name,
        'Span 2, what stands under the messages of the channel',
        note,
      ),
    dm: own,
    alone: own,
    home: own,
    modal(person, name, note) {
      const dialog = crew.teams.dialog(crew.member(person));
      if (dialog === null) return own(person, name, note);
      const sent = actionsIn(dialog.card).map(({ data }) => readMetadata(Object(data).form)?.form);
      const form = sent.find((id) => id !== undefined);
      keep({
        form,
        name,
        title: `Dialog that ${nameOf(person)} sees`,
        note,
        body: () => dialogHtml(dialog),
      });
    },
    sheet(form, name, viewer, { pack, texts }) {
      const options = { ...optionsFor({ pack: () => pack, words: talkWords }, texts, null), dialog: true };
      for (const [at, { title, card }] of renderFormSteps(form, options).entries())
        keep({
          form: form.id,
          name: name(at + 1),
          title: `Dialog "${form.id}" as ${viewer} sees it`,
          note: 'It opens by a button.',
          body: () => dialogHtml({ title, card: { ...card } }),
        });
    },
  };
}
