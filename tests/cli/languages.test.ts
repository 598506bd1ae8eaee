import { expect, test } from 'vitest';
import { expectRefusal, expectResult, run } from './potbell.ts';

test.concurrent('potbell languages says of each language what there is and what nobody has checked', async () => {
  const end = await run(['languages']);
  expectResult(end);
  expect(end.out).toMatch(
    /^en {2}English, ltr, en-GB, written by hand\n {4}complete: texts (\d+) of \1, cautions (\d+) of \2\n/m,
  );
});

test.concurrent('potbell languages --json says the same to programs', async () => {
  const end = await run(['languages', '--json']);
  expectResult(end);
  const { languages } = JSON.parse(end.out) as { languages: readonly { code: string; complete: boolean }[] };
  expect(languages).toContainEqual(
    expect.objectContaining({ code: 'en', complete: true, drafted: 'by-hand' }),
  );
});

test.concurrent('potbell languages --sha prints the entry of one file, and refuses what is none', async () => {
  const end = await run(['languages', '--sha', 'en/cautions/injection.md']);
  expectResult(end);
  expect(end.out).toMatch(
    /^- file: cautions\/injection\.md\n {2}sha256: "[0-9a-f]{64}"\n {2}by: \n {2}on: ""$/m,
  );
  expectRefusal(
    await run(['languages', '--sha', 'en/cautions/moon.md']),
    'There is no file of words "en/cautions/moon.md".',
  );
});
