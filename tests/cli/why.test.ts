import { join } from 'node:path';
import { expect, test } from 'vitest';
import { demoSiteFolder } from '../../adapters/files/demo-site.ts';
import { expectRefusal, expectResult, run } from './potbell.ts';

const day = join(demoSiteFolder(), 'days', 'day-1.yaml');

test.concurrent('potbell why follows each number of a day file to its inputs, formula and source', async () => {
  const end = await run(['why', '--day', day]);
  expectResult(end);
  for (const topic of ['wet-film', 'litres', 'kit', 'pressure', 'air', 'flush', 'solvent', 'tip', 'plan'])
    expect(end.out).toContain(`[${topic}`);
  expect(end.out).toContain('45 × 5 bar = 225 bar');
  expect(end.out.match(/^ {2}Source: /gm)?.length).toBe(end.out.match(/^\[/gm)?.length);
});

test.concurrent('potbell why flush says only that', async () => {
  const end = await run(['why', 'flush', '--day', day]);
  expectResult(end);
  expect(end.out.match(/^\[.*?\]/gm)).toEqual(['[flush]', '[flush]']);
});

test.concurrent('a topic that is not there is answered with those that are', async () => {
  const end = await run(['why', 'moon', '--day', day]);
  expectRefusal(end, /There is nothing about "moon" on this day\. What there is: .*flush/);
});
