import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { loadWords } from '../../adapters/cli/site.ts';
import { PATH } from '../../adapters/teams/link.ts';
import { type Running, site } from '../cli/potbell.ts';
import { actionsIn } from '../peers/teams/card.ts';
import type { MessageState, TeamsPeer } from '../peers/teams/peer.ts';
import { read } from '../teams/crew.ts';

/** What people of the demo site do in a Teams on this machine, with a Potbell that is a process of its own. */
export const member = (person: string) => `29:${person}`;

export const textsFor = loadWords(site);
const texts = textsFor('en');

/** What stands in a conversation now, in order, that Potbell wrote. */
export function standing(teams: TeamsPeer, conversation: string): readonly MessageState[] {
  return teams.messages(conversation).filter(({ deleted, from }) => !deleted && from === teams.bot.id);
}

export const dm = (teams: TeamsPeer, person: string) => standing(teams, teams.chat(member(person)));

export const words = (messages: readonly MessageState[]) => read(messages.map(({ card }) => card));

/** Whether this can be read in them, whatever a card escapes. */
export const says = (messages: readonly MessageState[], text: string) =>
  plain(words(messages)).includes(plain(text));

/** Writes into a file of the site pack; loud when nothing was to be written. */
export function editSite(folder: string, file: string, change: (text: string) => string): void {
  const path = join(folder, file);
  const before = readFileSync(path, 'utf8');
  const after = change(before);
  if (after === before) throw new Error(`nothing was written into ${file}`);
  writeFileSync(path, after);
}

/** From where Potbell said it listens, at the path by which Teams knows it. */
export async function connect(teams: TeamsPeer, potbell: Running, path = PATH): Promise<void> {
  const [, port] = await potbell.says('err', /"port":(\d+),"msg":"listening for Teams"/);
  teams.httpTo(`http://127.0.0.1:${port}${path}`);
}

/** The newest card in somebody's chat that has a button with this title, once it is there. */
async function cardWith(teams: TeamsPeer, person: string, title: string) {
  const found = () =>
    dm(teams, person)
      .map(({ conversation, id }) => ({ conversation, activityId: id }))
      .filter((where) => titles(teams, person, where).includes(title))
      .at(-1);
  await teams.until(() => found() !== undefined);
  const where = found();
  if (where === undefined) throw new Error(`"${title}" went away`);
  return where;
}

type Where = { readonly conversation: string; readonly activityId: string };

function titles(teams: TeamsPeer, person: string, where: Where): readonly unknown[] {
  const card = dm(teams, person).find(({ id }) => id === where.activityId)?.card;
  return card == null ? [] : actionsIn(teams.cardSeen(member(person), where)).map(({ title }) => title);
}

/** Presses the button of this title on the newest card that has it. */
export async function press(teams: TeamsPeer, person: string, title: string) {
  const where = await cardWith(teams, person, title);
  return teams.press(member(person), { ...where, title });
}

/** Sends the sheets that are open one after the other, with what they offer and with `typed` where they ask for it; gives what was pressed. */
export async function sendSheets(
  teams: TeamsPeer,
  person: string,
  typed: Readonly<Record<string, string>>,
): Promise<readonly string[]> {
  const pressed: string[] = [];
  for (;;) {
    const sheet = teams.dialog(member(person))?.card;
    const button = sheet && actionsIn(sheet).find(({ data }) => Object(data).form !== undefined);
    if (!button) return pressed;
    if (pressed.length > 10) throw new Error('the sheets have no end');
    const fields = Object.entries(typed).filter(([id]) => JSON.stringify(sheet).includes(`"${id}"`));
    const title = String(button.title);
    const sent = await teams.submitDialog(member(person), Object.fromEntries(fields), { title });
    if (sent.status !== 200 || sent.problem !== undefined)
      throw new Error(`the sheet was not taken: ${JSON.stringify(sent)}`);
    pressed.push(title);
  }
}

/** Reads the question in the own chat, presses what is right, signs. */
export async function signOff(teams: TeamsPeer, person: string): Promise<void> {
  const card = teams.cardSeen(member(person), await cardWith(teams, person, 'A'));
  // Which question it is stands in the button; which of its answers are right, in the words of the caution.
  const asked = /"question\W+([\w-]+)\/([\w-]+)/.exec(JSON.stringify(actionsIn(card)));
  const [, caution = '', question = ''] = asked ?? [];
  const right = plain(texts.caution(caution).question(question).choices[0] ?? '');
  const sheet = plain(read(card));
  const letter = 'ABCDEFGH'.split('').find((one) => sheet.includes(`${one} ${right}`));
  if (!right || !letter)
    throw new Error(`the right answer to ${caution}/${question} is not among those shown`);
  for (const title of [letter, texts.say('sign.sign')]) {
    const pressed = await press(teams, person, title);
    if (pressed.status !== 200 || pressed.problem !== undefined)
      throw new Error(`"${title}" was not taken: ${JSON.stringify(pressed)}`);
  }
}

/** Letters and figures alone: a card escapes some of the rest. */
const plain = (text: string) => text.replace(/[^\p{L}\p{N}]+/gu, ' ').trim();
