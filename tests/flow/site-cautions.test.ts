import { describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { replay } from '../../src/engine.ts';
import { plainText } from '../../src/message/plain-text.ts';
import { type SiteCautions, siteCautionsSchema } from '../../src/model/site-cautions.ts';
import { briefingMessage } from '../../src/views/briefing.ts';
import { questionWords, signOffMessage } from '../../src/views/sign-off.ts';
import { briefed } from './harness.ts';
import { aJob, aPack } from './pack.ts';

const cautions = (given: object = {}): SiteCautions =>
  siteCautionsSchema.parse({
    tighten: { waste: 'must' },
    own: [
      {
        id: 'site-rail-line',
        grade: 'stop',
        questions: [
          { id: 'train', choices: 3 },
          { id: 'line', choices: 3 },
        ],
        edition: 'w1',
        ...given,
      },
    ],
  });

const pack = (given?: object) => ({ ...aPack(), cautions: cautions(given) });
const gradeOf = (play: ReturnType<typeof briefed>, id: string) =>
  play.state.briefing.cautions.find((caution) => caution.id === id)?.grade;

describe("a site's own cautions", () => {
  test('SO10 stand in the day, are signed with the others, and replay to the same briefing', () => {
    const play = briefed({}, pack()).at('06:40').signAll();
    expect(play.state.day.cautions).toEqual(cautions());
    expect([gradeOf(play, 'site-rail-line'), gradeOf(play, 'waste')]).toEqual(['stop', 'must']);
    for (const id of play.state.day.crew)
      expect(Object.keys(play.state.people[id]?.signed ?? {})).toContain('site-rail-line');
    expect(replay(play.id, null, play.journal)).toEqual(play.state);
  });

  test('SO10 an edited pack changes nothing in a running shift until the day is posted again', () => {
    const play = briefed({}, pack());
    const before = play.state.briefing;
    play.pack = aPack();
    play.at('06:45').signAll();
    expect(play.state.briefing).toEqual(before);
    play.do({ type: 'post-day', entry: { ...play.state.day.entry, jobs: [aJob({ areaM2: 70 })] } });
    expect(gradeOf(play, 'site-rail-line')).toBeUndefined();
    expect(play.state.day.cautions).toBeUndefined();
  });

  test('SO10 with other words it is asked again, and nothing else of what was signed', () => {
    const play = briefed({}, pack()).at('06:40').signAll();
    play.pack = pack({ edition: 'w2' });
    play.do({ type: 'post-day', entry: { ...play.state.day.entry, notes: 'Crane at noon' } });
    expect(play.state.briefing.changed).toEqual(['site-rail-line']);
  });

  test('SO10 goes on when its words are gone: told by its id, answered by asking the foreman', () => {
    const play = briefed({}, pack());
    const faults: string[] = [];
    const texts = loadTexts(undefined, { onFault: (what) => faults.push(what) }).textsFor('en');
    const view = { shift: play.state, texts, now: play.now };
    for (const shown of [briefingMessage(view), signOffMessage(view, 'pia')])
      expect(plainText(shown)).toMatch(/site-rail-line[\s\S]*still holds today[\s\S]*ask the foreman/i);
    const only = play.state.briefing.cautions.filter(({ id }) => id === 'site-rail-line');
    const alone = { ...view, shift: { ...play.state, briefing: { ...play.state.briefing, cautions: only } } };
    const words = questionWords(alone, 'pia');
    expect(words?.choices).toHaveLength(3);
    expect(words?.choices.filter((choice) => choice.startsWith('I ask the foreman'))).toHaveLength(1);
    expect(faults).toHaveLength(1);
  });

  test('a day stored before there was such a thing has none', () => {
    const play = briefed();
    expect(Object.hasOwn(play.state.day, 'cautions')).toBe(false);
    expect(play.state.briefing.cautions.some(({ id }) => id.startsWith('site-'))).toBe(false);
  });
});
