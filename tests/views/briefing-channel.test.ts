import { describe, expect, it } from 'vitest';
import { renderMessage as renderSlack } from '../../adapters/slack/render.ts';
import { renderMessage as renderTeams } from '../../adapters/teams/render.ts';
import type { DayFacts } from '../../src/briefing/rule.ts';
import type { Block, Message } from '../../src/message/message.ts';
import { briefingMessage } from '../../src/views/briefing.ts';
import { briefingInChannel } from '../../src/views/briefing-channel.ts';
import { spoken } from '../../src/views/spoken.ts';
import { loaded, shiftOf } from '../briefing/briefing-of.ts';
import { crewDays } from '../briefing/crew-days.ts';
import { wordsOf } from '../message/words-of.ts';
import { lostWords, options, partFaults, readParts, same } from '../slack/render-check.ts';
import {
  readParts as readTeams,
  same as sameInTeams,
  options as teamsOptions,
} from '../teams/render-check.ts';

const languages = ['en', 'es', 'pt', 'pl'] as const;
/** Silent reading of English, words a minute: Brysbaert 2019, Journal of Memory and Language 109 (from memory). */
const WORDS_A_MINUTE = 238;

function viewOf(facts: DayFacts, language: string) {
  const shift = { ...shiftOf(facts), issuedAt: facts.day.prestartAt };
  return { shift, texts: loaded.textsFor(language), now: facts.day.prestartAt };
}

/** What stands in the channel itself: everything but the buttons and what is below. */
const short = (message: Message): Message => ({
  ...message,
  blocks: message.blocks.filter(({ kind }) => kind !== 'below' && kind !== 'buttons'),
});
const counted = (message: Message) =>
  wordsOf(message)
    .join(' ')
    .split(/\s+/)
    .filter((word) => /[\p{L}\p{N}]/u.test(word)).length;

describe.each(Object.entries(crewDays))('%s', (_name, { facts }) => {
  it.each(languages)(
    'SO11 no word of the briefing is in neither the channel nor its thread, in %s',
    (language) => {
      const view = viewOf(facts, language);
      const message = briefingInChannel(view);
      // A fold's label only names the cautions inside; who has not signed is said in one sentence.
      const unfolded = (blocks: readonly Block[]): readonly Block[] =>
        blocks.flatMap((block) =>
          block.kind === 'more' ? unfolded(block.blocks) : block.kind === 'checklist' ? [] : [block],
        );
      const whole = briefingMessage(view);
      const said = wordsOf({ ...whole, blocks: unfolded(whole.blocks) });
      expect(said.length).toBeGreaterThan(50);

      const slack = renderSlack(message, { ...options, more: 'button' });
      expect(partFaults(slack)).toEqual([]);
      expect(lostWords(message, slack)).toEqual([]);
      expect(slack.map(({ thread }) => thread).filter((thread) => !thread)).toEqual([false]);
      // White space apart, because a part may end inside a line; the marks of parts stand in blocks of their own.
      const inSlack = same(readParts(slack));
      const inTeams = sameInTeams(readTeams(renderTeams(message, teamsOptions)));
      const drawn = new Set(
        whole.blocks.flatMap((block) =>
          block.kind === 'timeline' ? wordsOf({ ...whole, summary: '', blocks: [block] }) : [],
        ),
      );
      const texts = said.filter((text) => !drawn.has(text));
      expect(texts.filter((text) => !inSlack.includes(same(text)))).toEqual([]);
      expect(texts.filter((text) => !inTeams.includes(sameInTeams(text)))).toEqual([]);
    },
  );

  it('SO11 names every danger that can kill or is new with its reason, and everybody who works and signs', () => {
    const view = viewOf(facts, 'en');
    const { briefing, day } = view.shift;
    const shown = wordsOf(short(briefingInChannel(view))).join('\n');
    for (const { id, grade, params } of briefing.cautions) {
      const words = view.texts.caution(id);
      if (grade !== 'stop' && !briefing.fresh.includes(id)) continue;
      expect(shown).toContain(words.title);
      expect(shown).toContain(words.reason(spoken(params, view.texts)));
    }
    for (const id of day.crew) expect(shown).toContain(day.people[id]?.name);
    for (const { sprayers, mixers } of day.entry.jobs)
      for (const id of [...sprayers, ...mixers]) expect(shown).toContain(day.people[id]?.name);
  });

  // A day with a dozen holds takes longer: none of them may be left out.
  it('is read in little more than a minute at the worst', () => {
    expect(counted(short(briefingInChannel(viewOf(facts, 'en'))))).toBeLessThan(1.25 * WORDS_A_MINUTE);
  });
});

it('is read in a minute on an ordinary day', () => {
  const lengths = Object.values(crewDays).map(({ facts }) =>
    counted(short(briefingInChannel(viewOf(facts, 'en')))),
  );
  const middle = [...lengths].sort((x, y) => x - y)[Math.floor(lengths.length / 2)];
  expect(middle).toBeLessThan(WORDS_A_MINUTE);
});

it('says where the whole is and where one signs, and leaves the cautions in full below', () => {
  const [first] = Object.values(crewDays);
  if (!first) throw new Error('there is no invented day');
  const message = briefingInChannel(viewOf(first.facts, 'en'));
  const [channel, ...thread] = renderSlack(message, { ...options, more: 'button' });
  expect(channel && readParts([channel])).toContain('the amounts (in the thread of this message)');
  expect(channel && readParts([channel])).toContain('Each signs in their own messages from Potbell');
  expect(thread.length).toBeGreaterThan(0);
  expect(thread.every((part) => part.thread)).toBe(true);
});
