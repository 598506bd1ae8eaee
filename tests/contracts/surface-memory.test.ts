import { memorySurfaceMemory } from '../../adapters/memory/surface-memory.ts';
import { openDatabase } from '../../adapters/sqlite/open-database.ts';
import { sqliteSurfaceMemory } from '../../adapters/sqlite/surface-memory.ts';
import { tempFile } from '../sqlite/temp.ts';
import { surfaceMemoryContract } from './surface-memory.ts';

surfaceMemoryContract('memory', (clock) => ({
  memory: memorySurfaceMemory(clock),
  close: () => undefined,
}));
surfaceMemoryContract('SQLite', (clock) => {
  const db = openDatabase({ file: tempFile() });
  return { memory: sqliteSurfaceMemory(db, clock), close: () => db.close() };
});
