import { isDict, label, list, text } from '../peers/slack/json.ts';
import type { MessageState, Outcome } from '../peers/slack/types.ts';
import { handTimers } from '../slack/by-hand.ts';
import { CHANNEL, type Crew, crewOnSlack, read, STRANGER, slackSite } from '../slack/crew.ts';
import {
  type Button,
  type ChatKind,
  type FaultCall,
  type Hands,
  networkFaults,
  type Sheet,
  type Stands,
  type Wanted,
} from './hands.ts';
import { resting } from './resting.ts';
import { fieldsOf } from './slack-fields.ts';

const SAM = 'sam';

const methods: Readonly<Record<FaultCall, string>> = {
  post: 'chat.postMessage',
  update: 'chat.update',
  open: 'conversations.open',
};

export function buttonsIn(blocks: unknown): readonly Button[] {
  return list(blocks)
    .filter(isDict)
    .flatMap((block) => [block.accessory, ...list(block.elements)])
    .filter(isDict)
    .filter(({ type }) => type === 'button')
    .map((one) => ({ label: label(one.text), value: text(one.value) }));
}

function stands(place: Stands['place'], one: MessageState): Stands {
  const [of = '', at = ''] = String(one.blocks[0]?.block_id ?? '').split(':');
  return {
    place,
    id: one.ts,
    text: read(one.blocks),
    summary: one.text.replace('<!channel> ', ''),
    root: one.threadTs,
    buttons: buttonsIn(one.blocks),
    by: one.botId === null ? 'somebody' : 'potbell',
    part: { of, at, head: at === 'm0' },
    calls: one.text.startsWith('<!channel>'),
  };
}

/** What everybody there sees, or one person of their own: neither what waits inside Slack nor what one person alone is shown. */
const standing = (place: Stands['place'], all: readonly MessageState[]): readonly Stands[] =>
  all.filter((one) => one.ephemeralTo === null && one.scheduledId === null).map((one) => stands(place, one));

export function slackHands(crew: Crew, given?: ReturnType<typeof handTimers>): Hands {
  const timers = given ?? handTimers();
  const { slack } = crew;
  let isDown = false;
  const who = (person: string) => (person === SAM ? STRANGER : crew.member(person));
  const dm = (person: string) => slack.dm(who(person));
  const top = (person: string) => slack.modals(who(person)).at(-1);
  const hidden = (person: string) =>
    slack.seenBy(who(person), CHANNEL).filter(({ ephemeralTo }) => ephemeralTo !== null);

  function taken(outcome: Outcome): Outcome {
    if (!outcome.acked) throw new Error(`Slack shows an error: ${JSON.stringify(outcome)}`);
    return outcome;
  }
  function own(person: string): readonly Stands[] {
    return standing(
      'own',
      slack.messages(dm(person)).filter(({ deleted }) => !deleted),
    );
  }
  const sheet = (person: string): Sheet | null => {
    const view = top(person)?.view;
    if (view === undefined) return null;
    return { text: read(view), buttons: buttonsIn(view.blocks), fields: view.submit ? fieldsOf(view) : {} };
  };

  /** The one button that fits, in what stands there now. */
  function choose(on: Stands, buttons: readonly Button[], wanted: Wanted): Button {
    const fits = typeof wanted === 'string' ? ({ label: words }: Button) => words === wanted : wanted;
    const found = buttons.filter(fits);
    const [one] = found;
    if (one === undefined || found.length > 1)
      throw new Error(`${found.length} of ${JSON.stringify(buttons)} fit ${String(wanted)} in ${on.text}`);
    return one;
  }

  async function press(person: string, on: Stands, wanted: Wanted): Promise<void> {
    const member = who(person);
    switch (on.place) {
      case 'today':
      case 'sheet': {
        const where = on.place === 'today' ? 'home' : 'modal';
        const view = where === 'home' ? slack.home(member) : top(person);
        const { label: words, value } = choose(on, buttonsIn(view?.view.blocks), wanted);
        taken(await slack.pressIn(member, where, { label: words, value }));
        return;
      }
      case 'channel':
      case 'own': {
        const channel = on.place === 'channel' ? CHANNEL : dm(person);
        const now = slack.messages(channel).find(({ ts, deleted }) => ts === on.id && !deleted);
        const { label: words, value } = choose(on, buttonsIn(now?.blocks), wanted);
        taken(await slack.press(member, { channel, ts: on.id, label: words, value }));
      }
    }
  }

  return {
    surface: 'slack',
    title: 'Slack',
    potbell: crew.potbell,
    site: crew.site,
    faults: crew.faults,
    stranger: { person: SAM, id: STRANGER },
    looksBack: true,
    pass(ms) {
      crew.pass(ms);
      if (isDown) timers.goOff();
    },
    passTo: crew.passTo,
    deliver: crew.deliver,
    now: () => slack.clock.now(),
    ...(given && { rest: () => resting(crew, 'slack', given) }),
    until: slack.until,
    channel: () => standing('channel', crew.channel()),
    own,
    alone: (person) => [
      ...hidden(person).map(({ blocks }) => read(blocks)),
      ...own(person)
        .filter(({ by }) => by === 'potbell')
        .map((one) => one.text),
    ],
    async today(person) {
      const published = () =>
        slack.callsOf('views.publish').filter(({ args }) => args.user_id === who(person)).length;
      const before = published();
      await slack.openHome(who(person));
      await slack.until(() => published() > before);
      const view = slack.home(who(person))?.view;
      const seen = { text: read(view), summary: '', buttons: buttonsIn(view?.blocks) };
      const part = { of: 'home', at: 'm0', head: true };
      return { place: 'today', id: 'home', root: null, by: 'potbell', part, calls: false, ...seen };
    },
    press,
    async type(person, words) {
      const before = hidden(person).length;
      const sheets = slack.modals(who(person)).length;
      const stood = top(person)?.id;
      taken(await slack.command(who(person), '/potbell', words, CHANNEL));
      await slack.until(
        () =>
          hidden(person).length > before ||
          slack.modals(who(person)).length > sheets ||
          top(person)?.id !== stood,
      );
      const answers = hidden(person).slice(before);
      if (answers.length > 0) return answers.map(({ blocks }) => read(blocks)).join('\n');
      // A sheet opens empty and is filled at once.
      await slack.until(() => {
        const view = top(person)?.view;
        return view?.submit !== undefined || buttonsIn(view?.blocks).length > 0;
      });
      return sheet(person)?.text ?? '';
    },
    write: async (person, words) => (await slack.say(who(person), dm(person), words)).ts,
    rewrite: async (person, id, words) => {
      await slack.say(who(person), dm(person), words, { edited: id });
      await slack.settled();
    },
    erase: async (person, id) => {
      await slack.say(who(person), dm(person), '', { deleted: id });
      await slack.settled();
    },
    talk: async (person, words, under) => {
      const { ts } = await slack.say(who(person), CHANNEL, words, under ? { threadTs: under.id } : {});
      await slack.settled();
      return ts;
    },
    call: async (person, words) => {
      await slack.say(who(person), CHANNEL, `<@${slack.bot.userId}> ${words}`);
    },
    sheet,
    async submit(person, answers) {
      const sent = taken(await slack.submit(who(person), answers));
      if (sent.body.response_action === 'errors')
        return { kind: 'problems', text: Object.values(Object(sent.body.errors)).join('\n') };
      return { kind: 'taken', text: sheet(person)?.text ?? '' };
    },
    async shut(person) {
      while (top(person) !== undefined) await slack.closeModal(who(person));
    },
    async record(person) {
      const before = own(person).length;
      taken(await slack.command(who(person), '/potbell', 'record', CHANNEL));
      await slack.until(() =>
        slack
          .messages(dm(person))
          .slice(before)
          .some(({ files }) => files.length > 0),
      );
      return crew
        .dm(person)
        .flatMap(({ files }) => files.map(({ name }) => name))
        .join();
    },
    fault: (call, kind, times) => slack.fault(methods[call], networkFaults[kind], times),
    faultsLeft: slack.faultsLeft,
    faultsOver: slack.noFaults,
    updates: () => slack.callsOf('chat.update').filter(({ args }) => args.channel === CHANNEL).length,
    async down(shut) {
      const before = slack.socketsOpened();
      await slack.down(shut);
      isDown = shut;
      if (shut) return slack.until(() => timers.waits().length > 0);
      while (slack.socketsOpened() === before) {
        await slack.until(() => timers.waits().length > 0 || slack.socketsOpened() > before);
        timers.goOff();
      }
    },
    duplicateLast: async () => void taken(await slack.replayLast()),
    duplicate: slack.duplicateEvents,
    turnedAway: () =>
      slack.calls.filter(({ response }) => JSON.stringify(response).includes('"ratelimited"')).length,
    stop: () => crew.potbell.stop(),
    close: () => crew.close(),
  };
}

export const inSlack: ChatKind = {
  allAtOnce: false,
  name: 'Slack',
  async open({ site, after, ...opening } = {}) {
    const timers = handTimers();
    const kept = after === undefined ? null : platforms.get(after);
    const crew = await crewOnSlack({
      ...opening,
      again: timers.again,
      ...(site && { site: slackSite(site) }),
      ...(kept && { slack: kept.slack }),
    });
    const hands = slackHands(crew, timers);
    platforms.set(hands, crew);
    return hands;
  },
};

/** The crew behind hands, for what is Slack's own. */
export const platforms = new WeakMap<Hands, Crew>();
