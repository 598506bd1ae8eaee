import type { Again } from '../../adapters/chat/again.ts';
import type { Composed } from '../../adapters/cli/compose.ts';
import { type LoadedSite, loadWords } from '../../adapters/cli/site.ts';
import { talkWords } from '../../adapters/cli/talk-words.ts';
import { shiftIdFor } from '../../adapters/host/handle-command.ts';
import { createHost } from '../../adapters/host/host.ts';
import type { Log } from '../../adapters/host/log.ts';
import { createSlackApp } from '../../adapters/slack/app.ts';
import { createSlackClient } from '../../adapters/slack/client.ts';
import type { SlackConfig } from '../../adapters/slack/config.ts';
import { type Joining, joinSlack } from '../../adapters/slack/join.ts';
import { memberOf, personOf } from '../../adapters/slack/people.ts';
import { createSender } from '../../adapters/slack/sender.ts';
import { SLACK, type SlackServices } from '../../adapters/slack/services.ts';
import { createPace } from '../../src/chat/pace.ts';
import { readTyped } from '../../src/chat/read-typed.ts';
import { buildForm, readForm } from '../../src/forms/forms.ts';
import type { Clock, Store, SurfaceMemory } from '../../src/ports.ts';
import { pagePanels } from '../../src/views/pages.ts';

/** What waits for a timer, and the hand that lets it go off. */
export function handTimers() {
  let waiting: { readonly ms: number; readonly run: () => void }[] = [];
  const again: Again = (ms, run) => {
    const one = { ms, run };
    waiting.push(one);
    return () => {
      waiting = waiting.filter((other) => other !== one);
    };
  };
  return {
    again,
    waits: (): readonly number[] => waiting.map(({ ms }) => ms),
    goOff(): void {
      const now = waiting;
      waiting = [];
      for (const { run } of now) run();
    },
  };
}

/** The parts of `adapters/cli/compose.ts` that Slack needs, with timers that go off by hand and without the backstop. */
export function composeByHand(
  site: LoadedSite,
  store: Store,
  clock: Clock,
  log: Log,
  slack: { config: SlackConfig; memory: SurfaceMemory; wait: (ms: number) => Promise<void> },
  again: Again,
  timeoutMs?: number,
): Omit<Composed, 'board'> {
  const texts = loadWords(site, log);
  const { config, memory, wait } = slack;
  const client = createSlackClient({
    token: config.botToken,
    log,
    apiUrl: config.apiUrl ?? '',
    ...(timeoutMs !== undefined && { timeoutMs }),
  });
  const out = createSender({ client, clock, pace: createPace(), log });
  const services: SlackServices = {
    surface: SLACK,
    personOf,
    memberOf,
    handle: (request) => host.handle(request),
    clock,
    texts,
    memory,
    pack: () => site.pack,
    shift: (id) => store.shift(id),
    currentShift: () => host.currentShift(),
    previousShift: () => host.previousShift(),
    async openShifts() {
      const open = (await store.shifts()).filter(({ status }) => status === 'open');
      return (await Promise.all(open.map(({ id }) => store.shift(id)))).filter((shift) => shift !== null);
    },
    shiftIdFor: (date) => shiftIdFor(site.pack, date),
    pages: pagePanels,
    buildForm,
    readForm,
    readTyped,
    recordFile: async () => null,
    words: talkWords,
    wait,
    notices: async () => [],
    log,
  };
  const app = createSlackApp(services, out, () => undefined, again);
  let joining: Joining | null = null;
  let made = 0;
  const host = createHost({
    store,
    clock,
    textsFor: texts,
    surfaces: [app.surface],
    log,
    newId: () => {
      made += 1;
      return `by-hand-${made}`;
    },
    pack: () => site.pack,
    committed: () => app.homes.changed(),
    standingProblems: () => [joining?.problem() ?? []].flat(),
  });
  async function whoAmI() {
    const { bot_id: botId, user_id: botUserId } = await client.auth.test();
    if (botId === undefined || botUserId === undefined) throw new Error('Slack names no bot.');
    return { botId, botUserId };
  }
  return {
    host,
    store,
    join() {
      joining = joinSlack(app, config, whoAmI, log, clock, again);
    },
    async stop() {
      await joining?.stop();
      await host.stop();
      await app.homes.settled();
      await store.close();
    },
  };
}
