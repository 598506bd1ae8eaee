import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse, stringify } from 'yaml';
import { root } from '../rules/files.ts';

const LETTERS = 'אבגדהוזחטיכלמנסעפצקרשת';

/**
 * The English words in letters that run from right to left: nobody reads them, but they are as long, hold the same
 * figures and names, and turn a page as a real language would. Placeholders and cases of choices stay.
 */
export function turned(text: string): string {
  const depth: ('argument' | 'words')[] = [];
  let out = '';
  for (const here of text) {
    const inside = depth.at(-1) ?? 'words';
    if (here === '{') depth.push(inside === 'words' ? 'argument' : 'words');
    if (here === '}') depth.pop();
    const letter = /[a-z]/i.test(here) && inside === 'words' ? here.toLowerCase().charCodeAt(0) - 97 : -1;
    out += letter < 0 ? here : LETTERS[letter % LETTERS.length];
  }
  return out;
}

function turnedTree(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return turned(String(value));
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, turnedTree(one)]));
}

/** Headings of parts and ids of questions are the format's own. */
function turnedCaution(text: string): string {
  return text
    .split('\n')
    .map((line) => {
      const [, mark = '', words = ''] = /^(# |- \[[ x]\] |- |> |#{2,3} .*|)(.*)$/.exec(line) ?? [];
      return mark + turned(words);
    })
    .join('\n');
}

/** Writes `en` as it is and the turned language `he` into a folder of templates. */
export function writeTurnedLanguage(dir: string): void {
  const en = join(root, 'templates/en');
  const read = (name: string) => readFileSync(join(en, name), 'utf8');
  const cautions = readdirSync(join(en, 'cautions'));
  for (const code of ['en', 'he']) mkdirSync(join(dir, code, 'cautions'), { recursive: true });
  writeFileSync(join(dir, 'en/language.yaml'), read('language.yaml'));
  writeFileSync(join(dir, 'en/messages.yaml'), read('messages.yaml'));
  writeFileSync(
    join(dir, 'he/language.yaml'),
    'name: Turned\ndirection: rtl\nlocale: he-IL\ndrafted: by-hand\n',
  );
  writeFileSync(join(dir, 'he/messages.yaml'), stringify(turnedTree(parse(read('messages.yaml')))));
  for (const name of cautions) {
    writeFileSync(join(dir, 'en/cautions', name), read(`cautions/${name}`));
    writeFileSync(join(dir, 'he/cautions', name), turnedCaution(read(`cautions/${name}`)));
  }
}
