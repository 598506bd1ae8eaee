import { strong } from '../message/build.ts';
import type { Line } from '../message/message.ts';
import type { Texts } from '../texts/texts.ts';
import type { AskRig } from './typed.ts';
import { type CommandWord, commandNames, wordToType } from './words.ts';

/** Something to type, whole, in the reader's words and units; it reads as what it stands for. Figures in °C and litres. */
export function example(name: CommandWord, texts: Texts): string {
  const word = wordToType(name, texts);
  switch (name) {
    case 'batch':
      return texts.say('chat.eg.batch', { word });
    case 'temp':
    case 'hose':
      return texts.say('chat.eg.temperature', { word, c: name === 'temp' ? 30 : 35 });
    case 'reading':
      return texts.say('chat.eg.reading', {
        word,
        air: 20,
        humidity: 60,
        steel: wordToType('steel', texts),
        c: 20,
      });
    case 'stop':
    case 'concern':
    case 'defect':
      return `${word} ${texts.say('chat.eg.words')}`;
    case 'emergency':
    case 'help':
    case 'today':
    case 'briefing':
    case 'sign':
    case 'bells':
    case 'record':
    case 'warm':
    case 'pause':
    case 'go':
    case 'empty':
    case 'flush':
    case 'step':
    case 'check':
    case 'post':
    case 'close':
    case 'arrived':
      return word;
  }
}

/** What can be typed, a line each, what is typed in bold: what helps in need first. */
export function helpLines(texts: Texts): readonly Line[] {
  const lines = commandNames.map((name) => typedLine(example(name, texts), texts.say(`chat.does.${name}`)));
  const rig = `${wordToType('rig', texts)} 2`;
  return [...lines, [texts.say('chat.rig-hint', { rig })]];
}

/** The question which rig is meant, a line for each with what to type. */
export function askRigLines({ rigs }: AskRig, texts: Texts) {
  const title = texts.say('chat.which-rig', { typed: rigs[0]?.typed ?? '' });
  return { title, lines: rigs.map(({ name, typed }) => typedLine(typed, name)) };
}

/** Read in a hurry, what is to be typed must not run into what it does. */
const typedLine = (typed: string, does: string): Line => [strong(typed), `: ${does}`];
