import { expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { memoryStore } from '../../adapters/memory/store.ts';
import { openQuestion, questionId } from '../../src/flow/sign-off.ts';
import { plainText } from '../../src/message/plain-text.ts';
import type { Command, CommandInput } from '../../src/model/command.ts';
import type { Delivery, Outcome } from '../../src/ports.ts';
import type { Texts, TextsFor } from '../../src/texts/texts.ts';
import { nobody, person } from '../flow/harness.ts';
import { aDay, aPack, t } from '../flow/pack.ts';
import { recordingSurface, World } from '../scenarios/world.ts';

const id = 'weir:2026-05-12';
const english = loadTexts().textsFor('en');

/** English words that say in which language they were asked for. */
const texts: TextsFor = (language): Texts => ({
  ...english,
  language,
  say: ((...said: Parameters<Texts['say']>) => `[${language}] ${english.say(...said)}`) as Texts['say'],
});

const reads: Readonly<Record<string, string>> = { pia: 'pt', hal: 'pl' };

function world() {
  const { surface, shown } = recordingSurface();
  const { people, ...pack } = aPack();
  const own = people.map((one) => ({ ...one, language: reads[one.id] ?? 'en' }));
  const made = new World(memoryStore(), [surface], t('06:00'), { pack: { ...pack, people: own }, texts });
  let commands = 0;
  const take = (by: string | null, command: CommandInput): Promise<Outcome> => {
    commands += 1;
    return made.take({ at: made.now, by: by === null ? nobody : person(by), command }, `c${commands}`);
  };
  return { made, take, shown };
}

const languageIn = (text: string) => [...new Set(text.match(/\[[a-z]{2}\]/g))].join(' ');

async function briefed() {
  const here = world();
  await here.take('finn', aDay() as Command);
  await here.take('finn', { type: 'issue-briefing' });
  await here.made.host.outbox.drain();
  return here;
}

const toldTo = (shown: readonly Delivery[], who: string) =>
  shown.filter(({ audience }) => (audience.kind === 'crew' ? 'crew' : audience.person) === who);

test('LA1 what is for one person is in their language, what is for the crew in the site’s', async () => {
  const { shown } = await briefed();
  for (const [who, language] of [...Object.entries(reads), ['finn', 'en'], ['crew', 'en']] as const) {
    const told = toldTo(shown, who);
    expect(told.length).toBeGreaterThan(0);
    for (const { message } of told) expect(languageIn(plainText(message))).toBe(`[${language}]`);
  }
});

test('LA1 whoever presses reads the answer in their own language, also where it is what the crew is told', async () => {
  const { made, take, shown } = await briefed();
  const read = await take('pia', { type: 'take-reading', airC: 20, rhPct: 50, steelC: 20 });
  expect(read.ok).toBe(true);
  expect(languageIn(plainText(read.shown))).toBe('[pt]');
  await made.host.outbox.drain();
  const crew = toldTo(shown, 'crew').find(({ key }) => key.startsWith('reading:'));
  expect(crew && languageIn(plainText(crew.message))).toBe('[en]');
});

test('LA1 a refusal is in the language of whoever pressed, and the site’s when nobody knows who', async () => {
  const { take } = await briefed();
  const refused = async (by: string | null) => {
    const outcome = await take(by, { type: 'close-shift' });
    expect(outcome.ok).toBe(false);
    return languageIn(plainText(outcome.shown));
  };
  expect(await refused('pia')).toBe('[pt]');
  expect(await refused(null)).toBe('[en]');
});

test('LA1 a witnessed sign-off is in the language of the foreman, who reads it aloud', async () => {
  const { made, take } = await briefed();
  const shift = await made.store.shift(id);
  const open = shift && openQuestion(shift, 'hal');
  if (!shift || !open) throw new Error('hal has no open question');
  const right = open.order.indexOf(0);
  const answered = await take('finn', {
    type: 'answer',
    question: questionId(open),
    choice: right,
    revision: 1,
    witnessFor: 'hal',
  });
  expect(languageIn(plainText(answered.shown))).toBe('[en]');
  await take('finn', { type: 'sign', revision: 1, witnessFor: 'hal' });
  const journal = await made.store.journal(id);
  const signed = journal.map(({ event }) => event.body).find(({ type }) => type === 'signed');
  expect(signed).toMatchObject({ person: 'hal', witnessedBy: 'finn', shown: { language: 'en' } });
});
