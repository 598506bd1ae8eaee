import { describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { textIds } from '../../src/texts/text-ids.ts';
import { filesUnder } from './files.ts';

const sources = [...filesUnder('src', '.ts'), ...filesUnder('adapters', '.ts')].filter(
  ({ path }) => !path.startsWith('src/texts/ids/'),
);
const code = sources.map(({ text }) => text).join('\n');

/** Parts of ids that are filled in, such as `step.${step}` in the code: what stands before and after. */
const templates = [...code.matchAll(/`([a-z.-]+)\$\{[^`}]*\}([a-z.-]*)`/g)].map(
  ([, before = '', after = '']) => ({ before, after }),
);

describe('texts', () => {
  test('every text of the program has its words', () => {
    const { problems } = loadTexts();
    expect(problems).toEqual([]);
  });

  test('the search for templates finds them', () => {
    expect(templates).toContainEqual({ before: 'done.', after: '' });
    expect(templates).toContainEqual({ before: 'word.hold.', after: '' });
  });

  test.each(Object.keys(textIds))('%s is said somewhere', (id) => {
    const quoted = code.includes(`'${id}'`);
    const built = templates.some(
      ({ before, after }) => before.includes('.') && id.startsWith(before) && id.endsWith(after),
    );
    expect(quoted || built).toBe(true);
  });

  test.each(['safe to spray', 'safe to start', 'all clear', 'you may spray'])(
    'nothing ever says "%s"',
    (phrase) => {
      const words = [...filesUnder('templates', '.yaml'), ...filesUnder('templates', '.md'), ...sources];
      const found = words.filter(({ text }) => text.toLowerCase().replace(/\s+/g, ' ').includes(phrase));
      expect(found.map(({ path }) => path)).toEqual([]);
    },
  );
});
