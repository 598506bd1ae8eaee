import { describe, expect, it } from 'vitest';
import { readCautions } from '../../adapters/files/caution-folder.ts';
import { buildBriefing } from '../../src/briefing/build.ts';
import { cautionRules } from '../../src/briefing/rules/index.ts';
import { fill, folder, metric, readWords } from './caution-md.ts';
import { everyDay } from './every-day.ts';

const expected = cautionRules.map(({ id }) => id);
const { cautions, problems, warnings } = readCautions(folder('templates/en/cautions'), 'en', { expected });

describe('the words as the program reads them', () => {
  it('have no problem', () => {
    expect(problems).toEqual([]);
    expect(warnings).toEqual([]);
    expect([...cautions.keys()].sort()).toEqual([...expected].sort());
  });

  it.each(cautionRules.map((rule) => [rule.id, rule] as const))('%s reads as written', (id, rule) => {
    const read = cautions.get(id);
    const written = readWords(id);
    expect(read?.words.title).toBe(written.title);
    expect(read?.words.more).toEqual(written.more.map(metric));
    expect(read?.questions).toEqual(rule.questions);
    for (const { id: question, ask, choices, because } of written.questions)
      expect(read?.words.question(question)).toEqual({
        ask: metric(ask),
        choices: choices.map(({ text }) => metric(text)),
        because: metric(because),
      });
  });

  it('are filled as written on every invented day', () => {
    for (const facts of everyDay())
      for (const { id, params, each } of buildBriefing(facts, null).cautions) {
        const words = cautions.get(id)?.words;
        const written = readWords(id);
        expect(words?.reason(params)).toBe(fill(written.why, params));
        expect(words?.steps(params)).toEqual(written.steps.map((step) => fill(step, params)));
        for (const row of each) expect(words?.each(row)).toBe(fill(written.each ?? '', row));
      }
  });
});
