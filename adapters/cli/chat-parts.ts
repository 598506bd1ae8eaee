import { setTimeout as sleep } from 'node:timers/promises';
import { readTyped } from '../../src/chat/read-typed.ts';
import type { Again } from '../chat/again.ts';
import type { ChatServices } from '../chat/services.ts';
import { talkWords } from './talk-words.ts';

/** How a chat waits, where it is not by the clock of this computer. */
export interface ChatWaits {
  readonly wait?: (ms: number) => Promise<void>;
  readonly again?: Again;
  /** How long a call may take, ms. */
  readonly timeoutMs?: number;
  /** How long a connection may leave a ping unanswered before it counts as lost, ms. */
  readonly pingMs?: number;
}

/** What is the same in every chat of a site; the rest is the platform's own. */
export type SiteParts = Omit<
  ChatServices,
  'surface' | 'personOf' | 'memberOf' | 'readTyped' | 'words' | 'wait' | 'again' | 'notices'
>;

export const onClock = async (ms: number): Promise<void> => void (await sleep(ms));

export const talking = { readTyped, words: talkWords };
