import { type Document, isCollection, isNode, isPair, visit } from 'yaml';
import { yamlWords } from './yaml-words.ts';

/** A site pack needs five; what walks through a document needs a stack that holds it. */
const DEEPEST = 30;

export interface Forbidden {
  readonly offset: number;
  readonly found: string;
  readonly message: string;
  readonly write: string;
}

/**
 * Anchors, aliases and tags: they can multiply values, and a value could not be pointed at where it is used. Nor may
 * anything be nested more than 30 levels deep.
 */
export function forbidden(document: Document, text: string): readonly Forbidden[] {
  const deep = tooDeep(document);
  if (deep !== null) return [{ offset: deep, found: '', ...yamlWords('RESOURCE_EXHAUSTION', '') }];
  const found: Forbidden[] = [];
  visit(document, {
    Node(_key, node) {
      const offset = node.range?.[0] ?? 0;
      if (node.anchor !== undefined)
        found.push({
          offset,
          found: `&${node.anchor}`,
          message: 'a value is given a name with &, which is not used here',
          write: `the value without "&${node.anchor}", written out in full wherever it is needed`,
        });
      if (node.tag !== undefined)
        found.push({
          offset,
          found: text.slice(text.lastIndexOf('!', offset), offset).trim() || node.tag,
          message: 'a value is marked with a type (!), which is not used here',
          write: 'the value alone, without the word that begins with "!"',
        });
    },
    Alias(_key, node) {
      found.push({
        offset: node.range?.[0] ?? 0,
        found: `*${node.source}`,
        message: 'a value is copied from elsewhere with *, which is not used here',
        write: 'the value itself, written out in full',
      });
    },
  });
  return found;
}

/** Where the first thing deeper than allowed begins. Level by level, because a deep one has no room for recursion. */
function tooDeep(document: Document): number | null {
  let level: readonly unknown[] = [document.contents];
  for (let depth = 0; depth < DEEPEST && level.length > 0; depth += 1)
    level = level.flatMap((node) => (isCollection(node) ? node.items : [])).flatMap(insides);
  const first = level.find(isNode);
  return first ? (first.range?.[0] ?? 0) : null;
}

function insides(item: unknown): readonly unknown[] {
  return isPair(item) ? [item.key, item.value] : [item];
}
