import { copyFileSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { copyDemoSite, demoSiteFolder } from '../../adapters/files/demo-site.ts';
import { loadSitePack } from '../../adapters/files/site-pack.ts';
import { verifyPin } from '../../adapters/host/pin.ts';
import { tempDir } from '../files/temp-dir.ts';
import { expectNoPin, expectRefusal, expectResult, run, site } from './potbell.ts';

const dayOne = join(demoSiteFolder(), 'days', 'day-1.yaml');

/** The demo site in a folder of its own, with one word of one file changed. */
function sitePack(file?: string, from = '', to = ''): string {
  const folder = join(tempDir(), 'site');
  expect(copyDemoSite(folder).ok).toBe(true);
  if (file !== undefined) edit(join(folder, file), from, to);
  return folder;
}

/** Returns the number of the line that was changed. */
function edit(file: string, from: string, to: string): number {
  const text = readFileSync(file, 'utf8');
  expect(text).toContain(from);
  writeFileSync(file, text.replace(from, to));
  return text.slice(0, text.indexOf(from)).split('\n').length;
}

describe.concurrent('potbell brief', () => {
  test('prints the briefing of a day file as text', async () => {
    const end = await run(['brief', dayOne]);
    expectResult(end);
    expect(end.out).toMatch(/^Prestart briefing 2026-06-08, revision 1/);
    for (const area of ['Span 2, girders and bracing', 'Handrails, east side'])
      expect(end.out).toContain(area);
    const places = ['INJECTION', 'FIRE AND EXPLOSION', 'POT LIFE', 'FLUSH'].map((word) =>
      end.out.indexOf(word),
    );
    expect(places.every((place) => place > 0)).toBe(true);
    expect(places).toEqual([...places].sort((x, y) => x - y));
    expectNoPin(end.out);
  });

  test('--json is the day and its cautions, and nothing else', async () => {
    const end = await run(['brief', dayOne, '--json']);
    expectResult(end);
    const read = JSON.parse(end.out) as {
      day: { date: string };
      briefing: { revision: number; cautions: { id: string; fingerprint: string }[]; mustSign: string[] };
    };
    expect(read.day.date).toBe('2026-06-08');
    expect(read.briefing.revision).toBe(1);
    expect(read.briefing.cautions[0]?.id).toBe('injection');
    expect([...read.briefing.mustSign].sort()).toEqual(site.pack.people.map(({ id }) => id).sort());
  });

  test('a broken day is refused with file and line, every fault of it', async () => {
    const file = join(tempDir(), 'day.yaml');
    copyFileSync(dayOne, file);
    const coating = edit(file, 'coating: epoxy-mid', 'coating: epoxy-midd');
    const air = edit(file, 'airC: 22', 'airC: 280');
    expectRefusal(
      await run(['brief', file]),
      new RegExp(`${file}:${coating}:\\d+ .*epoxy-midd`),
      new RegExp(`${file}:${air}:\\d+ .*280`),
    );
  });
});

describe.concurrent('potbell check', () => {
  test('a site pack and its days in order', async () => {
    const end = await run(['check', '--site', sitePack(), dayOne]);
    expect(end.code).toBe(0);
    expect(end.out).toContain('in order. People: 9. Rigs: 2. Coatings: 3. Day files checked: 1.');
  });

  test('who would read a machine’s draft, or no words of their own at all', async () => {
    const end = await run(['check', '--site', sitePack('people.yaml', 'language: es', 'language: fi')]);
    expect(end.code).toBe(0);
    const warnings = end.err.trim().split('\n');
    expect(warnings).toEqual([
      expect.stringMatching(/site-path-below\.md.* is not translated/),
      expect.stringMatching(/^Warning: Livia: language "pt" is a machine's draft.*potbell languages/),
      expect.stringMatching(/^Warning: Tomas: language "fi" has no words in Potbell, "en" is shown/),
      expect.stringMatching(/^Warning: Nuno: language "pl" is a machine's draft/),
    ]);
  });

  test('a broken one, with file and line', async () => {
    const folder = sitePack('policy.yaml', 'reservePct: 25', 'reservePct: 10');
    expectRefusal(
      await run(['check'], { POTBELL_SITE: folder }),
      `The site pack in ${folder} cannot be used`,
      /policy\.yaml:\d+:\d+ policy\.reservePct: .*Found "10"/,
    );
  });

  test('warnings are no results: they stand on standard error, and the pack is in order', async () => {
    const folder = sitePack('site.yaml', 'demo: true', 'demo: false');
    rmSync(join(folder, 'demo-pins.yaml'));
    const end = await run(['check', '--site', folder]);
    expect(end.code).toBe(0);
    expect(end.err).toMatch(/^Warning: .*pins\.yaml/m);
    expect(end.out).toMatch(/in order/);
    expect(end.out).not.toContain('Warning');
  });
});

describe.concurrent('potbell init', () => {
  test('fills an empty folder, which then checks; one with something in it, never', async () => {
    const folder = tempDir();
    const end = await run(['init', folder]);
    expectResult(end);
    expect(end.out).toContain(`potbell check --site ${folder}`);
    expectNoPin(end.out);
    expect(loadSitePack(folder).ok).toBe(true);
    expect(readdirSync(join(folder, '.schemas')).length).toBeGreaterThan(5);

    writeFileSync(join(folder, 'site.yaml'), 'mine');
    expectRefusal(await run(['init', folder]), /is not empty .*new or empty folder/);
    expect(readFileSync(join(folder, 'site.yaml'), 'utf8')).toBe('mine');
  });
});

describe.concurrent('potbell whoami', () => {
  test('lists everybody with id, roles and whether there is a PIN, which it does not show', async () => {
    const end = await run(['whoami']);
    expectResult(end);
    for (const { id, name, roles } of site.pack.people)
      expect(end.out).toMatch(new RegExp(`^${id} +${name} +${roles.join(', ')};.*has a PIN$`, 'm'));
    expectNoPin(end.out);
  });

  test('finds one by name', async () => {
    const end = await run(['whoami', 'Rui']);
    expectResult(end);
    expect(end.out.trim().split('\n')).toHaveLength(1);
    expect(end.out).toMatch(/^rui /);
  });

  test('says what to do about somebody who is not in the pack', async () => {
    expectRefusal(
      await run(['whoami', 'nobody']),
      /"nobody" is not in the site pack\. The foreman adds a person to people\.yaml/,
    );
  });
});

describe.concurrent('potbell pin', () => {
  test('makes a line that pins.yaml takes and that lets this PIN in, and no other', async () => {
    const end = await run(['pin', 'ines'], { POTBELL_PIN: '60417' });
    expectResult(end);
    expect(end.out).not.toContain('60417');

    const folder = sitePack('site.yaml', 'demo: true', 'demo: false');
    rmSync(join(folder, 'demo-pins.yaml'));
    writeFileSync(join(folder, 'pins.yaml'), end.out);
    const loaded = loadSitePack(folder);
    if (!loaded.ok) throw new Error(JSON.stringify(loaded.problems));
    const stored = loaded.pins.ines ?? '';
    expect(await verifyPin('60417', stored)).toBe(true);
    expect(await verifyPin('60418', stored)).toBe(false);
  });

  test.each(['123', 'secret-word'])('%j is no PIN, and is not repeated', async (pin) => {
    const end = await run(['pin', 'ines'], { POTBELL_PIN: pin });
    expectRefusal(end, 'A PIN is 4 to 12 digits.');
    expect(end.err).not.toContain(pin);
  });

  test('without a PIN and without a terminal it says how', async () => {
    expectRefusal(await run(['pin', 'ines']), 'Set POTBELL_PIN, or run this at a terminal');
  });

  test('an id that could not stand in the file is refused', async () => {
    expectRefusal(await run(['pin', 'Ines "x'], { POTBELL_PIN: '60417' }), /"Ines "x" is no person id/);
  });
});

describe.concurrent('potbell schema', () => {
  test('writes one JSON Schema for each kind of file', async () => {
    const folder = join(tempDir(), 'schemas');
    const end = await run(['schema', folder]);
    expectResult(end);
    const files = readdirSync(folder).sort();
    expect(files).toEqual(
      ['cautions', 'coatings', 'day', 'people', 'pins', 'policy', 'rigs', 'site'].map(
        (kind) => `${kind}.schema.json`,
      ),
    );
    expect(end.out.trim().split('\n').sort()).toEqual(files.map((file) => join(folder, file)));
    for (const file of files) {
      const { $schema } = JSON.parse(readFileSync(join(folder, file), 'utf8')) as { $schema: string };
      expect($schema).toBe('http://json-schema.org/draft-07/schema#');
    }
  });

  test('a file where the folder should be', async () => {
    const file = join(tempDir(), 'taken');
    writeFileSync(file, '');
    expectRefusal(await run(['schema', file]), `${file}: there is a file where a folder is needed`);
  });
});
