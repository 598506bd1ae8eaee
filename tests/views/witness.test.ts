import { describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { needsToSign } from '../../src/briefing/build.ts';
import { unsigned } from '../../src/flow/holds.ts';
import type { Block } from '../../src/message/message.ts';
import { lineText, plainText } from '../../src/message/plain-text.ts';
import { pagePanels } from '../../src/views/pages.ts';
import { briefed, type Play } from '../flow/harness.ts';
import { aDay } from '../flow/pack.ts';

const texts = loadTexts().textsFor('en');

const panelsOf = (play: Play) =>
  pagePanels('sign-off', { pack: play.pack, shift: play.shift, now: play.now, texts, viewer: 'finn' });
const sheetOf = (play: Play) => panelsOf(play).filter(({ id }) => id.startsWith('witness-'));
const listed = (blocks: readonly Block[]) =>
  blocks.flatMap((block) => (block.kind === 'list' ? block.items.map(lineText) : []));
const needed = ({ state }: Play, id: string) =>
  needsToSign(state.briefing, state.people[id]?.signed ?? {}).map(
    (caution) => texts.caution(caution.id).title,
  );

/** Pia has signed, then the day goes under sheeting: she needs what changed, the others everything. */
function changedForOne(): Play {
  const play = briefed();
  play.sign('pia');
  play.do(aDay({ surroundings: 'enclosed' }));
  return play;
}

describe('SO4 the sheet of a foreman who signs for others as a witness', () => {
  test.each([
    ['all of them new', briefed],
    ['one of them with less to read', changedForOne],
  ])('SO4 has every caution of everybody, and each of them once: %s', (_which, play) => {
    const done = play();
    const people = unsigned(done.state).filter((id) => id !== 'finn');
    expect(people.length).toBeGreaterThan(1);
    const sheet = sheetOf(done);
    const [all, ...each] = sheet;
    expect(all?.id).toBe('witness-all');
    expect(each.map(({ id }) => id)).toEqual(people.map((id) => `witness-${id}`));
    const shared = listed(all?.message.blocks ?? []);
    expect(shared.length).toBeGreaterThan(0);
    for (const id of people) {
      const own = listed(each.find((one) => one.id === `witness-${id}`)?.message.blocks ?? []);
      expect([...shared, ...own].sort()).toEqual([...needed(done, id)].sort());
    }
    for (const title of shared)
      expect(
        sheet.flatMap(({ message }) => listed(message.blocks)).filter((one) => one === title),
      ).toHaveLength(1);
  });

  test('SO4 with less for one of them to read, the others have the rest under their own name', () => {
    const sheet = sheetOf(changedForOne());
    const of = (id: string) => listed(sheet.find((one) => one.id === `witness-${id}`)?.message.blocks ?? []);
    expect(of('pia')).toEqual([]);
    expect(of('hal').length).toBeGreaterThan(0);
    const words = plainText(
      sheet.find(({ id }) => id === 'witness-hal')?.message ?? { summary: '', tone: 'plain', blocks: [] },
    );
    expect(words).toContain(texts.say('sign.witness-besides', { person: 'Hal' }));
  });

  test('SO4 every name has its own press, and the words about an injection stand over all of them', () => {
    const play = briefed();
    const sheet = sheetOf(play);
    const { call, hospital } = play.state.day.emergency;
    const footer = texts.say('brief.injection-footer', { call, hospital });
    expect(sheet[0]?.message.blocks).toContainEqual({ kind: 'note', tone: 'danger', line: [footer] });
    expect(JSON.stringify(sheet[0]?.message.blocks)).toContain('raise-concern');
    for (const { id, message } of sheet.slice(1))
      expect(JSON.stringify(message.blocks)).toContain(`"person":"${id.slice('witness-'.length)}"`);
  });

  test('SO4 one alone is a sheet like their own', () => {
    const play = briefed();
    for (const id of unsigned(play.state)) if (id !== 'hal') play.sign(id);
    const sheet = sheetOf(play);
    expect(sheet.map(({ id }) => id)).toEqual(['witness-hal']);
    expect(listed(sheet[0]?.message.blocks ?? [])).toEqual(needed(play, 'hal'));
  });
});
