import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { demoSiteFolder } from '../../adapters/files/demo-site.ts';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { formatProblem } from '../../adapters/files/problem.ts';
import { loadSitePack } from '../../adapters/files/site-pack.ts';
import { cautionReason, cautionTitle, questionText } from '../../adapters/record/words.ts';
import { buildBriefing } from '../../src/briefing/build.ts';
import { gradeRank } from '../../src/briefing/grade.ts';
import { cautionRules } from '../../src/briefing/rules/index.ts';
import { resolveDay } from '../../src/flow/resolve-day.ts';
import { changed, goodPack, writePack } from './good-pack.ts';

const words = `# The rail line

## Why today
The line beside the jetty is in use.

## Do
- Nobody and nothing within {=3 m|10 ft} of the track.
- The lookout calls: gun off, off the staging.

## More
- Trains come from both sides.

## Ask
### train
The lookout calls. What now?
- [x] Gun off, off the staging.
- [ ] Finish the pass.
> A train needs a kilometre to stop.

### track
A hose lies over the track. What now?
- [x] Call the lookout before anybody goes there.
- [ ] Pull it away quickly.
- [ ] Leave it, the train is lighter than it looks.
> Nobody goes within reach of a train alone.
`;

const rule = `own:
  - id: site-rail-line
    grade: stop
    tasks: [spraying]
    when:
      surroundings: [open-air]
      coatings: [epoxy-mid]
      rigs: [rig-1]
      hazards: [H226]
      windFromMps: 18 mph
      sun: true
`;

type Files = Readonly<Record<string, string | null>>;
const withRule: Files = { 'cautions.yaml': rule, 'cautions/en/site-rail-line.md': words };

function loaded(files: Files) {
  const dir = writePack(files);
  const pack = loadSitePack(dir);
  if (!pack.ok) throw new Error(pack.problems.map(formatProblem).join('\n'));
  const warned = pack.warnings.map((one) => formatProblem(one).replaceAll(`${dir}/`, ''));
  return { ...pack, warned };
}

function said(files: Files): readonly string[] {
  const dir = writePack(files);
  const pack = loadSitePack(dir);
  return pack.ok ? ['it loaded'] : pack.problems.map((one) => formatProblem(one).replaceAll(`${dir}/`, ''));
}

describe('cautions.yaml', () => {
  test('may be missing, or have nothing in it', () => {
    expect(loaded({}).pack.cautions).toBeUndefined();
    expect(loaded({ 'cautions.yaml': '# nothing yet\n' }).pack.cautions).toEqual({ tighten: {}, own: [] });
  });

  test('adds the rule with the questions of its words', () => {
    const { pack, warned } = loaded(withRule);
    expect(warned).toEqual([]);
    expect(pack.cautions?.own).toEqual([
      {
        id: 'site-rail-line',
        grade: 'stop',
        tasks: ['spraying'],
        when: {
          surroundings: ['open-air'],
          coatings: ['epoxy-mid'],
          rigs: ['rig-1'],
          hazards: ['H226'],
          // 1 mile is 1609.344 m (NIST Handbook 44, appendix C).
          windFromMps: expect.closeTo((18 * 1609.344) / 3600, 9),
          sun: true,
        },
        questions: [
          { id: 'train', choices: 2 },
          { id: 'track', choices: 3 },
        ],
        edition: expect.stringMatching(/^w[0-9a-f]{8}$/),
      },
    ]);
  });

  test('another edition for other words in any language, none for another comment', () => {
    const editionOf = (files: Files) => loaded({ ...withRule, ...files }).pack.cautions?.own[0]?.edition;
    const first = editionOf({});
    expect(editionOf({ 'cautions/en/site-rail-line.md': `<!-- mine -->\n${words}` })).toBe(first);
    expect(editionOf({ 'cautions/en/site-rail-line.md': words.replace('kilometre', 'mile') })).not.toBe(
      first,
    );
    expect(editionOf({ 'cautions/pt/site-rail-line.md': words.replace('rail line', 'linha') })).not.toBe(
      first,
    );
  });

  const wrong: readonly (readonly [string, Files, readonly string[]])[] = [
    [
      'a grade below the one it has',
      { 'cautions.yaml': 'tighten:\n  injection: watch\n  pot-life: watch\n' },
      [
        'cautions.yaml:2:14 cautions.tighten.injection: this would make injection milder: it is stop, and no site can lower a grade. Found "watch". Write: a harder grade, or take the line out',
        'cautions.yaml:3:13 cautions.tighten.pot-life: this would make pot-life milder: it is must, and no site can lower a grade. Found "watch". Write: a harder grade, or take the line out',
      ],
    ],
    [
      'a caution switched off',
      { 'cautions.yaml': 'tighten:\n  waste: off\n' },
      [
        'cautions.yaml:2:10 cautions.tighten.waste: this is not one of the values allowed here. Found "off". Write: one of stop, must, watch',
      ],
    ],
    [
      'a name that every object has',
      { 'cautions.yaml': 'tighten:\n  __proto__: stop\n  constructor: stop\n' },
      ['__proto__', 'constructor'].map(
        (name, i) =>
          `cautions.yaml:${i + 2}:3 cautions.tighten.${name}: there is no caution with this name in the catalogue. Found "${name}". Write: one of ${cautionRules.map(({ id }) => id).join(', ')}`,
      ),
    ],
    [
      'a field that would take cautions away',
      { 'cautions.yaml': 'remove: [waste]\n' },
      [
        'cautions.yaml:1:1 cautions.remove: there is no field "remove" here. Found "remove". Write: nothing, take it out; the fields here are tighten, own',
      ],
    ],
    [
      'an own caution tightened in the wrong place',
      { ...withRule, 'cautions.yaml': `tighten:\n  site-rail-line: stop\n${rule}` },
      [
        'cautions.yaml:2:3 cautions.tighten.site-rail-line: there is no caution with this name in the catalogue. Found "site-rail-line". Write: the grade of an own caution into its entry under own',
      ],
    ],
    [
      'an id without site- in front',
      { 'cautions.yaml': 'own:\n  - { id: rail-line, grade: stop }\n' },
      [
        'cautions.yaml:2:11 cautions.own.#1.id: this is not written the way it must be. Found "rail-line". Write: site- and then small letters, digits and hyphens, for example "site-rail-line"',
      ],
    ],
    [
      'a list of nothing, which no day would fit',
      { ...withRule, 'cautions.yaml': rule.replace('[rig-1]', '[]') },
      [
        'cautions.yaml:8:7 cautions.own.#1.when.rigs: the list is empty. Found "[]". Write: a list, such as rigs: [rig-1] (any of these rigs is used)',
      ],
    ],
    [
      'no sun, which is no cause',
      { ...withRule, 'cautions.yaml': rule.replace('sun: true', 'sun: false') },
      [
        'cautions.yaml:11:12 cautions.own.#1.when.sun: this is not one of the values allowed here. Found "false". Write: true, such as sun: true (sun on hoses or steel is expected)',
      ],
    ],
    [
      'a coating and a rig that are not in the pack',
      { ...withRule, 'cautions.yaml': rule.replace('[epoxy-mid]', '[epoxy-mit]').replace('rig-1', 'crane') },
      [
        'cautions.yaml:7:18 cautions.own.#1.when.coatings.#1: there is no coating with this id. Found "epoxy-mit". Write: epoxy-mid, if that was meant; epoxy-mid or pu-finish; or add it to the coating sheets',
        'cautions.yaml:8:14 cautions.own.#1.when.rigs.#1: there is no rig with this id. Found "crane". Write: rig-1 or rig-2; or add it to rigs.yaml',
      ],
    ],
    [
      'an id used twice',
      { ...withRule, 'cautions.yaml': `${rule}  - { id: site-rail-line, grade: watch }\n` },
      [
        'cautions.yaml:12:11 cautions.own.#2.id: this id is used twice, first at line 2. Found "site-rail-line". Write: another id; each one may be used once',
      ],
    ],
    [
      'no words in the language of the site',
      { 'cautions.yaml': rule, 'cautions/pt/site-rail-line.md': words },
      [
        'cautions/en/site-rail-line.md:1:1: this caution has no words. Found nothing. Write: this file, with # title, ## Why today, ## Do and ## Ask',
      ],
    ],
    [
      'words of no rule',
      { ...withRule, 'cautions/en/site-rail-lines.md': words, 'cautions/en/injection.md': words },
      [
        'cautions/en/injection.md:1:1: no caution under own in cautions.yaml has this name. Found nothing. Write: an entry for it there; or move the file out',
        'cautions/en/site-rail-lines.md:1:1: no caution under own in cautions.yaml has this name. Found nothing. Write: the name site-rail-line.md, if that was meant; an entry for it there; or move the file out',
      ],
    ],
    [
      'a number that nobody gives, rows, and one question',
      {
        ...withRule,
        'cautions/en/site-rail-line.md': words
          .replace('The line beside', 'Call {call}. The line beside')
          .replace('## Do', '## Each\nTrack 1\n\n## Do')
          .replace(/### track[\s\S]*$/, ''),
      },
      [
        'cautions/en/site-rail-line.md:1:1 Ask: there are fewer than 2 questions to read back. Found nothing. Write: ## Ask with two questions: ### and an id, the question, its choices and > why',
        'cautions/en/site-rail-line.md:4:6 Why today: nothing is given for the placeholder {call} here. Found "Call {call}. The line beside the jetty …". Write: the words alone; a caution of the site has none',
        'cautions/en/site-rail-line.md:7:1 Each: a caution of the site has no rows, this would not be shown. Found "Track 1". Write: these words under ## Why today, and take ## Each out',
      ],
    ],
    [
      'a translation that has lost a step',
      {
        ...withRule,
        'cautions/pt/site-rail-line.md': words.replace(
          '- The lookout calls: gun off, off the staging.\n',
          '',
        ),
      },
      [
        'cautions/pt/site-rail-line.md:1:1 Do: the file in en/ has 2 steps. Found "1 steps". Write: one step for each step of the file in en/',
      ],
    ],
    [
      'a file where the folder should be',
      { cautions: words },
      [
        'cautions:1:1: this is a file, not a folder. Found nothing. Write: a folder cautions with one file for each entry',
      ],
    ],
  ];
  test.each(wrong)('%s is refused', (_name, files, says) => {
    expect(said(files)).toEqual(says);
  });

  test('a misspelt caution of the catalogue names the one that was meant, and all of them', () => {
    const [problem = '', ...more] = said({ 'cautions.yaml': 'tighten: { wate: must }\n' });
    expect(more).toEqual([]);
    expect(problem).toContain(
      'there is no caution with this name in the catalogue. Found "wate". Write: waste, if',
    );
    for (const { id } of cautionRules) expect(problem).toContain(id);
  });

  test('words are not judged by a file that cannot be read', () => {
    const says = said({ ...withRule, 'cautions.yaml': 'own:\n\t- id: x\n' });
    expect(says).toHaveLength(1);
    expect(says[0]).toMatch(/^cautions\.yaml:2:1.*tab/);
  });

  test('warns of what does nothing, and of words that are not translated', () => {
    const pt = changed('people.yaml', '  name: Cid\n', '  name: Cid\n  language: pt\n');
    const idle = `tighten: { injection: stop }\n${rule.replace('[H226]', '[H362, H226]')}`;
    const { warned } = loaded({
      ...withRule,
      ...pt,
      'cautions.yaml': idle,
      'cautions/site-x.md': words,
      'cautions/en/.notes': 'mine',
    });
    expect(warned).toEqual([
      'cautions.yaml:1:23 cautions.tighten.injection: injection is stop without this line. Found "stop". Write: a harder grade, or take the line out',
      'cautions.yaml:10:17 cautions.own.#1.when.hazards.#1: no coating of this site has this hazard code. Found "H362". Write: one of H226, H317, H334, or leave it for a coating to come',
      'cautions/pt/site-rail-line.md:1:1: this caution is not translated, the file in en/ is shown. Found nothing. Write: this file, with # title, ## Why today, ## Do and ## Ask',
      'cautions/site-x.md:1:1: Potbell does not read this file. Found nothing. Write: the name cautions/en/site-x.md, if that was meant; or move it out',
    ]);
  });
});

describe('the words of own cautions', () => {
  const texts = (files: Files, language = 'en', options: object = {}) => {
    const pack = loaded(files);
    const { textsFor } = loadTexts(undefined, {
      own: pack.words,
      siteLanguage: pack.pack.site.language,
      units: pack.pack.site.units,
      ...options,
    });
    return textsFor(language);
  };

  test('are said like those of the catalogue, figures in the units of the site', () => {
    const own = texts(withRule).caution('site-rail-line');
    expect(own.title).toBe('The rail line');
    expect(own.reason({ edition: 'w1' })).toBe('The line beside the jetty is in use.');
    expect(own.each({})).toBeNull();
    expect(own.steps({})).toEqual([
      'Nobody and nothing within 3 m of the track.',
      'The lookout calls: gun off, off the staging.',
    ]);
    expect(own.question('track').choices[0]).toBe('Call the lookout before anybody goes there.');
    const us = texts({ ...withRule, 'site.yaml': `${goodPack['site.yaml']}units: us\n` });
    expect(us.caution('site-rail-line').steps({})[0]).toBe('Nobody and nothing within 10 ft of the track.');
  });

  test('are in the language of the reader, or else in that of the site', () => {
    const files = { ...withRule, 'cautions/fi/site-rail-line.md': words.replace('The rail line', 'Rata') };
    expect(texts(files, 'fi').caution('site-rail-line').title).toBe('Rata');
    // A language that Potbell does not have itself: its own cautions are English there.
    expect(texts(files, 'fi').caution('injection').title).toBe(texts({}).caution('injection').title);
    expect(texts(files, 'sv').caution('site-rail-line').title).toBe('The rail line');
    const site = { 'site.yaml': `${goodPack['site.yaml']}language: pt\n` };
    const onlyPt = { ...site, 'cautions.yaml': rule, 'cautions/pt/site-rail-line.md': words };
    expect(texts(onlyPt, 'en').caution('site-rail-line').title).toBe('The rail line');
  });

  test('that are gone leave the id, and say what to do; it is logged once', () => {
    const faults: string[] = [];
    const left = texts({}, 'en', { onFault: (what: string) => faults.push(what) });
    const gone = () => left.caution('site-rail-line');
    expect(gone().title).toBe('site-rail-line');
    expect(gone().reason({})).toMatch(/still holds today/);
    expect(gone().steps({})).toEqual([expect.stringMatching(/ask the foreman/)]);
    const question = gone().question('train');
    expect(question.choices[0]).toMatch(/^I ask the foreman/);
    expect(question.choices).toHaveLength(10);
    expect(question.choices.slice(1)).not.toContain(question.choices[0]);
    expect(faults).toEqual([
      'There are no words for the caution "site-rail-line". Write them in cautions/<language>/site-rail-line.md of the site.',
    ]);
  });

  test('a question that went is answered by asking the foreman, the rest stays', () => {
    const faults: string[] = [];
    const own = texts(withRule, 'en', { onFault: (what: string) => faults.push(what) }).caution(
      'site-rail-line',
    );
    expect(own.title).toBe('The rail line');
    expect(own.question('barrier').choices[0]).toMatch(/^I ask the foreman/);
    expect(own.question('train').ask).toBe('The lookout calls. What now?');
    expect(faults).toHaveLength(1);
    expect(faults[0]).toContain('There is no question "barrier"');
  });

  test('a caution that Potbell itself gave up stops no running shift, but a start', () => {
    const faults: string[] = [];
    expect(() => texts({}).caution('given-up')).toThrow(/no words for the caution "given-up"/);
    const running = texts({}, 'en', { onFault: (what: string) => faults.push(what) });
    expect(running.caution('given-up').title).toBe('given-up');
    expect(faults).toHaveLength(1);
  });

  test('that are gone are told in the record as such', () => {
    const left = texts({});
    expect(cautionTitle(left, 'site-rail-line')).toBe('site-rail-line');
    expect(cautionReason(left, 'site-rail-line', {})).toMatch(/in no language file any more/);
    expect(questionText(left, 'site-rail-line/train')).toBe('site-rail-line/train');
    expect(questionText(texts(withRule), 'site-rail-line/gone')).toBe('site-rail-line/gone');
    expect(questionText(texts(withRule), 'site-rail-line/train')).toBe('The lookout calls. What now?');
  });
});

describe('whatever stands in cautions.yaml', () => {
  const grade = fc.oneof(
    { weight: 6, arbitrary: fc.constantFrom('stop', 'must', 'watch') },
    { weight: 1, arbitrary: fc.constantFrom('off', false, null) },
  );
  const written = fc.oneof(
    { weight: 1, arbitrary: fc.jsonValue() },
    {
      weight: 4,
      arbitrary: fc.record(
        {
          tighten: fc.dictionary(fc.constantFrom(...cautionRules.map(({ id }) => id), 'waste'), grade, {
            maxKeys: 2,
          }),
          own: fc.array(
            fc.record({
              id: fc.constantFrom('site-rail-line', 'site-rail-line', 'site-rail-line', 'injection'),
              grade: fc.constantFrom('stop', 'must', 'watch'),
            }),
            { maxLength: 1 },
          ),
          remove: fc.option(fc.constant(['injection']), { freq: 1, nil: undefined }),
        },
        { requiredKeys: ['own'] },
      ),
    },
  );
  const before = loaded({});
  const [entry] = Object.values(before.days);
  const briefingOf = (pack: typeof before.pack) => {
    if (!entry) throw new Error('the good pack has lost its day');
    const resolved = resolveDay(entry, pack);
    if ('refused' in resolved) throw new Error(resolved.text);
    return buildBriefing({ day: resolved.day, carriedIn: null }, null).cautions;
  };

  test('a pack that loads has every caution it had, none milder', () => {
    const plain = briefingOf(before.pack);
    const words = withRule['cautions/en/site-rail-line.md'] ?? null;
    let read = 0;
    fc.assert(
      fc.property(written, (value) => {
        const text = JSON.stringify(value);
        const named = text.includes('"site-rail-line"');
        const files = { 'cautions.yaml': text, ...(named && { 'cautions/en/site-rail-line.md': words }) };
        const pack = loadSitePack(writePack(files));
        if (!pack.ok) return;
        read += 1;
        const after = briefingOf(pack.pack);
        for (const old of plain) {
          const now = after.find(({ id }) => id === old.id);
          expect([old.id, gradeRank[now?.grade ?? 'watch'] <= gradeRank[old.grade]]).toEqual([old.id, true]);
          expect(now?.each).toEqual(old.each);
        }
      }),
      { numRuns: 150 },
    );
    expect(read).toBeGreaterThan(10);
  });
});

describe('the demo site', () => {
  test('has one own caution and one that it has tightened, both in its briefing', () => {
    const demo = loadSitePack(demoSiteFolder());
    if (!demo.ok) throw new Error(demo.problems.map(formatProblem).join('\n'));
    const day = demo.days['day-1.yaml'];
    if (!day) throw new Error('the demo site has no day-1.yaml');
    const resolved = resolveDay(day, demo.pack);
    if ('refused' in resolved) throw new Error(resolved.text);
    const { cautions } = buildBriefing({ day: resolved.day, carriedIn: null }, null);
    const grades = Object.fromEntries(cautions.map(({ id, grade }) => [id, grade]));
    expect(grades).toMatchObject({ 'site-path-below': 'must', waste: 'must' });
    expect(cautionRules.find(({ id }) => id === 'waste')?.grade).toBe('watch');
  });
});
