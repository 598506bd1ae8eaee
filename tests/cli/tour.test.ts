import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { tempDir } from '../files/temp-dir.ts';
import { type Ended, expectNoPin, expectRefusal, expectResult, run, spawnPotbell } from './potbell.ts';

const name = 'potbell-gannet-footbridge-2026-06-08';

describe('potbell tour', () => {
  const out = tempDir();
  let tour: Ended;

  beforeAll(async () => {
    tour = await run(['tour', '--out', out]);
  });

  test('plays the day to its end', () => {
    expectResult(tour);
    expectNoPin(tour.out);
  });

  test.each([
    ['the briefing', '07:00  to everybody\n       Prestart briefing 2026-06-08, revision 1'],
    [
      'what kills first',
      '         STOP · INJECTION BY THE SPRAY JET\n         Rig 1 (large pump) can reach 225 bar today.',
    ],
    [
      'the plan, which is no order',
      'PLAN FOR THE DAY\n           Worked out from the day as posted. A plan, not a permission',
    ],
    ['an injection as what it is', 'Hit, even a pinprick: a surgical emergency. Call 112.'],
    [
      'a concern',
      '07:06  to everybody\n       ! Concern from Bento: The earth clamp of rig 2 sits on painted steel.',
    ],
    [
      'a sign-off that is chased, up to the safety contact',
      '07:18  to everybody, Ines, Clara\n       ! Call 3 since 07:10. Briefing not signed: Tomas.',
    ],
    ['what somebody is told in their own language', '07:10  to Tomas\n       ! Tomas no ha firmado'],
    [
      'a sign-off that is witnessed',
      '07:16  to everybody\n       Nuno has signed revision 1, witnessed by Ines.',
    ],
    [
      'a rig tagged out',
      '07:28  Rui: check-rig\n       !! Rig 2 (small pump) is tagged out: hose and fittings: swivel weeps at the gun',
    ],
    ['its tag cleared', '07:50  Ines: clear-tag\n       Tag cleared.'],
    [
      'steel too near to the dew point',
      '07:31  Ines: take-reading\n       ! Reading 07:31: air 14.5 °C, 78 %, steel 13.6 °C. Dew point 10.8 °C',
    ],
    [
      'a batch and its times',
      '08:15  Bento: mix-batch\n       Rig 1 (large pump), batch rig-1-1: use by 10:10. Start the flush by 10:35. Dead at 10:49.',
    ],
    ['a break the batch will not survive', 'Runs out about the break 10:00 to 10:20. Flush before it'],
    ['a warm hose', '10:05  Duarte: hose-warm\n       ! Rig 1 (large pump): hose is warm'],
    [
      'the bell that follows a pause in the sun',
      '10:00  to everybody\n       !! Rig 1 (large pump), pot and line, batch rig-1-1: START THE FLUSH NOW.',
    ],
    ['its answer', '10:06  Ines: answer-bell\n       ! Bell answered for everybody.'],
    [
      'the flush, locked first',
      '10:07  Duarte: start-flush\n       ! Flush Rig 1 (large pump). Next: Lock the trigger',
    ],
    ['the paint out of the line', 'first flush done. The mixed paint is out, its clock has stopped.'],
    ['a stop', '11:30  to everybody\n       !! STOP WORK, called at 11:30 by Tomas.'],
    [
      'a step left out, with its reason',
      'step left out (Clean the filters of gun and pump): no spare gasket on site, comes tomorrow',
    ],
    ['the close', '16:20  Ines: close-shift\n       Shift record 2026-06-08, Gannet Footbridge repaint'],
  ])('tells of %s', (_what, words) => {
    // Not toContain: it would print the whole day.
    expect(tour.out.includes(words)).toBe(true);
  });

  test('goes forward in time', () => {
    const stamps = [...tour.out.matchAll(/^(\d\d:\d\d) {2}/gm)].map(([, stamp]) => stamp);
    expect(stamps.length).toBeGreaterThan(80);
    expect(stamps).toEqual([...stamps].sort());
  });

  test('leaves no place in a text unfilled and never says that spraying is safe', () => {
    expect(/undefined|NaN|null|\[object|\{[a-z]/.exec(tour.out)?.[0]).toBeUndefined();
    expect(/safe to \w+/i.exec(tour.out)?.[0]).toBeUndefined();
  });

  test('leaves the record as three files, and says where', () => {
    expect(readdirSync(out).sort()).toEqual([`${name}.csv`, `${name}.html`, `${name}.json`]);
    for (const end of ['csv', 'html', 'json'])
      expect(tour.out).toContain(`Written: ${join(out, `${name}.${end}`)}`);
    expect(tour.out).toMatch(/the record of the tour verifies: \d+ lines, seal [0-9a-f]{64}\.\n$/);
    expect(readFileSync(join(out, `${name}.html`), 'utf8')).toMatch(/^<!doctype html>/i);
  });

  test.concurrent('is the same every time, and goes on when nobody reads it any more', async () => {
    const again = tempDir();
    const { child, ended, says } = spawnPotbell(['tour', '--out', again]);
    await says('out', /day/);
    child.stdout?.destroy();
    const { code, err } = await ended;
    expect({ code, err }).toEqual({ code: 0, err: '' });
    for (const end of ['csv', 'html', 'json'])
      expect(readFileSync(join(again, `${name}.${end}`), 'utf8')).toBe(
        readFileSync(join(out, `${name}.${end}`), 'utf8'),
      );
  });

  test.concurrent('its record verifies from the file alone', async () => {
    const end = await run(['verify', join(out, `${name}.json`)]);
    expectResult(end);
    expect(end.out).toMatch(/verifies: \d+ lines, seal [0-9a-f]{64}\./);
  });

  test.concurrent('a changed figure does not verify, and the line is named', async () => {
    const file = join(out, `${name}.json`);
    const lines = readFileSync(file, 'utf8').split('\n');
    const mixed = lines.findIndex((line) => line.includes('"type":"batch-mixed"'));
    const seq = /"seq":(\d+)/.exec(lines[mixed] ?? '')?.[1];
    lines[mixed] = (lines[mixed] ?? '').replace('"litres":20', '"litres":40');
    const changed = join(tempDir(), 'changed.json');
    writeFileSync(changed, lines.join('\n'));
    expectRefusal(
      await run(['verify', changed]),
      `${changed} does NOT verify`,
      `Journal line ${seq} does not hold: its words do not match its hash.`,
    );
  });

  test.concurrent('a record without one of its lines does not verify', async () => {
    const lines = readFileSync(join(out, `${name}.json`), 'utf8').split('\n');
    const rang = lines.findIndex((line) => line.includes('"type":"bell-rang"'));
    const seq = /"seq":(\d+)/.exec(lines[rang] ?? '')?.[1];
    const cut = join(tempDir(), 'cut.json');
    writeFileSync(cut, lines.toSpliced(rang, 1).join('\n'));
    expectRefusal(await run(['verify', cut]), 'does NOT verify', `Journal line ${seq} does not hold`);
  });
});

test('verify of what is no record says so', async () => {
  const folder = tempDir();
  const other = join(folder, 'other.json');
  writeFileSync(other, '{"hello": 1}');
  expectRefusal(await run(['verify', other]), 'This is not a shift record');
  expectRefusal(
    await run(['verify', join(folder, 'none.json')]),
    /none\.json: there is no such file or folder/,
  );
});
