import { existsSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { fieldNotes } from '../../adapters/files/fields.ts';
import {
  type EntryKind,
  entrySchema,
  entrySchemas,
  jsonSchemas,
  type SchemaNode,
  writeJsonSchemas,
} from '../../adapters/files/json-schemas.ts';
import { packageRoot } from '../../adapters/files/package-root.ts';
import { tempDir } from './temp-dir.ts';

const kinds = Object.keys(entrySchemas) as EntryKind[];

function fields(node: SchemaNode, path: string): readonly (readonly [string, SchemaNode])[] {
  return Object.entries(node.properties ?? {}).flatMap(([key, field]) => {
    const name = `${path}.${key}`;
    return [
      [name, field] as const,
      ...fields(field, name),
      ...(field.items ? fields(field.items, name) : []),
    ];
  });
}
const everyField = kinds.flatMap((kind) => fields(entrySchema(kind), kind));

describe('the notes on fields', () => {
  test('there is one for every field of the schemas and none besides', () => {
    expect(Object.keys(fieldNotes).sort()).toEqual(everyField.map(([name]) => name).sort());
  });

  // An example of a group shows part of it, so a group is only held to the fields it shows.
  test.each(everyField)('the example for %s is what the schema accepts', (name, node) => {
    const value: unknown = parse(fieldNotes[name]?.example ?? '');
    const loose = {
      ...node,
      required: [],
      ...(node.items ? { items: { ...node.items, required: [] } } : {}),
    };
    const schema = z.fromJSONSchema(loose as object as Parameters<typeof z.fromJSONSchema>[0]);
    expect(schema.safeParse(value).error?.issues).toBeUndefined();
  });

  test('the isocyanate example is the dangerous answer, so that copying it blindly does no harm', () => {
    expect(fieldNotes['coatings.isocyanate']?.example).toBe('true');
  });
});

describe('docs/site-pack.md', () => {
  const text = readFileSync(join(packageRoot(), 'docs', 'site-pack.md'), 'utf8');

  test.each(everyField.map(([name]) => name))('mentions %s', (name) => {
    expect(text).toContain(`\`${name.split('.').slice(1).join('.')}\``);
  });

  test('mentions every file and shows an example day that the schema accepts', () => {
    for (const name of [
      'site.yaml',
      'people.yaml',
      'coatings.yaml',
      'rigs.yaml',
      'policy.yaml',
      'cautions.yaml',
      'pins.yaml',
    ])
      expect(text).toContain(`\`${name}\``);
    const blocks = [
      ...text.matchAll(/```yaml\n# (site|people|coatings|rigs|policy|cautions|day)\b[^\n]*\n([\s\S]*?)```/g),
    ];
    expect(new Set(blocks.map((block) => block[1]))).toEqual(
      new Set(['site', 'people', 'coatings', 'rigs', 'policy', 'cautions', 'day']),
    );
    for (const [, kind, yaml] of blocks) {
      const data: unknown = parse(yaml ?? '');
      for (const entry of Array.isArray(data) ? data : [data])
        expect([kind, entrySchemas[kind as EntryKind].safeParse(entry).error?.issues]).toEqual([
          kind,
          undefined,
        ]);
    }
  });
});

describe('the schemas for editors', () => {
  test('describe every field', () => {
    for (const [name, node] of everyField)
      expect([name, node.description]).toEqual([name, fieldNotes[name]?.about]);
  });

  test('are written to a folder that need not exist', () => {
    const folder = join(tempDir(), 'a', 'b');
    const written = writeJsonSchemas(folder);
    expect(written).toHaveLength(Object.keys(jsonSchemas()).length);
    for (const file of written) {
      const schema: unknown = JSON.parse(readFileSync(file, 'utf8'));
      expect(schema).toMatchObject({ $schema: 'http://json-schema.org/draft-07/schema#' });
    }
  });
});

describe('the package root', () => {
  test('is found from the sources and from the built files', () => {
    const root = packageRoot();
    expect(existsSync(join(root, 'templates', 'demo-site', 'site.yaml'))).toBe(true);
    expect(packageRoot(join(root, 'dist', 'adapters', 'files', 'package-root.js'))).toBe(root);
  });

  test('outside of Potbell there is none, and the error says what to do', () => {
    expect(() => packageRoot(join(tmpdir(), 'x', 'y.js'))).toThrow(
      /No package\.json named "potbell".*install it again/,
    );
  });
});
