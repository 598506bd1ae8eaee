import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import { parseWords, type Words } from '../briefing/caution-md.ts';

/** Every text of a language as it is written, by id. The steps of a caution are `cautions/cold.do.1` and so on. */
export type WrittenTexts = ReadonlyMap<string, string>;

/** Reads a language apart from the program's own loader, so that a fault in one shows in the other. */
export function writtenTexts(folder: string): WrittenTexts {
  const messages = leaves(parse(readFileSync(join(folder, 'messages.yaml'), 'utf8')), '');
  const cautions = filesIn(join(folder, 'cautions')).flatMap((name) => {
    const id = name.replace(/\.md$/, '');
    return cautionTexts(id, parseWords(id, readFileSync(join(folder, 'cautions', name), 'utf8')));
  });
  return new Map([...messages, ...cautions]);
}

const filesIn = (folder: string): readonly string[] => (existsSync(folder) ? readdirSync(folder) : []);

type Entry = readonly [id: string, text: string];

function leaves(value: unknown, path: string): readonly Entry[] {
  if (typeof value !== 'object' || value === null) return [[path, String(value)]];
  return Object.entries(value).flatMap(([key, one]) => leaves(one, path === '' ? key : `${path}.${key}`));
}

function cautionTexts(id: string, words: Words): readonly Entry[] {
  const listed = (name: string, list: readonly string[]): readonly Entry[] =>
    list.map((text, at) => [`${name}.${at + 1}`, text]);
  const own: readonly Entry[] = [
    ['title', words.title],
    ['why', words.why],
    ...(words.each === null ? [] : [['each', words.each] as const]),
    ...listed('do', words.steps),
    ...listed('more', words.more),
    ...words.questions.flatMap(({ id: question, ask, choices, because }): readonly Entry[] => [
      [`ask.${question}`, ask],
      ...choices.map(
        ({ right, text }, at): Entry => [`ask.${question}.${right ? 'right' : 'wrong'}.${at + 1}`, text],
      ),
      [`ask.${question}.because`, because],
    ]),
  ];
  return own.map(([name, text]) => [`cautions/${id}.${name}`, text]);
}
