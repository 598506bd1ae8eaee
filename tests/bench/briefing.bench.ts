import { bench, describe } from 'vitest';
import { buildBriefing } from '../../src/briefing/build.ts';
import { plainText } from '../../src/message/plain-text.ts';
import { briefingMessage } from '../../src/views/briefing.ts';
import { boardHtml } from '../board/board-html.ts';
import { loaded, shiftOf } from '../briefing/briefing-of.ts';
import { crewDays } from '../briefing/crew-days.ts';

const days = Object.values(crewDays).map(({ facts }) => facts);
const shifts = days.map(shiftOf);
const briefings = shifts.map(({ briefing }) => briefing);

/** All invented days once, in each language: what is to be read as a ratio to writing the same result as JSON. */
describe('the cautions of every invented day', () => {
  bench('JSON.stringify of the result', () => void JSON.stringify(briefings));
  bench('build: facts to cautions', () => {
    for (const facts of days) buildBriefing(facts, null);
  });
});

describe.each(['en', 'es', 'pt', 'pl'])('the messages of every invented day in %s', (language) => {
  const texts = loaded.textsFor(language);
  const views = shifts.map((shift) => ({ shift, texts, now: shift.postedAt }));
  const messages = views.map((view) => briefingMessage(view));
  bench('JSON.stringify of the result', () => void JSON.stringify(messages));
  bench('render as plain text', () => {
    for (const message of messages) plainText(message);
  });
  bench('render for the board', () => {
    for (const message of messages) boardHtml(message, 0);
  });
  bench('choose and fill the words: shift to message', () => {
    for (const view of views) briefingMessage(view);
  });
});
