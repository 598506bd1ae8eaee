import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { coatingSheetSchema } from '../../src/model/coating-sheet.ts';
import { dayEntrySchema } from '../../src/model/day-entry.ts';
import { rigSchema } from '../../src/model/rig.ts';
import { personSchema, policySchema, siteSchema } from '../../src/model/site.ts';
import { cautionsFileSchema } from '../../src/model/site-cautions.ts';
import { fieldNotes } from './fields.ts';
import { pinsSchema } from './pins-schema.ts';

/** The part of JSON Schema (draft 7) that the schemas of a site pack use. */
export interface SchemaNode {
  readonly type?: string;
  readonly description?: string;
  readonly properties?: Readonly<Record<string, SchemaNode>>;
  /** What a field of any other name holds; false: there may be none. */
  readonly additionalProperties?: SchemaNode | false;
  readonly required?: readonly string[];
  readonly items?: SchemaNode;
  readonly anyOf?: readonly SchemaNode[];
  readonly enum?: readonly (string | number | boolean)[];
  readonly const?: string | number | boolean;
  readonly minimum?: number;
  readonly exclusiveMinimum?: number;
  readonly maximum?: number;
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly minItems?: number;
  readonly maxItems?: number;
}

/** One entry of each kind of file, by the first part of its fields' paths. */
export const entrySchemas = {
  site: siteSchema,
  people: personSchema,
  coatings: coatingSheetSchema,
  rigs: rigSchema,
  policy: policySchema,
  cautions: cautionsFileSchema,
  day: dayEntrySchema,
} as const;
export type EntryKind = keyof typeof entrySchemas;

const made = new Map<EntryKind, SchemaNode>();

/** The schema of one entry as it is typed (before defaults), with a description on every field. */
export function entrySchema(kind: EntryKind): SchemaNode {
  const known = made.get(kind);
  if (known) return known;
  const { $schema: _, ...plain } = z.toJSONSchema(entrySchemas[kind], { io: 'input', target: 'draft-7' });
  const described = describe(plain as SchemaNode, kind);
  made.set(kind, described);
  return described;
}

function describe(node: SchemaNode, path: string): SchemaNode {
  const about = fieldNotes[path]?.about ?? node.description;
  return { ...describeInside(node, path), ...(about === undefined ? {} : { description: about }) };
}

function describeInside(node: SchemaNode, path: string): SchemaNode {
  return {
    ...node,
    ...(node.items ? { items: describeInside(node.items, path) } : {}),
    ...(node.properties
      ? {
          properties: Object.fromEntries(
            Object.entries(node.properties).map(([key, value]) => [key, describe(value, `${path}.${key}`)]),
          ),
        }
      : {}),
  };
}

/** The schemas of the files of a site pack, for editors: file name → JSON Schema, draft 7. */
export function jsonSchemas(): Readonly<Record<string, object>> {
  const of = (title: string, node: object) => ({
    $schema: 'http://json-schema.org/draft-07/schema#',
    title: `Potbell: ${title}`,
    ...node,
  });
  const list = (items: SchemaNode): SchemaNode => ({ type: 'array', minItems: 1, items });
  const coating = entrySchema('coatings');
  const { $schema: _, ...pins } = z.toJSONSchema(pinsSchema, { io: 'input', target: 'draft-7' });
  return {
    'site.schema.json': of('the site', entrySchema('site')),
    'people.schema.json': of('the people', list(entrySchema('people'))),
    'coatings.schema.json': of('coating sheets', { anyOf: [coating, list(coating)] }),
    'rigs.schema.json': of('the rigs', list(entrySchema('rigs'))),
    'policy.schema.json': of('what the site has decided', {
      anyOf: [entrySchema('policy'), { type: 'null' }],
    }),
    'cautions.schema.json': of('what the site adds to the cautions', {
      anyOf: [entrySchema('cautions'), { type: 'null' }],
    }),
    'day.schema.json': of('a day entry', entrySchema('day')),
    'pins.schema.json': of('PIN lines made by "potbell pin"', pins),
  };
}

/** Writes them into `folder`, which is made if need be. Returns the paths written. */
export function writeJsonSchemas(folder: string): readonly string[] {
  mkdirSync(folder, { recursive: true });
  return Object.entries(jsonSchemas()).map(([name, schema]) => {
    const file = join(folder, name);
    writeFileSync(file, `${JSON.stringify(schema, null, 2)}\n`);
    return file;
  });
}
