import { expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { calling } from '../../adapters/teams/calling.ts';
import { buttons, message, paragraph } from '../../src/message/build.ts';
import { plainText } from '../../src/message/plain-text.ts';
import { teamsSite } from './crew.ts';

const { pack } = teamsSite();
const texts = loadTexts().textsFor('en');
const press = { label: 'Start', tone: 'main', action: { kind: 'show', page: 'today' } } as const;

test('who is called stands behind what is to be done and for whom, and over the buttons', () => {
  const said = message('USE BY 10:10', 'danger', paragraph('Start the flush.'), paragraph('For: crew'));
  const bell = { ...said, blocks: [...said.blocks, ...buttons(press)] };
  expect(calling(bell, pack, texts).blocks.map(({ kind }) => kind)).toEqual([
    'paragraph',
    'paragraph',
    'paragraph',
    'buttons',
  ]);
  const words = plainText(calling(bell, pack, texts));
  expect(words.indexOf('For: crew')).toBeLessThan(words.indexOf('Ines'));
  expect(words.indexOf('Ines')).toBeLessThan(words.indexOf('Start', words.indexOf('For: crew')));
});

test('without a button the call is the end; with nobody linked nothing is added', () => {
  const said = message('STOP WORK', 'danger', paragraph('Guns down.'));
  expect(
    plainText(calling(said, pack, texts))
      .trim()
      .endsWith('Notified: Ines'),
  ).toBe(true);
  const nobody = { ...pack, people: pack.people.map((person) => ({ ...person, teams: undefined })) };
  expect(calling(said, nobody, texts)).toEqual(said);
});

test('two who are called are two names, not one', () => {
  const said = message('Concern from Bento', 'attention', paragraph('The start is held.'));
  const two = {
    ...pack,
    people: pack.people.map((one) => ({ ...one, teams: one.teams ?? `id-of-${one.id}` })),
  };
  expect(
    plainText(calling(said, two, texts))
      .trim()
      .endsWith('Notified: Ines, Bento'),
  ).toBe(true);
});
