import { sql as firstTables } from './0001-first-tables.ts';
import { sql as surfaceMemory } from './0002-surface-memory.ts';

export interface Migration {
  readonly name: string;
  readonly sql: string;
}

/** In order; number 1 is the first. Never change one that has been released: add another. */
export const migrations: readonly Migration[] = [
  { name: 'first tables', sql: firstTables },
  { name: 'surface memory', sql: surfaceMemory },
];
