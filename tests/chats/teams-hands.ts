import { talkWords } from '../../adapters/cli/talk-words.ts';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { toneMark } from '../../src/chat/render-marks.ts';
import { type Dict, dict, text } from '../peers/slack/json.ts';
import { actionsIn, fieldsIn } from '../peers/teams/card.ts';
import type { FaultTarget, MessageState, Outcome } from '../peers/teams/types.ts';
import { handTimers } from '../slack/by-hand.ts';
import { CHANNEL, type Crew, crewOnTeams, read, STRANGER, STRANGER_ID, teamsSite } from '../teams/crew.ts';
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

const SAM = 'sam';
const { textsFor, languages } = loadTexts();

const targets: Readonly<Record<FaultCall, FaultTarget>> = {
  post: 'posts',
  update: 'updateActivity',
  open: 'opens',
};

export function buttonsIn(card: Dict): readonly Button[] {
  return actionsIn(card).map(({ title, data }) => ({ label: text(title), value: text(dict(data).action) }));
}

const marks = languages.flatMap(({ code }) =>
  (['good', 'attention', 'danger'] as const).map((tone) => `${toneMark(tone, talkWords(textsFor(code)))}: `),
);
/** Without the word for its tone, which leads a notification. */
function unmarked(summary: string): string {
  const mark = marks.find((one) => summary.startsWith(one));
  return mark === undefined ? summary : summary.slice(mark.length);
}

function stands(
  place: 'channel' | 'own',
  one: MessageState,
  all: readonly MessageState[],
  card: Dict,
): Stands {
  const summary = text(one.activity.summary);
  const first = all.find(({ id }) => id === one.thread);
  const head = one.thread === null || one.thread === one.id || text(first?.activity.summary) !== summary;
  return {
    place,
    id: one.id,
    text: `${one.text}${read(card)}`,
    summary: unmarked(summary),
    root: one.thread === one.id ? null : one.thread,
    buttons: buttonsIn(card),
    by: one.from.startsWith('28:') ? 'potbell' : 'somebody',
    part: { of: head ? one.id : text(one.thread), at: head ? 'm0' : `t ${summary}`, head },
    calls: JSON.stringify(card.msteams ?? {}).includes('"mention"'),
  };
}

export function teamsHands(crew: Crew, timers: ReturnType<typeof handTimers>): Hands {
  const { teams } = crew;
  const who = (person: string) => (person === SAM ? STRANGER : crew.member(person));
  const chat = (person: string) => teams.chat(who(person));
  const words = (person: string) => {
    const { people, site } = crew.site.pack;
    return textsFor(people.find(({ id }) => id === person)?.language ?? site.language);
  };
  const messages = (conversation: string) => teams.messages(conversation).filter(({ deleted }) => !deleted);
  const written = (person: string) => messages(chat(person)).filter(({ from }) => from === teams.bot.id);

  function taken(outcome: Outcome): Outcome {
    if (outcome.status !== 200 || outcome.problem !== undefined)
      throw new Error(`Teams shows an error: ${JSON.stringify(outcome)}`);
    return outcome;
  }
  function own(person: string): readonly Stands[] {
    const all = messages(chat(person));
    return all.map((one) => {
      const where = { conversation: one.conversation, activityId: one.id };
      return stands('own', one, all, one.card === null ? {} : teams.cardSeen(who(person), where));
    });
  }
  const sheet = (person: string): Sheet | null => {
    const card = teams.dialog(who(person))?.card;
    if (card === undefined) return null;
    const sends = sending(card) !== undefined;
    const fields = fieldsIn(card).map((one) => [
      text(one.id).replace(/^field:/, ''),
      one.value === undefined ? '' : String(one.value),
    ]);
    return { text: read(card), buttons: buttonsIn(card), fields: sends ? Object.fromEntries(fields) : {} };
  };
  const sending = (card: Dict) => actionsIn(card).find(({ data }) => dict(data).form !== undefined);

  function choose(on: Stands, buttons: readonly Button[], wanted: Wanted): Button {
    const fits = typeof wanted === 'string' ? ({ label }: Button) => label === wanted : wanted;
    const found = buttons.filter(fits);
    const [one] = found;
    if (one === undefined || found.length > 1)
      throw new Error(`${found.length} of ${JSON.stringify(buttons)} fit ${String(wanted)} in ${on.text}`);
    return one;
  }

  async function press(person: string, on: Stands, wanted: Wanted): Promise<void> {
    const member = who(person);
    if (on.place === 'sheet') {
      const { label } = choose(on, sheet(person)?.buttons ?? [], wanted);
      taken(await teams.submitDialog(member, {}, { title: label }));
      return;
    }
    const where = { conversation: on.place === 'channel' ? CHANNEL : chat(person), activityId: on.id };
    const { label } = choose(on, buttonsIn(teams.cardSeen(member, where)), wanted);
    taken(await teams.press(member, { ...where, title: label }));
  }

  /** What came into the person's own chat by a line of theirs. */
  async function answered(person: string, line: string): Promise<readonly Stands[]> {
    const before = written(person).length;
    taken(await teams.say(who(person), chat(person), line));
    await teams.until(() => written(person).length > before);
    return own(person)
      .filter(({ by }) => by === 'potbell')
      .slice(before);
  }

  return {
    surface: 'teams',
    title: 'Teams',
    potbell: crew.potbell,
    site: crew.site,
    faults: crew.faults,
    stranger: { person: SAM, id: STRANGER_ID },
    looksBack: false,
    pass: crew.pass,
    passTo: crew.passTo,
    deliver: crew.deliver,
    now: () => teams.clock.now(),
    rest: () => resting(crew, 'teams', timers),
    until: teams.until,
    channel: () => {
      const all = messages(CHANNEL);
      return all.map((one) => stands('channel', one, all, one.card ?? {}));
    },
    own,
    alone: (person) => [
      ...teams.notes(who(person)),
      ...own(person)
        .filter(({ by }) => by === 'potbell')
        .map((one) => one.text),
    ],
    async today(person) {
      const [shown] = await answered(person, 'today');
      if (shown === undefined) throw new Error(`${person} is not shown today`);
      return shown;
    },
    press,
    async type(person, line) {
      const answers = await answered(person, line);
      const asks = words(person).say('talk.open-form', { form: '' });
      const offer = answers.findLast(({ text: shown }) => shown.includes(asks));
      if (offer === undefined) return answers.map((one) => one.text).join('\n');
      await press(person, offer, offer.buttons[0]?.label ?? '');
      return sheet(person)?.text ?? '';
    },
    write: async (person, line) => taken(await teams.say(who(person), chat(person), line)).activityId,
    rewrite: async (person, id, line) =>
      void taken(await teams.say(who(person), chat(person), line, { edited: id })),
    erase: async (person, id) => void taken(await teams.say(who(person), chat(person), '', { deleted: id })),
    async talk(person, line, under) {
      const thread = under === undefined ? {} : { thread: under.id };
      return (await teams.say(who(person), CHANNEL, line, { mention: false, ...thread })).activityId;
    },
    call: async (person, line) => void taken(await teams.say(who(person), CHANNEL, line)),
    sheet,
    async submit(person, answers) {
      const card = teams.dialog(who(person))?.card ?? {};
      const typed = Object.fromEntries(
        Object.entries(answers).map(([name, value]) => [`field:${name}`, value]),
      );
      const title = text(sending(card)?.title);
      taken(await teams.submitDialog(who(person), typed, { title }));
      const shown = sheet(person)?.text ?? '';
      const { formProblems, formRefused } = talkWords(words(person));
      const problems = [formProblems, formRefused].some((one) => shown.includes(one));
      return { kind: problems ? 'problems' : 'taken', text: shown };
    },
    async shut(person) {
      if (teams.dialog(who(person)) !== null) teams.closeDialog(who(person));
    },
    async record(person) {
      const had = teams.files(who(person)).length;
      const consent = () =>
        crew.dm(person).find(({ activity }) => JSON.stringify(activity).includes('file.consent'));
      await answered(person, 'record');
      await teams.until(() => consent() !== undefined);
      const where = { conversation: teams.chat(who(person)), activityId: consent()?.id ?? '' };
      taken(await teams.answersFile(who(person), where, 'accept'));
      await teams.until(() => teams.files(who(person)).length > had);
      return teams
        .files(who(person))
        .map(({ name }) => name)
        .join();
    },
    fault: (call, kind, times) => teams.fault(targets[call], networkFaults[kind], times),
    faultsLeft: teams.faultsLeft,
    faultsOver: teams.noFaults,
    updates: () => teams.callsOf('updateActivity').length,
    down: (shut) => teams.down(shut),
    duplicateLast: async () => void taken(await teams.replayLast()),
    duplicate: teams.duplicate,
    turnedAway: () => teams.calls.filter(({ status }) => status === 429).length,
    stop: () => crew.potbell.stop(),
    close: () => crew.close(),
  };
}

export const inTeams: ChatKind = {
  allAtOnce: true,
  name: 'Teams',
  async open({ site, after, ...opening } = {}) {
    const kept = after === undefined ? null : crews.get(after);
    const timers = handTimers();
    const crew = await crewOnTeams({
      ...opening,
      again: timers.again,
      ...(site && { site: teamsSite(site) }),
      ...(kept && { teams: kept.teams }),
    });
    const hands = teamsHands(crew, timers);
    crews.set(hands, crew);
    return hands;
  },
};

/** The crew behind hands, for what is Teams' own. */
export const crews = new WeakMap<Hands, Crew>();
