import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Params } from '../../src/briefing/caution.ts';
import { cautionRules } from '../../src/briefing/rules/index.ts';
import { argumentsOf, fill, folder, idsIn, metric, placeholders, readWords } from './caution-md.ts';
import { everyDay } from './every-day.ts';

const ids = cautionRules.map(({ id }) => id);
/** Words of reason and steps together. About 40 is the aim; an address and a hospital's name come on top. */
const LONGEST = 52;

const marks = ['read', 'second-hand', 'from memory', 'common practice, no source', 'computed'];

describe('rule, words and doc share a name', () => {
  it('has one rule for each id', () => {
    expect(new Set(ids).size).toBe(ids.length);
  });

  it.each([
    ['src/briefing/rules', '.ts', ['index']],
    ['templates/en/cautions', '.md', []],
    ['docs/cautions', '.md', ['README']],
  ] as const)('%s holds every rule and no orphan', (path, ending, others) => {
    expect(idsIn(path, ending).filter((id) => !(others as readonly string[]).includes(id))).toEqual(
      [...ids].sort(),
    );
  });

  it('has the rules in the order of their grades', () => {
    const rank = { stop: 0, must: 1, watch: 2 };
    const found = cautionRules.map(({ grade }) => rank[grade]);
    expect(found).toEqual([...found].sort());
  });
});

describe.each(cautionRules.map((rule) => [rule.id, rule] as const))('%s', (id, rule) => {
  const words = readWords(id);
  const inText = [words.why, ...words.steps];

  it('uses exactly the placeholders that the rule gives', () => {
    const used = new Set(inText.flatMap((text) => [...placeholders(text)]));
    expect([...used].sort()).toEqual([...rule.params].sort());
    const usedEach = words.each === null ? [] : [...placeholders(words.each)];
    expect(usedEach.sort()).toEqual([...rule.eachParams].sort());
  });

  it('has no placeholder where nothing can fill it', () => {
    const plain = [
      words.title,
      ...words.more,
      ...words.questions.flatMap((q) => [q.ask, ...q.choices.map(({ text }) => text), q.because]),
    ];
    for (const text of plain.map(metric)) expect(text).not.toMatch(/[{}<]/);
  });

  it('asks what the rule says it asks, two questions at least, the right choice first', () => {
    expect(words.questions.map((q) => ({ id: q.id, choices: q.choices.length }))).toEqual(rule.questions);
    expect(rule.questions.length).toBeGreaterThanOrEqual(2);
    for (const { choices } of words.questions) {
      expect(choices.length).toBeGreaterThanOrEqual(3);
      expect(choices.map(({ right }) => right)).toEqual([true, ...choices.slice(1).map(() => false)]);
      expect(new Set(choices.map(({ text }) => text)).size).toBe(choices.length);
    }
  });

  it('never says that work may begin', () => {
    const all = readFileSync(`${folder('templates/en/cautions')}${id}.md`, 'utf8');
    expect(all).not.toMatch(/safe to (spray|start|work|enter)|all clear|good to go/i);
  });

  it('has a doc that says when and names a mark for every source', () => {
    const doc = readFileSync(`${folder('docs/cautions')}${id}.md`, 'utf8');
    expect(doc).toMatch(new RegExp(`^# ${id}\\n\\nGrade: ${rule.grade}\\.\\n\\n## When\\n\\n\\S`));
    const rows = doc.split('\n').filter((line) => line.startsWith('| ') && !/^\| (it says|---)/.test(line));
    expect(rows.length).toBeGreaterThan(0);
    for (const row of rows) {
      const [, says, source, mark] = row.split('|').map((cell) => cell.trim());
      expect(says && source, row).toBeTruthy();
      expect(
        marks.some((known) => mark?.includes(known)),
        row,
      ).toBe(true);
    }
  });
});

describe('on every invented day that a rule can meet', () => {
  const days = everyDay();

  it.each(cautionRules.map((rule) => [rule.id, rule] as const))(
    '%s applies on one and not on another',
    (_id, rule) => {
      const found = days.map((facts) => rule.find(facts) !== null);
      expect(found).toContain(true);
      // Every rig is airless and every rig is flushed: these belong to every day with a job.
      const always = [
        'injection',
        'first-response',
        'pressure-relief',
        'breathing',
        'flush',
        'waste',
        'gun-inspection',
        'hose-and-fittings',
      ];
      if (!always.includes(rule.id)) expect(found).toContain(false);
    },
  );

  it.each(cautionRules.map((rule) => [rule.id, rule] as const))('%s fills its words', (id, rule) => {
    const words = readWords(id);
    for (const finding of days.map((facts) => rule.find(facts)).filter((found) => found !== null)) {
      expect(Object.keys(finding.params).sort()).toEqual([...rule.params].sort());
      for (const row of finding.each) expect(Object.keys(row).sort()).toEqual([...rule.eachParams].sort());
      expect(finding.each.length > 0 ? words.each : 'no rows').not.toBeNull();
      const said = [words.why, ...words.steps].map((text) => fill(text, finding.params));
      const rows = finding.each.map((row) => fill(words.each ?? '', row));
      for (const text of [...said, ...rows]) {
        expect(text.trim()).toBe(text);
        expect(text).not.toMatch(/undefined|NaN|null|Infinity|[{}]|-0\b|\s-\s|\s\s|^\s*$/);
        // A mix is measured out to the millilitre; nothing else is known better than to a tenth.
        expect(text).not.toMatch(id === 'mixing' ? /\d\.\d{4}/ : /\d\.\d\d/);
      }
    }
  });

  it.each(cautionRules.map((rule) => [rule.id, rule] as const))(
    '%s meets every case of its words',
    (id, rule) => {
      const words = readWords(id);
      const findings = days.map((facts) => rule.find(facts)).filter((found) => found !== null);
      const met = (texts: readonly string[], rows: readonly Params[]) => {
        for (const { name, cases } of texts.flatMap(argumentsOf)) {
          const values = new Set(rows.map((row) => String(row[name])));
          for (const one of cases) expect([...values], `${id}: {${name}, select, ${one}}`).toContain(one);
        }
      };
      met(
        [words.why, ...words.steps],
        findings.map(({ params }) => params),
      );
      if (words.each !== null)
        met(
          [words.each],
          findings.flatMap(({ each }) => each),
        );
    },
  );

  it.each(cautionRules.map((rule) => [rule.id, rule] as const))('%s is short', (id, rule) => {
    const words = readWords(id);
    const findings = days.map((facts) => rule.find(facts)).filter((found) => found !== null);
    const said = findings.map(({ params }) => [words.why, ...words.steps].map((text) => fill(text, params)));
    for (const texts of said) expect(count(texts.join(' ')), texts.join(' ')).toBeLessThanOrEqual(LONGEST);
    const asked = words.questions.flatMap((q) => [q.ask, q.because, ...q.choices.map(({ text }) => text)]);
    const sentences = [...said.flat(), ...words.more, ...asked].flatMap((text) =>
      text.split(/(?<=[.?!])\s+(?=\p{Lu})/u),
    );
    for (const sentence of sentences) expect(count(sentence), sentence).toBeLessThanOrEqual(15);
  });
});

function count(text: string): number {
  return text.split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word)).length;
}
