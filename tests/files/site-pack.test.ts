import { chmodSync, mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatProblem, type PackProblem } from '../../adapters/files/problem.ts';
import { loadSitePack } from '../../adapters/files/site-pack.ts';
import { hashPin } from '../../adapters/host/pin.ts';
import { brokenPacks } from './broken-packs.ts';
import { changed, goodPack, writePack } from './good-pack.ts';

function said(problems: readonly PackProblem[], dir: string): readonly string[] {
  return problems.map((problem) => formatProblem(problem).replaceAll(`${dir}/`, ''));
}

function warningsOf(changes: Readonly<Record<string, string | null>>): readonly string[] {
  const dir = writePack(changes);
  const loaded = loadSitePack(dir);
  if (!loaded.ok) throw new Error(said(loaded.problems, dir).join('\n'));
  return said(loaded.warnings, dir);
}

describe('a good pack', () => {
  test('loads with its defaults filled in and nothing to complain about', () => {
    const loaded = loadSitePack(writePack());
    if (!loaded.ok) throw new Error(loaded.problems.map(formatProblem).join('\n'));
    expect(loaded.warnings).toEqual([]);
    expect(loaded.pack.site).toMatchObject({ id: 'north-jetty', units: 'metric', demo: false });
    expect(loaded.pack.people.map((person) => person.id)).toEqual(['ana', 'ben', 'cid', 'dora']);
    expect(loaded.pack.coatings[0]?.potLife).toEqual([
      { c: 15, minutes: 180 },
      { c: 23, minutes: 120 },
    ]);
    expect(loaded.pack.rigs[1]).toMatchObject({ drive: 'electric', maxFluidBar: 220, wheels: 'rubber' });
    expect(loaded.pack.policy).toMatchObject({ lossPct: 35, reservePct: 30, marginMinC: 3 });
    expect(Object.keys(loaded.pins)).toEqual(['ana']);
    expect(loaded.demoPins).toEqual({});
  });

  test('dates and times without quotes stay text (YAML 1.2 core schema has no date and no base-60 number)', () => {
    const loaded = loadSitePack(writePack(changed('site.yaml', '"06:40"', '06:40')));
    if (!loaded.ok) throw new Error(loaded.problems.map(formatProblem).join('\n'));
    expect(loaded.pack.site.prestart).toBe('06:40');
    expect(loaded.days['monday.yaml']).toMatchObject({ date: '2026-06-08', start: '07:30', end: '16:30' });
  });

  test('takes the places of the crew in Slack, and nothing in their stead when there are none', () => {
    const linked = loadSitePack(
      writePack({
        ...changed('people.yaml', '  name: Ben', '  name: Ben\n  slack: W0BEN000001'),
        'site.yaml': `${goodPack['site.yaml']}slack:\n  channel: G0CREW1234\n`,
      }),
    );
    if (!linked.ok) throw new Error(linked.problems.map(formatProblem).join('\n'));
    expect(linked.pack.site.slack).toEqual({ channel: 'G0CREW1234' });
    expect(linked.pack.people.map(({ slack }) => slack)).toEqual([
      undefined,
      'W0BEN000001',
      undefined,
      undefined,
    ]);
    const without = loadSitePack(writePack());
    expect(without.ok && 'slack' in without.pack.site).toBe(false);
  });

  test('takes the places of the crew in Teams, and nothing in their stead when there are none', () => {
    const member = '00000000-0000-4000-8000-0000000000b2';
    const linked = loadSitePack(
      writePack({
        ...changed('people.yaml', '  name: Ben', `  name: Ben\n  teams: ${member}`),
        'site.yaml': `${goodPack['site.yaml']}teams:\n  channel: 19:a_b-1@thread.tacv2\n`,
      }),
    );
    if (!linked.ok) throw new Error(linked.problems.map(formatProblem).join('\n'));
    expect(linked.pack.site.teams).toEqual({ channel: '19:a_b-1@thread.tacv2' });
    expect(linked.pack.people.map(({ teams }) => teams)).toEqual([undefined, member, undefined, undefined]);
    const without = loadSitePack(writePack());
    expect(without.ok && 'teams' in without.pack.site).toBe(false);
  });

  test('takes coating sheets from one list, from one file each, or from both', () => {
    const text = goodPack['coatings.yaml'] ?? '';
    const [first = '', second = ''] = text.split('- id: pu-finish');
    const single = `id: pu-finish${second}`.replace(/^ {2}/gm, '');
    for (const changes of [
      { 'coatings.yaml': first, 'coatings/pu.yaml': single },
      { 'coatings.yaml': null, 'coatings/a.yaml': first, 'coatings/b.yaml': `- id: pu-finish${second}` },
    ]) {
      const loaded = loadSitePack(writePack(changes));
      expect(loaded.ok && loaded.pack.coatings.map((sheet) => sheet.id)).toEqual(['epoxy-mid', 'pu-finish']);
    }
  });

  test('with nothing in policy.yaml all defaults hold', () => {
    const loaded = loadSitePack(writePack({ 'policy.yaml': '# all as it comes\n' }));
    expect(loaded.ok && loaded.pack.policy).toMatchObject({ lossPct: 30, reservePct: 25 });
  });

  test('line ends of another system and a byte order mark do no harm', () => {
    const site = `\uFEFF${goodPack['site.yaml']?.replaceAll('\n', '\r\n')}`;
    expect(loadSitePack(writePack({ 'site.yaml': site })).ok).toBe(true);
  });

  test('days may be JSON, with tabs as JSON allows', () => {
    const day = { date: '2026-06-09', start: '07:30', end: '12:00', surroundings: 'open-air' };
    const json = JSON.stringify(
      {
        ...day,
        weather: { airC: 20, rhPct: 50 },
        jobs: [
          {
            area: 'Span 1',
            coating: 'pu-finish',
            coat: 'finish',
            dftUm: 60,
            areaM2: 20,
            rig: 'rig-2',
            fluidBar: 150,
            sprayers: ['cid'],
            mixers: ['dora'],
          },
        ],
      },
      null,
      '\t',
    );
    const loaded = loadSitePack(writePack({ 'days/tuesday.json': json }));
    expect(loaded.ok && loaded.days['tuesday.json']).toMatchObject(day);
  });

  test('takes the PIN lines that the program makes', async () => {
    const line = await hashPin('0471');
    const loaded = loadSitePack(writePack({ 'pins.yaml': `ana: ${line}\n` }));
    expect(loaded.ok && loaded.pins).toEqual({ ana: line });
  });

  test('looking up a PIN never finds an inherited name', () => {
    const loaded = loadSitePack(writePack());
    expect(loaded.ok && loaded.pins.constructor).toBeUndefined();
  });
});

describe('a broken pack says what, where and how to mend it', () => {
  test.each(brokenPacks)('$name', ({ changes, says }) => {
    const dir = writePack(changes);
    const loaded = loadSitePack(dir);
    expect(loaded.ok ? ['it loaded'] : said(loaded.problems, dir)).toEqual(says);
  });

  test('every problem is reported, those of all files together, in reading order', () => {
    const dir = writePack({
      ...changed('site.yaml', '"06:40"', '25:00'),
      ...changed('coatings.yaml', '{ a: 4, b: 1 }', '{ a: 0, b: 0 }'),
      ...changed('rigs.yaml', '  ratio: 45\n', ''),
      ...changed('policy.yaml', 'reservePct: 30', 'reservePct: 0'),
    });
    const loaded = loadSitePack(dir);
    expect(loaded.ok).toBe(false);
    expect(
      (loaded.ok ? [] : loaded.problems).map((one) => [one.file.replace(`${dir}/`, ''), one.line]),
    ).toEqual([
      ['site.yaml', 4],
      ['coatings.yaml', 5],
      ['coatings.yaml', 5],
      ['rigs.yaml', 3],
      ['policy.yaml', 2],
    ]);
  });

  test('a file that cannot be read does not make everything wrong that refers to it', () => {
    const dir = writePack(changed('people.yaml', '[sprayer]', '[sprayer'));
    const loaded = loadSitePack(dir);
    expect(loaded.ok ? [] : loaded.problems.map((one) => one.file)).toEqual([join(dir, 'people.yaml')]);
  });

  test('a folder that is not there, and a file in its place', () => {
    const dir = writePack();
    const words = (path: string) => {
      const loaded = loadSitePack(path);
      return loaded.ok ? [] : loaded.problems.map(formatProblem);
    };
    expect(words(join(dir, 'none'))).toEqual([
      `${dir}/none:1:1: there is no such folder. Found nothing. Write: the path of a site pack, or make one with "potbell init"`,
    ]);
    expect(words(join(dir, 'site.yaml'))).toEqual([
      `${dir}/site.yaml:1:1: this is a file, not a folder. Found nothing. Write: the path of the folder that has site.yaml in it`,
    ]);
  });

  test('a link that leads nowhere counts as missing', () => {
    const dir = writePack({ 'rigs.yaml': null });
    symlinkSync(join(dir, 'nowhere'), join(dir, 'rigs.yaml'));
    const loaded = loadSitePack(dir);
    expect(loaded.ok ? [] : loaded.problems.map((one) => one.message)).toEqual(['the file is missing']);
  });

  // The superuser may read everything, so there the right cannot be taken away.
  test.skipIf(process.getuid?.() === 0)('a file that may not be read', () => {
    const dir = writePack();
    chmodSync(join(dir, 'rigs.yaml'), 0);
    const loaded = loadSitePack(dir);
    expect(loaded.ok ? [] : loaded.problems.map((one) => one.message)).toEqual(['the file may not be read']);
  });

  test('no text whatever makes it throw, and every problem has a place and a remedy', () => {
    const dir = writePack();
    const piece = fc.constantFrom(
      'a',
      '- ',
      ': ',
      '\n',
      '  ',
      '\t',
      '{',
      '}',
      '[',
      ']',
      '"',
      "'",
      '&a ',
      '*a',
      '!!x ',
      '#',
      '|',
      '>',
      '? ',
      '---',
      '%',
      '23',
      '~',
      '__proto__',
      '\u0000',
      'id',
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 25 }), (pieces) => {
        writeFileSync(join(dir, 'people.yaml'), pieces.join(''));
        const loaded = loadSitePack(dir);
        expect(loaded.ok).toBe(false);
        for (const one of loaded.ok ? [] : loaded.problems) {
          expect(one.line).toBeGreaterThanOrEqual(1);
          expect(one.column).toBeGreaterThanOrEqual(1);
          expect(one.message).not.toBe('');
          expect(one.write).not.toBe('');
          expect(formatProblem(one)).not.toMatch(/\p{Cc}/u);
        }
      }),
      { numRuns: 150 },
    );
  });
});

describe('warnings: the pack loads, the briefing takes the dangerous reading', () => {
  test.each<[string, Readonly<Record<string, string | null>>, readonly string[]]>([
    [
      'a polyurethane without isocyanate',
      {
        'coatings.yaml': (goodPack['coatings.yaml'] ?? '')
          .replace('isocyanate: true', 'isocyanate: false')
          .replace('[H226, H334]', '[H226]'),
      },
      [
        'coatings.yaml:26:15 coatings.pu-finish.isocyanate: a polyurethane without isocyanate is unusual; the briefing treats it as isocyanate. Found "false". Write: isocyanate: true, or what section 2 and 3 of the safety data sheets of both parts say',
      ],
    ],
    [
      'H334 without isocyanate',
      changed('coatings.yaml', '[H226, H317]', '[H226, H334]'),
      [
        'coatings.yaml:15:15 coatings.epoxy-mid.isocyanate: H334 (allergy of the airways) is listed, as for isocyanate hardeners, but this line says there is none; the briefing treats it as isocyanate. Found "false". Write: isocyanate: true, or what section 2 and 3 of the safety data sheets of both parts say',
      ],
    ],
    [
      'EUH204 without isocyanate',
      changed('coatings.yaml', '[H226, H317]', '[H226, EUH204]'),
      [
        'coatings.yaml:15:15 coatings.epoxy-mid.isocyanate: EUH204 says this coating contains isocyanates, this line says it does not; the briefing goes by EUH204. Found "false". Write: isocyanate: true, or what section 2 and 3 of the safety data sheets of both parts say',
      ],
    ],
    [
      'isocyanate without its codes',
      changed('coatings.yaml', '[H226, H334]', '[H226]'),
      [
        'coatings.yaml:25:3 coatings.pu-finish.hazards: isocyanate is true, but neither H334 nor EUH204 is listed; the briefing goes by isocyanate. Found "[H226]". Write: the H-codes of the hardener as well',
      ],
    ],
    [
      'a two-pack without pot life',
      changed('coatings.yaml', '  potLife: [{ c: 23, minutes: 150 }]\n', ''),
      [
        'coatings.yaml:17:7 coatings.pu-finish.id: this two-pack has no pot life; the briefing says to mix none of it, a batch counts as having no time. Found "pu-finish". Write: potLife: [{ c: 23, minutes: 120 }] with every line of the data sheet',
      ],
    ],
    [
      'a hazard code that does not exist',
      changed('coatings.yaml', '[H226, H317]', '[H226, H999]'),
      [
        'coatings.yaml:14:3 coatings.epoxy-mid.hazards: there is no hazard statement H999; the briefing treats what it stood for as hazardous. Found "[H226, H999]". Write: the H-codes from section 2 of the safety data sheets of both parts, copied again',
      ],
    ],
    [
      'no hazard codes',
      changed('coatings.yaml', '  hazards: [H226, H317]\n', ''),
      [
        'coatings.yaml:1:7 coatings.epoxy-mid.id: this coating has no hazard codes; the briefing treats what it does not know as hazardous. Found "epoxy-mid". Write: hazards: [H226, H317] with the H-codes from section 2 of the safety data sheets of both parts',
      ],
    ],
    [
      'a low flash point without its code',
      changed('coatings.yaml', '[H226, H317]', '[H317]'),
      [
        'coatings.yaml:12:16 coatings.epoxy-mid.flashPointC: a flash point up to 60 °C goes with H224, H225 or H226, none is listed; the briefing counts it as flammable. Found "31". Write: H226 (or what the safety data sheet says) in hazards, or the right flash point',
      ],
    ],
    [
      'a rig without a hose rating',
      changed('rigs.yaml', '    - { part: hose, bar: 280 }\n', ''),
      [
        'rigs.yaml:1:7 rigs.rig-1.id: no pressure rating of the hose is given; the briefing treats an unknown rating as not enough. Found "rig-1". Write: - { part: hose, bar: 280 } under ratings, with the figure stamped on the hose',
      ],
    ],
    [
      'a ratio on an electric rig',
      changed('rigs.yaml', 'maxFluidBar: 220', 'maxFluidBar: 220\n  ratio: 30'),
      [
        'rigs.yaml:16:10 rigs.rig-2.ratio: a ratio belongs to an air-driven rig, this one has electric drive; the ratio is not used. Found "30". Write: drive: air, or take the ratio out',
      ],
    ],
    [
      'files nobody reads',
      { 'rig.yaml': 'x', 'coatings/new.yml': 'x', 'notes.txt': 'x', 'README.md': 'x', '.hidden': 'x' },
      [
        'notes.txt:1:1: Potbell does not read this file. Found nothing. Write: nothing; move it out of the site pack',
        'rig.yaml:1:1: Potbell does not read this file. Found nothing. Write: the name rigs.yaml, if that was meant; or move it out',
        'coatings/new.yml:1:1: Potbell does not read this file. Found nothing. Write: the name new.yaml, if that was meant; or move it out',
      ],
    ],
    [
      'no PINs',
      { 'pins.yaml': null },
      [
        'pins.yaml:1:1: nobody has a PIN, so nobody can sign on the board. Found nothing. Write: run "potbell pin" for each person and put its lines into this file',
      ],
    ],
  ])('%s', (_name, changes, says) => {
    expect(warningsOf(changes)).toEqual(says);
  });
});

test('a demo site may have open PINs', () => {
  const dir = writePack({
    ...changed('site.yaml', 'prestart:', 'demo: true\nprestart:'),
    'pins.yaml': null,
    'demo-pins.yaml': 'ana: "0123"\nben: "4567"\n',
  });
  mkdirSync(join(dir, '.schemas'));
  const loaded = loadSitePack(dir);
  expect(loaded.ok && loaded.demoPins).toEqual({ ana: '0123', ben: '4567' });
  expect(loaded.warnings).toEqual([]);
});
