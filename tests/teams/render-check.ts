import { createRequire } from 'node:module';
import type * as AdaptiveCards from 'adaptivecards';
import type { RenderOptions, TeamsPart } from '../../adapters/teams/render.ts';
import {
  activityOf,
  type Card,
  type CardAction,
  type CardElement,
  type TextRun,
} from '../../adapters/teams/render-card.ts';
import { defaultChatWords } from '../../src/chat/render-words.ts';
import type { Message } from '../../src/message/message.ts';
import { wordsOf } from '../slack/render-check.ts';

// The package's own entry cannot be loaded in Node; its bundle can, and parses without a page.
const official = createRequire(import.meta.url)(
  'adaptivecards/dist/adaptivecards.min.js',
) as typeof AdaptiveCards;

/** Pia is linked to the platform, nobody else. */
export const options: RenderOptions = {
  person: (id, name) => (id === 'pia' ? { id: '29:pia', name } : null),
  words: defaultChatWords,
  of: 'shift-mark',
};

/** What the official parser of the platform finds in a card at version 1.5. Source: adaptivecards 3.0.6. */
export function parseFaults(card: Card): readonly string[] {
  const parsed = new official.AdaptiveCard();
  parsed.hostConfig = new official.HostConfig({ actions: { maxActions: 6 } });
  const context = new official.SerializationContext(official.Versions.v1_5);
  parsed.parse(JSON.parse(JSON.stringify(card)), context);
  const events = Array.from({ length: context.eventCount }, (_, at) => context.getEventAt(at).message);
  return [...events, ...parsed.validateProperties().validationEvents.map(({ message }) => message)];
}

/** A card as the official parser writes it again: what it does not know, or what is a default, is gone. */
export function parsedAgain(card: Card): unknown {
  const parsed = new official.AdaptiveCard();
  parsed.parse(JSON.parse(JSON.stringify(card)), new official.SerializationContext(official.Versions.v1_5));
  return parsed.toJSON(new official.SerializationContext(official.Versions.v1_5));
}

export const elementsIn = (elements: readonly CardElement[]): readonly CardElement[] =>
  elements.flatMap((one) => [one, ...(one.type === 'Container' ? elementsIn(one.items) : [])]);

export const actionsIn = (card: Card): readonly CardAction[] =>
  elementsIn(card.body).flatMap((one) => (one.type === 'ActionSet' ? one.actions : []));

/** Texts that the platform reads for marks and mentions. */
export const markedIn = (card: Card): readonly string[] =>
  elementsIn(card.body).flatMap((one) => {
    if (one.type === 'TextBlock') return [one.text];
    if (one.type === 'FactSet') return one.facts.flatMap(({ title, value }) => [title, value]);
    return one.type === 'Input.ChoiceSet' ? one.choices.map(({ title }) => title) : [];
  });

const runText = (run: string | TextRun): string => (typeof run === 'string' ? run : run.text);
const unmarked = (text: string) => text.replaceAll('**', '').replace(/<\/?at>/g, '');

/** What people read of an element, with what is folded away and without what is inside another element. */
function readElement(one: CardElement): string {
  switch (one.type) {
    case 'TextBlock':
      return unmarked(one.text);
    case 'RichTextBlock':
      return one.inlines.map(runText).join('');
    case 'FactSet':
      return one.facts.map(({ title, value }) => `${unmarked(title)}\n${unmarked(value)}`).join('\n');
    case 'ActionSet':
      return one.actions.map(({ title }) => title).join('\n');
    case 'Container':
      return one.items.map(readElement).join('\n');
    case 'Input.ChoiceSet':
      return [one.label, ...one.choices.map(({ title }) => title)].join('\n');
    case 'Input.Text':
    case 'Input.Date':
    case 'Input.Time':
      return one.label;
  }
}

export const readCard = (card: Card): string => card.body.map(readElement).join('\n');
export const readParts = (parts: readonly TeamsPart[]): string =>
  parts.map(({ card }) => readCard(card)).join('\n');

const alike: Readonly<Record<string, string>> = {
  '∗': '*',
  '∼': '~',
  ˋ: '`',
  ˍ: '_',
  '＼': '\\',
  '＜': '<',
  '＆': '&',
  '＞': '>',
  '＃': '#',
  '＋': '+',
  '＝': '=',
  '–': '-',
};

/** Texts alike but for white space, what cannot be seen, and characters that only look alike. */
export const same = (text: string): string =>
  text
    .replace(/[∗∼ˋˍ＼＜＆＞＃＋＝–]/g, (one) => alike[one] ?? one)
    .replace(/[\p{Cs}\ue000\ue001]/gu, '\ufffd')
    .replace(/[\s\p{Cc}\u200b\u2028\u2029]/gu, '');

/** Texts of a message that are in none of its parts. */
export function lostWords(message: Message, parts: readonly TeamsPart[]): readonly string[] {
  // Without the lines that name a part, which may stand in the middle of a very long line.
  const bodies = [false, true].flatMap((thread) => {
    const group = parts.filter((part) => part.thread === thread);
    return group.map(({ card }, at) =>
      card.body.slice(at === 0 ? 0 : 1, at === group.length - 1 ? undefined : -1),
    );
  });
  const shown = same(bodies.flatMap((body) => body.map(readElement)).join('\n'));
  const words = wordsOf(message).filter((text) => text !== '<@U0PIA>');
  const lost = words.filter((text) => !shown.includes(same(text)));
  // A line of thousands of characters may go on in the next fold, with the button of that between: word by word then.
  return /of\d+\)/.test(shown) ? lost.filter((text) => !inOrder(text, shown)) : lost;
}

function inOrder(text: string, shown: string): boolean {
  let from = 0;
  return text.split(/\s+/).every((word) => {
    const at = shown.indexOf(same(word), from);
    from = at + same(word).length;
    return at >= 0;
  });
}

/** What the platform would refuse or misread in the parts of one message. */
export function partFaults(parts: readonly TeamsPart[]): readonly string[] {
  return parts.flatMap((part) => {
    const { card, summary } = part;
    const elements = elementsIn(card.body);
    const ids = elements.flatMap((one) => ('id' in one && one.id !== undefined ? [one.id] : []));
    const hidden = elements.flatMap((one) =>
      one.type === 'Container' && one.isVisible === false ? [one.id ?? ''] : [],
    );
    const shown = actionsIn(card).flatMap((one) =>
      one.type === 'Action.ToggleVisibility' ? one.targetElements : [],
    );
    // Written out once more and not taken from the renderer's table, so that a wrong figure there is found.
    const bytes = JSON.stringify(activityOf(part)).length * 2;
    return [
      ...parseFaults(card),
      ...(bytes > 81_920 ? [`${bytes} bytes`] : []),
      ...(summary.trim() === '' || summary.length > 1000 ? [`summary of ${summary.length}`] : []),
      ...(new Set(ids).size < ids.length ? ['ids'] : []),
      ...(hidden.join() === shown.join() ? [] : ['hidden without a button that shows it']),
      ...(card.body.length === 0 ? ['nothing in it'] : []),
      ...elements.flatMap((one) => {
        if (one.type === 'ActionSet')
          return one.actions.length > 6 || one.actions.length < 1 ? ['actions'] : [];
        if (one.type === 'RichTextBlock') return one.inlines.length === 0 ? ['empty'] : [];
        return one.type === 'TextBlock' && one.text.trim() === '' ? ['empty'] : [];
      }),
      ...mentionFaults(card),
    ];
  });
}

/** Whoever is mentioned in a text has an entity and the other way round; nothing else looks like a mention. */
function mentionFaults(card: Card): readonly string[] {
  const marked = markedIn(card).join('\n');
  const all = `${marked}\n${elementsIn(card.body)
    .flatMap((one) => (one.type === 'RichTextBlock' ? one.inlines.map(runText) : []))
    .join('\n')}`;
  const inText = new Set(marked.match(/<at>[^<>]*<\/at>/g) ?? []);
  const entities = (card.msteams.entities ?? []).map(({ text }) => text);
  return [
    ...([...inText].sort().join() === [...entities].sort().join() ? [] : ['mentions']),
    ...(/<\s*\/?\s*at\b/i.test(all.replace(/<at>[^<>]*<\/at>/g, '')) ? ['a bare <at>'] : []),
    ...(all.includes('{{') ? ['a function of the cards'] : []),
  ];
}
