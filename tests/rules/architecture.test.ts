import { existsSync, readFileSync } from 'node:fs';
import { join, posix } from 'node:path';
import { describe, expect, test } from 'vitest';
import { filesUnder, root, type SourceFile } from './files.ts';

const core = filesUnder('src', '.ts');
const outside = filesUnder('adapters', '.ts');

/** The folders that are a chat platform each. */
const chats = ['slack', 'teams'];

function importsOf({ text }: SourceFile): readonly string[] {
  const statements = text.matchAll(/^(?:import|export)\b[^;]*?\bfrom\s+'([^']+)'/gm);
  const others = text.matchAll(/\bimport\s*\(?\s*'([^']+)'/g);
  return [...statements, ...others].map((match) => match[1] ?? '');
}

function withoutComments({ text }: SourceFile): string {
  return text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/(^|\s)\/\/.*$/gm, '');
}

function folderOf(path: string): string {
  return path.split('/')[1] ?? '';
}

describe('the direction of imports', () => {
  test('the sources are found', () => {
    expect(core.length).toBeGreaterThan(50);
    expect(outside.length).toBeGreaterThan(30);
  });

  test('imports are found', () => {
    const engine = core.find(({ path }) => path === 'src/engine.ts');
    expect(engine && importsOf(engine)).toContain('./flow/batch.ts');
  });

  test.each(core.map((file) => [file.path, file] as const))('%s imports its own kind only', (path, file) => {
    for (const target of importsOf(file)) {
      if (target.startsWith('.')) expect(posix.join(posix.dirname(path), target)).toMatch(/^src\/.+\.ts$/);
      else expect(['zod', 'luxon', 'intl-messageformat']).toContain(target);
    }
  });

  test.each(core.map((file) => [file.path, file] as const))(
    '%s reads no clock, draws no lot, knows no process',
    (_path, file) => {
      const code = withoutComments(file);
      for (const reach of [
        /\bDate\.now\b/,
        /\bnew Date\(/,
        /\bMath\.random\b/,
        /\bprocess\./,
        /\bconsole\./,
        /DateTime\.(now|local|utc)\(/,
      ])
        expect(code).not.toMatch(reach);
    },
  );

  test.each(outside.map((file) => [file.path, file] as const))(
    '%s imports no other adapter',
    (path, file) => {
      for (const target of importsOf(file)) {
        if (!target.startsWith('.')) continue;
        const found = posix.join(posix.dirname(path), target);
        if (found.startsWith('src/')) continue;
        expect(found.startsWith('adapters/')).toBe(true);
        const here = folderOf(path);
        // The command line is the composition root; the host is what every adapter is hung on, `chat` what every chat is.
        const shared = chats.includes(here) ? ['host', 'chat'] : ['host'];
        if (here !== 'cli') expect([here, ...shared]).toContain(folderOf(found));
      }
    },
  );

  test.each([...core, ...outside].map((file) => [file.path, file] as const))(
    '%s is short enough to be one idea',
    (_path, file) => {
      expect(file.text.trimEnd().split('\n').length).toBeLessThanOrEqual(260);
    },
  );
});

describe('paths named in the documents', () => {
  const loose = ['README.md', 'DEVELOPERS.md'].filter((name) => existsSync(join(root, name)));
  const documents: readonly SourceFile[] = [
    ...loose.map((path) => ({ path, text: readFileSync(join(root, path), 'utf8') })),
    ...filesUnder('docs', '.md'),
  ];

  test.each(documents.map((file) => [file.path, file] as const))(
    '%s names only paths that exist',
    (_path, { text }) => {
      const named = [...text.matchAll(/\b(?:src|adapters|docs|templates|tests)\/[\w./<>*-]*/g)].map(
        ([path]) => path.replace(/[.]+$/, ''),
      );
      const missing = named.filter((path) => !/[<*]/.test(path) && !existsSync(join(root, path)));
      expect(missing).toEqual([]);
    },
  );
});
