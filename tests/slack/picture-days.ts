import type { ModalView } from '@slack/types';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { optionsFor } from '../../adapters/slack/look.ts';
import { renderMessage } from '../../adapters/slack/render.ts';
import { renderFormSteps } from '../../adapters/slack/render-steps.ts';
import { defaultChatWords } from '../../src/chat/render-words.ts';
import { buildForm } from '../../src/forms/forms.ts';
import type { FormRef } from '../../src/message/action.ts';
import type { Form } from '../../src/message/form.ts';
import { formIds } from '../../src/message/form-ids.ts';
import type { Block, Message } from '../../src/message/message.ts';
import { announcements } from '../../src/views/announce.ts';
import { emergencyMessage } from '../../src/views/emergency.ts';
import { glance } from '../../src/views/glance.ts';
import { pagePanels } from '../../src/views/pages.ts';
import { briefed, mixed, type Play, posted } from '../flow/harness.ts';
import { aPack, t } from '../flow/pack.ts';
import { type Dict, dicts, parsed } from '../peers/slack/json.ts';

const { textsFor } = loadTexts();
const pages = ['today', 'briefing', 'emergency', 'record', 'sign-off', 'notices', 'why'] as const;
const viewers = ['finn', 'pia'] as const;

function flushing(): Play {
  const play = mixed();
  play.ringUntil('10:10');
  play.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
  play.flushTo('tip-off');
  return play;
}

function stopped(): Play {
  const play = mixed();
  play.do({ type: 'raise-concern', text: 'Ladder *loose* at <bay 3> & wet_steel :ok:' }, 'pia');
  play.do({ type: 'stop-work', text: 'Leak at the gun, 10:30:15' }, 'pia');
  return play;
}

export const days = {
  'no day': null,
  posted: posted(),
  briefed: briefed(),
  flushing: flushing(),
  stopped: stopped(),
};

/** Everything that somebody can be shown or told on this day. */
export function messagesOf(play: Play | null, language: string): readonly Message[] {
  const texts = textsFor(language);
  const now = play?.now ?? t('06:00');
  const pack = aPack();
  const shift = play?.shift ?? null;
  const shown = [null, ...viewers].flatMap((viewer) => [
    ...pages.flatMap((page) =>
      pagePanels(page, { pack, shift, now, texts, viewer }).map(({ message }) => message),
    ),
    ...(viewer === null ? [] : [glance({ pack, shift, now, texts, viewer })]),
  ]);
  const card = emergencyMessage(pack.site.emergency, pack.people, '', texts, () => true);
  const said = play ? announcements(null, play.state, play.journal, () => texts) : [];
  return [...shown, card, ...said.map(({ message }) => message)];
}

const refsIn = (blocks: readonly Block[]): readonly FormRef[] =>
  blocks.flatMap((block) => {
    if (block.kind === 'more' || block.kind === 'below') return refsIn(block.blocks);
    if (block.kind !== 'buttons') return [];
    return block.buttons.flatMap(({ action }) => (action.kind === 'open' ? [action.form] : []));
  });

/** Every form that somebody can open on this day, for each of two people. */
export function formsOf(play: Play | null, language: string, messages: readonly Message[]): readonly Form[] {
  const refs = [
    ...messages.flatMap(({ blocks }) => refsIn(blocks)),
    ...formIds.map((id) => ({ id, about: { rig: 'rig-1' } })),
  ];
  const once = new Map(refs.map((ref) => [JSON.stringify(ref), ref] as const));
  const texts = textsFor(language);
  const at = {
    pack: aPack(),
    shift: play?.shift ?? null,
    previous: null,
    now: play?.now ?? t('06:00'),
    texts,
  };
  return viewers.flatMap((viewer) =>
    [...once.values()].flatMap((ref) => {
      const built = buildForm(ref, { ...at, viewer });
      return built.ok ? [built.form] : [];
    }),
  );
}

function sheetsOf(play: Play | null, language: string, messages: readonly Message[]): readonly ModalView[] {
  const words = { pack: aPack, words: () => defaultChatWords };
  const options = optionsFor(words, textsFor(language), 'picture', 'inline');
  return formsOf(play, language, messages).flatMap((form) =>
    renderFormSteps(form, options).map(({ view }) => view),
  );
}

/** What goes over the wire, as JSON: one list of blocks for each different message part and each sheet. */
export function blockListsOf(play: Play | null, language: string): { messages: Dict[][]; sheets: Dict[][] } {
  const texts = textsFor(language);
  const messages = messagesOf(play, language);
  const options = optionsFor({ pack: aPack, words: () => defaultChatWords }, texts, 'picture', 'button');
  const wire = (lists: readonly object[]) =>
    [...new Set(lists.map((list) => JSON.stringify(list)))].map((list) => dicts(parsed(list)));
  return {
    messages: wire(
      messages.flatMap((message) => renderMessage(message, options)).map(({ blocks }) => blocks),
    ),
    sheets: wire(sheetsOf(play, language, messages).map(({ blocks }) => blocks)),
  };
}
