import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { packageRoot } from '../../adapters/files/package-root.ts';

const page = readFileSync(join(packageRoot(), 'docs', 'trade-method.md'), 'utf8');
const folder = join(packageRoot(), 'src', 'trade');
const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
  name.endsWith('.ts'),
);

async function tradeFunctions(): Promise<Readonly<Record<string, unknown>>> {
  const modules = await Promise.all(files.map((file) => import(join(folder, file)) as Promise<object>));
  return Object.assign({}, ...modules);
}

interface Example {
  readonly call: string;
  readonly expected: number;
  readonly within: number;
}

/** A block reads `call = number ± tolerance unit`; the call is an exported function of src/trade with plain arguments. */
function readExample(block: string): Example {
  const found = /^([\s\S]+?) = (−?-?[\d.]+) ± ([\d.]+)\s/.exec(`${block.trim()} `);
  if (!found) throw new Error(`not an example: ${block}`);
  return {
    call: found[1] ?? '',
    expected: Number((found[2] ?? '').replace('−', '-')),
    within: Number(found[3]),
  };
}

const examples = [...page.matchAll(/```example\n([\s\S]*?)```/g)].map(([, block]) =>
  readExample(block ?? ''),
);

describe('docs/trade-method.md', () => {
  test('has examples to run', () => {
    expect(examples.length).toBeGreaterThan(30);
  });

  test.each(examples)('$call = $expected ± $within', async ({ call, expected, within }) => {
    const known = await tradeFunctions();
    const names = Object.keys(known).filter((name) => /^\w+$/.test(name));
    const value: unknown = new Function(...names, `return (${call});`)(...names.map((name) => known[name]));
    expect(typeof value).toBe('number');
    expect(Math.abs(Number(value) - expected)).toBeLessThanOrEqual(within);
  });

  test('names every file of src/trade that works something out', () => {
    const silent = files.filter((file) => !page.includes(`src/trade/${file.replaceAll('\\', '/')}`));
    expect(silent).toEqual([]);
  });
});
