import { randomUUID } from 'node:crypto';
import { mkdirSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { buildForm, type FormContext, readForm } from '../../src/forms/forms.ts';
import type { Shift } from '../../src/model/shift.ts';
import type { Clock, Store, SurfaceMemory } from '../../src/ports.ts';
import { pagePanels } from '../../src/views/pages.ts';
import { createApi } from '../api/api.ts';
import { createBoard } from '../board/board.ts';
import type { Board } from '../board/services.ts';
import type { SteadyClock } from '../host/clock.ts';
import { shiftIdFor } from '../host/handle-command.ts';
import { createHost, type Host } from '../host/host.ts';
import type { Log } from '../host/log.ts';
import { createPinAttempts } from '../host/pin-attempts.ts';
import type { SlackConfig } from '../slack/config.ts';
import { type Copied, copyDatabase } from '../sqlite/copy.ts';
import { openDatabase } from '../sqlite/open-database.ts';
import { openSqliteStore, sqliteStore } from '../sqlite/store.ts';
import { sqliteSurfaceMemory } from '../sqlite/surface-memory.ts';
import type { TeamsConfig } from '../teams/config.ts';
import { backupServices } from './backup.ts';
import { boardWords } from './board-words.ts';
import type { ChatWaits } from './chat-parts.ts';
import { demoHours } from './demo-hours.ts';
import { pinChecker } from './pins.ts';
import { recordFile } from './record-file.ts';
import { exampleDay, type LoadedSite, loadWords } from './site.ts';

export interface Composed {
  readonly host: Host;
  readonly board: Board;
  readonly store: Store;
  /** Bring in the chats, if there are any; they come when they can. */
  join(): void;
  stop(): Promise<void>;
}

/** Open the store of a site; the folder is made when it is not there. */
export function openStore(file: string): Store {
  mkdirSync(dirname(resolve(file)), { recursive: true });
  return openSqliteStore({ file: resolve(file) });
}

/** The same for a Potbell that runs: its database can be copied meanwhile, by the one process that has it. */
export function openRunning(file: string) {
  mkdirSync(dirname(resolve(file)), { recursive: true });
  const db = openDatabase({ file: resolve(file) });
  return {
    store: sqliteStore(db),
    memoryFor: (clock: Clock) => sqliteSurfaceMemory(db, clock),
    copyTo: (to: string) => copyDatabase(db, to),
  };
}

export interface Extras {
  readonly hostNames?: readonly string[];
  readonly copyTo?: ((file: string) => Promise<Copied>) | null;
  /** Null: this site has no Slack, and nothing of it is loaded. */
  readonly slack?: (ChatWaits & { readonly config: SlackConfig; readonly memory: SurfaceMemory }) | null;
  /** The same for Teams. */
  readonly teams?: (ChatWaits & { readonly config: TeamsConfig; readonly memory: SurfaceMemory }) | null;
}

/** Put the parts together: the one place that knows every adapter. */
export async function compose(
  site: LoadedSite,
  store: Store,
  clock: Clock & Partial<Pick<SteadyClock, 'problem'>>,
  log: Log,
  { hostNames = [], copyTo = null, slack = null, teams = null }: Extras = {},
): Promise<Composed> {
  const textsFor = loadWords(site, log);
  const example = exampleDay(site);
  const pack = () => site.pack;
  const checkPin = pinChecker(site);
  const attempts = createPinAttempts(clock, (person) => site.pack.people.some(({ id }) => id === person));
  const newId = () => randomUUID();
  const services = {
    store,
    clock,
    texts: textsFor,
    pack,
    currentShift: () => host.currentShift(),
    previousShift: () => host.previousShift(),
    shiftIdFor: (date: string) => shiftIdFor(site.pack, date),
    pages: pagePanels,
    buildForm: (
      ref: Parameters<typeof buildForm>[0],
      context: FormContext,
      typed?: Parameters<typeof buildForm>[2],
    ) => buildForm(ref, { ...context, example: example && demoHours(site, example, context.now) }, typed),
    readForm,
    checkPin,
    attempts,
    hostNames,
    recordFile: (shift: string, format: 'json' | 'csv' | 'html') =>
      recordFile(store, textsFor, clock, shift, format),
    health: () => host.health(),
    newId,
    log,
    words: (language: string) => boardWords(textsFor(language)),
  };
  const chatServices = {
    ...services,
    handle: (request: Parameters<Host['handle']>[0]) => host.handle(request),
    shift: (id: string) => store.shift(id),
    following: (id: string) => store.following(id),
    openShifts: () => openShifts(store),
    recordFile: (shift: string) => recordFile(store, textsFor, clock, shift, 'html'),
  };
  const inSlack =
    slack &&
    (await import('./compose-slack.ts')).composeSlack(
      slack.config,
      { ...chatServices, memory: slack.memory },
      log,
      slack,
    );
  const inTeams =
    teams &&
    (await import('./compose-teams.ts')).composeTeams(
      teams.config,
      { ...chatServices, memory: teams.memory },
      log,
      teams,
    );
  const chats = [inSlack, inTeams].filter((chat) => chat !== null);
  let joined: readonly ReturnType<(typeof chats)[number]['join']>[] = [];
  const board: Board = createBoard({ ...services, handle: (request) => host.handle(request) });
  const host = createHost({
    store,
    clock,
    textsFor,
    surfaces: [board.surface, ...chats.map((chat) => chat.surface)],
    log,
    newId,
    pack,
    committed: () => {
      board.changed();
      for (const chat of chats) chat.changed();
    },
    standingProblems: () =>
      [
        clock.problem?.() ?? [],
        ...joined.map((joining) => joining.problem() ?? []),
        ...chats.map((chat) => [...chat.problems()]),
      ].flat(),
  });
  board.app.route(
    '/api',
    createApi({
      handle: host.handle,
      checkPin,
      attempts,
      shiftIdFor: services.shiftIdFor,
      currentShift: services.currentShift,
      backup: copyTo && backupServices(site.pack, copyTo),
      log,
    }),
  );
  return {
    host,
    board,
    store,
    join() {
      joined = chats.map((chat) => chat.join());
    },
    async stop() {
      for (const joining of joined) await joining.stop();
      await host.stop();
      for (const chat of chats) await chat.settled();
      for (const chat of chats) await chat.stop();
      await store.close();
    },
  };
}

async function openShifts(store: Store): Promise<readonly Shift[]> {
  const open = (await store.shifts()).filter(({ status }) => status === 'open');
  const shifts = await Promise.all(open.map(({ id }) => store.shift(id)));
  return shifts.filter((shift) => shift !== null);
}
