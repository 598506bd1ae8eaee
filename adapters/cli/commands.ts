import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { idSchema } from '../../src/model/id.ts';
import type { Store } from '../../src/ports.ts';
import { copyDemoSite } from '../files/demo-site.ts';
import { writeJsonSchemas } from '../files/json-schemas.ts';
import { verifyChain } from '../host/chain.ts';
import { steadyClock } from '../host/clock.ts';
import { shiftIdFor } from '../host/handle-command.ts';
import { hashPin } from '../host/pin.ts';
import { memoryStore } from '../memory/store.ts';
import { verifyRecord } from '../record/verify-record.ts';
import { StoreUnavailable } from '../sqlite/errors.ts';
import { copyRunning, copyStopped } from './backup.ts';
import { briefDay } from './brief.ts';
import { openStore } from './compose.ts';
import { logger } from './logger.ts';
import { planDay } from './plan.ts';
import { askPin, postDay } from './post.ts';
import { allRecordFiles } from './record-file.ts';
import { exampleDay, loadDay, loadSite, loadWords, UsageProblem } from './site.ts';
import { siteWarnings } from './site-warnings.ts';
import { slackFromEnvironment } from './slack-environment.ts';
import * as running from './start.ts';
import { teamsFromEnvironment } from './teams-environment.ts';
import { playTour } from './tour.ts';
import { whyText } from './why.ts';

export { whoami } from './whoami.ts';

const print = (text: string): void => void process.stdout.write(`${text}\n`);

interface SiteOption {
  readonly site?: string;
}

export async function start(
  options: SiteOption & { data: string; host: string; port: number; name: string[]; log: string },
): Promise<void> {
  const log = logger(options.log);
  const { done } = await running.start({
    ...options,
    names: options.name,
    site: loadSite(options.site),
    log,
    slack: slackFromEnvironment(),
    teams: teamsFromEnvironment(),
    print,
  });
  await done;
}

export async function tour({ out }: { out: string }): Promise<void> {
  const site = loadSite();
  const example = exampleDay(site);
  if (!example)
    throw new UsageProblem('The demo site has lost its example day, templates/demo-site/days/day-1.yaml.');
  const store = memoryStore();
  const textsFor = loadWords(site);
  const shift = await playTour({
    pack: site.pack,
    entry: example,
    textsFor,
    store,
    log: logger('warn'),
    write: print,
  });
  const clock = { now: () => shift.closedAt ?? 0 };
  const files = (await allRecordFiles(store, textsFor, clock, shift.id)) ?? [];
  write(out, files);
  const json = files.find(({ name }) => name.endsWith('.json'));
  reportVerified('the record of the tour', verifyRecord(json?.body ?? ''));
}

export function brief(
  day: string,
  { site, json, why, for: reader }: SiteOption & { json?: true; why?: true; for?: string },
): void {
  const { pack, words } = loadSite(site);
  const options = { why: why === true, reader: reader ?? null };
  const { text, shift } = briefDay(pack, loadDay(day, pack), loadWords({ pack, words }), options);
  print(json ? JSON.stringify({ day: shift.day.entry, briefing: shift.briefing }, null, 2) : text);
}

export async function why(
  topics: readonly string[],
  options: SiteOption & { data: string; day?: string; date?: string },
): Promise<void> {
  const { pack, words } = loadSite(options.site);
  const texts = loadWords({ pack, words })(pack.site.language);
  if (options.day !== undefined) {
    const { shift } = briefDay(pack, loadDay(options.day, pack), loadWords({ pack, words }));
    print(whyText({ shift, texts, now: shift.postedAt }, topics));
    return;
  }
  await withStore(options.data, async (store) => {
    const id = options.date === undefined ? (await store.shifts())[0]?.id : shiftIdFor(pack, options.date);
    const stored = id === undefined ? null : await store.shift(id);
    if (!stored)
      throw new UsageProblem('There is no such shift in this database. Name a day with --day FILE.');
    print(whyText({ shift: stored, texts, now: steadyClock(logger('warn')).now() }, topics));
  });
}

export function plan(day: string, { site, json }: SiteOption & { json?: true }): void {
  const { pack, words } = loadSite(site);
  const planned = planDay(pack, loadDay(day, pack), loadWords({ pack, words }));
  print(json ? JSON.stringify(planned.json, null, 2) : planned.text);
}

export async function post(day: string, options: SiteOption & { as: string; board: string }): Promise<void> {
  const { pack } = loadSite(options.site);
  const entry = loadDay(day, pack);
  const answer = await postDay({
    board: options.board,
    person: options.as,
    pin: await askPin(options.as),
    entry,
  });
  if (!answer.ok) throw new UsageProblem(answer.text);
  print(answer.text);
}

export async function record(
  date: string | undefined,
  options: SiteOption & { data: string; out: string },
): Promise<void> {
  const { pack, words } = loadSite(options.site);
  await withStore(options.data, async (store) => {
    const newest = (await store.shifts())[0];
    const id = date === undefined ? newest?.id : shiftIdFor(pack, date);
    const files =
      id === undefined
        ? null
        : await allRecordFiles(store, loadWords({ pack, words }), steadyClock(logger('warn')), id);
    if (!files)
      throw new UsageProblem(
        date === undefined
          ? 'There is no shift in this database.'
          : `There is no shift of ${date} in this database.`,
      );
    write(options.out, files);
  });
}

export async function verify(file: string | undefined, options: { data: string }): Promise<void> {
  if (file !== undefined) {
    reportVerified(file, verifyRecord(readFileSync(file, 'utf8')));
    return;
  }
  await withStore(options.data, async (store) => {
    const shifts = await store.shifts();
    if (shifts.length === 0) print('There is no shift in this database.');
    for (const { id, head } of shifts) {
      const journal = await store.journal(id);
      const check = verifyChain(id, journal, head);
      const problems = check.ok ? [] : [`line ${check.line}: ${check.why}`];
      reportVerified(id, { ok: check.ok, lines: journal.length, head, problems });
    }
  });
}

export async function backup(
  file: string,
  options: { data: string; board: string; as?: string },
): Promise<void> {
  const { as: person, board } = options;
  const found =
    person === undefined
      ? await copyStopped(options.data, file)
      : await copyRunning({ board, person, pin: await askPin(person) }, file);
  print(`Copied to ${file}. Shifts: ${found.shifts}. Journal lines: ${found.lines}. Read back and whole.`);
}

export function init(folder: string): void {
  const copied = copyDemoSite(folder);
  if (!copied.ok) throw new UsageProblem(copied.problem);
  print(
    [
      `The demo site is now in ${resolve(folder)}. It is invented: put your own in its place.`,
      '1. Edit site.yaml, people.yaml, rigs.yaml and coatings/ (copy figures from your own data sheets, never from here).',
      '2. Set "demo: false" in site.yaml, delete demo-pins.yaml, run "potbell pin <person>" for each person.',
      `3. potbell check --site ${folder}`,
      `4. potbell start --site ${folder}`,
    ].join('\n'),
  );
}

export function check(days: readonly string[], { site }: SiteOption): void {
  const loaded = loadSite(site);
  for (const day of days) loadDay(day, loaded.pack);
  for (const warning of siteWarnings(loaded)) process.stderr.write(`Warning: ${warning}\n`);
  const { people, rigs, coatings } = loaded.pack;
  print(
    `${loaded.dir}: in order. People: ${people.length}. Rigs: ${rigs.length}. Coatings: ${coatings.length}. Day files checked: ${days.length}.`,
  );
}

export async function pin(person: string): Promise<void> {
  if (!idSchema.safeParse(person).success)
    throw new UsageProblem(
      `"${person}" is no person id. Ids stand in people.yaml; "potbell whoami" lists them.`,
    );
  const typed = await askPin(person);
  if (!/^\d{4,12}$/.test(typed)) throw new UsageProblem('A PIN is 4 to 12 digits.');
  print(`${person}: "${await hashPin(typed)}"`);
}

export function schema(folder: string): void {
  for (const file of writeJsonSchemas(folder)) print(file);
}

async function withStore(file: string, use: (store: Store) => Promise<void>): Promise<void> {
  const store = openForReading(file);
  try {
    await use(store);
  } finally {
    await store.close();
  }
}

function openForReading(file: string): Store {
  // Opening would make a new one, and a journal that is not there must never pass as one that verifies.
  if (!existsSync(file))
    throw new UsageProblem(`There is no database ${file}. Say which one with --data FILE.`);
  try {
    return openStore(file);
  } catch (error) {
    if (!(error instanceof StoreUnavailable) || error.reason !== 'in-use') throw error;
    throw new UsageProblem(
      `${error.message}\nWhile Potbell runs, its record page has the files: open the board, then Record.`,
    );
  }
}

function write(folder: string, files: readonly { readonly name: string; readonly body: string }[]): void {
  mkdirSync(folder, { recursive: true });
  for (const { name, body } of files) {
    writeFileSync(join(folder, name), body);
    print(`Written: ${join(folder, name)}`);
  }
}

function reportVerified(
  what: string,
  result: { ok: boolean; lines: number; head: string | null; problems: readonly string[] },
): void {
  if (!result.ok) throw new UsageProblem(`${what} does NOT verify:\n${result.problems.join('\n')}`);
  print(`${what} verifies: ${result.lines} lines, seal ${result.head ?? 'none'}.`);
}
