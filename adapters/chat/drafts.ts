import { z } from 'zod';
import type { FormValues } from '../../src/message/form.ts';
import type { ChatServices } from './services.ts';

const valuesSchema = z.record(z.string(), z.union([z.string(), z.array(z.string())]));

/** What was typed on earlier steps of a form, across restarts. */
export function createDrafts({ memory, surface }: Pick<ChatServices, 'memory' | 'surface'>) {
  const key = (draft: string) => `draft:${draft}`;
  return {
    async read(draft: string | undefined): Promise<FormValues> {
      const kept = draft === undefined ? null : await memory.get(surface, key(draft));
      return kept === null ? {} : valuesSchema.parse(JSON.parse(kept));
    },
    keep: (draft: string, typed: FormValues) => memory.put(surface, key(draft), JSON.stringify(typed)),
    drop: (draft: string) => memory.remove(surface, key(draft)),
  };
}
