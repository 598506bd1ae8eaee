import { memoryStore } from '../../adapters/memory/store.ts';
import { openSqliteStore } from '../../adapters/sqlite/store.ts';
import { tempFile } from '../sqlite/temp.ts';
import { storeContract } from './store-contract.ts';

storeContract('memory', memoryStore);
storeContract('SQLite', () => openSqliteStore({ file: tempFile() }));
