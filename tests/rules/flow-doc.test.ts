import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { filesUnder, root } from './files.ts';

const doc = readFileSync(join(root, 'docs/flow.md'), 'utf8');
const documented = [...doc.matchAll(/^- \*\*([A-Z]{2}\d+)\*\*/gm)].map((match) => match[1] ?? '');
const families = [...new Set(documented.map((id) => id.slice(0, 2)))].join('|');
const anId = new RegExp(`\\b(?:${families})\\d+\\b`, 'g');
const aRange = new RegExp(`\\b(${families})(\\d+)[–-](?:${families})?(\\d+)\\b`, 'g');

function idsIn(text: string): readonly string[] {
  const ranged = [...text.matchAll(aRange)].flatMap(([, family = '', from = '0', to = '0']) =>
    Array.from({ length: Number(to) - Number(from) + 1 }, (_, i) => `${family}${Number(from) + i}`),
  );
  return [...ranged, ...(text.match(anId) ?? [])];
}

const tested = new Set(
  ['tests/flow', 'tests/engine', 'tests/forms', 'tests/scenarios', 'tests/host', 'tests/views']
    .flatMap((folder) => filesUnder(folder, '.test.ts'))
    .flatMap(({ text }) =>
      [...text.matchAll(/\b(?:test|it)(?:\.each\([\s\S]*?\))?\(\s*(['"`])(.*?)\1/g)].map(
        (match) => match[2] ?? '',
      ),
    )
    .flatMap(idsIn),
);
const cited = new Set(
  filesUnder('src', '.ts').flatMap(({ text }) =>
    (text.match(/\/\*[\s\S]*?\*\/|\/\/.*$/gm) ?? []).flatMap(idsIn),
  ),
);

describe('docs/flow.md', () => {
  test('each rule has one place and the rules of a part are numbered without gaps', () => {
    expect(documented.length).toBeGreaterThan(50);
    expect(new Set(documented).size).toBe(documented.length);
    for (const family of families.split('|')) {
      const numbers = documented.filter((id) => id.startsWith(family)).map((id) => Number(id.slice(2)));
      expect([family, numbers]).toEqual([family, numbers.map((_, index) => index + 1)]);
    }
  });

  test.each(documented)('%s is tested', (id) => {
    expect([...tested]).toContain(id);
  });

  test('every rule that a test names is in the document', () => {
    expect([...tested].filter((id) => !documented.includes(id))).toEqual([]);
  });

  test('every rule that a comment in src/ names is in the document', () => {
    expect(cited.size).toBeGreaterThan(20);
    expect([...cited].filter((id) => !documented.includes(id))).toEqual([]);
  });
});
