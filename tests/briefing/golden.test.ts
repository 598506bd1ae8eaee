import { describe, expect, it } from 'vitest';
import type { Block } from '../../src/message/message.ts';
import { plainText } from '../../src/message/plain-text.ts';
import { boardHtml } from '../board/board-html.ts';
import { wordsOf } from '../message/words-of.ts';
import { briefingOf } from './briefing-of.ts';
import { crewDays } from './crew-days.ts';

/**
 * What a crew reads, whole, on every surface there is: a change of words, order or numbers shows as a difference of these
 * files. `npx vitest run tests/briefing/golden.test.ts -u` writes them anew; read the difference before it is committed.
 */
const golden: readonly (readonly [day: string, person: string, language: string])[] = [
  ['epoxy outdoors in winter', 'bram', 'en'],
  ['epoxy outdoors in winter', 'ewa', 'en'],
  ['epoxy outdoors in winter', 'cleo', 'pl'],
  ['polyurethane in a tank in summer', 'bram', 'en'],
  ['polyurethane in a tank in summer', 'cleo', 'es'],
  ['zinc silicate in dry air', 'bram', 'pt'],
  ['a tank lining with a plural-component rig', 'bram', 'en'],
  ['two rigs with different coatings', 'dov', 'es'],
  ['a line left full of paint', 'cleo', 'en'],
  ['paint with a sheet that says nothing', 'bram', 'pl'],
];

const languages = ['en', 'es', 'pt', 'pl'] as const;

/** What a person reads of a page, or hears read out: no markup, no escapes, no spaces. */
function readable(page: string): string {
  return page
    .replace(/<[^>]*? aria-label="([^"]*)"[^>]*>/g, '$1')
    .replace(/<[^>]*>/g, '')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&amp;', '&')
    .replace(/\s+/g, '');
}

const factsOfDay = (name: string) => {
  const day = crewDays[name];
  if (!day) throw new Error(`there is no invented day called ${name}`);
  return day.facts;
};

describe.each(golden)('%s, for %s in %s', (name, person, language) => {
  const facts = factsOfDay(name);
  const message = briefingOf(facts, person, language);
  const file = `../golden/${name.replaceAll(' ', '-')}.${person}.${language}`;

  it('reads in plain text as it did', async () => {
    await expect(`${plainText(message)}\n`).toMatchFileSnapshot(`${file}.txt`);
  });

  it('reads on the board as it did', async () => {
    const page = boardHtml(message, facts.day.prestartAt).replace(/></g, '>\n<');
    await expect(`${page}\n`).toMatchFileSnapshot(`${file}.html`);
  });
});

describe.each(Object.entries(crewDays))('%s', (_name, { facts }) => {
  it.each(languages)('loses no word on any surface in %s', (language) => {
    const message = briefingOf(facts, 'bram', language);
    const said = wordsOf(message).map((text) => text.replace(/\s+/g, ''));
    const plain = plainText(message).replace(/\s+/g, '').toLowerCase();
    const board = readable(boardHtml(message, facts.day.prestartAt));
    expect(said.length).toBeGreaterThan(50);
    expect(said.filter((text) => !plain.includes(text.toLowerCase()))).toEqual([]);
    expect(said.filter((text) => !board.includes(text))).toEqual([]);
  });
});

const headings = (blocks: readonly Block[]): readonly string[] =>
  blocks.flatMap((block) => {
    if (block.kind === 'more' || block.kind === 'below') return headings(block.blocks);
    return block.kind === 'heading' ? [block.text] : [];
  });

it.each(['epoxy outdoors in winter', 'polyurethane in a tank in summer', 'two rigs with different coatings'])(
  '%s: sprayer and standby hear of the same dangers, each of their own first',
  (name) => {
    const sprayer = headings(briefingOf(factsOfDay(name), 'bram', 'en').blocks);
    const standby = headings(briefingOf(factsOfDay(name), 'ewa', 'en').blocks);
    expect([...sprayer].sort()).toEqual([...standby].sort());
    expect(sprayer).not.toEqual(standby);
  },
);
