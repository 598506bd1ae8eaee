import type { Answer } from './link.ts';

/** Teams asks again within seconds; a crew does less than this meanwhile. */
const MOST = 200;

/**
 * The same answer to the same activity however often it comes, also while the first is worked on. What must not be done
 * twice after a restart is guarded by the command id at the one door.
 */
export function createOnce() {
  const answers = new Map<string, Promise<Answer>>();
  return (id: string, work: () => Promise<Answer>): Promise<Answer> => {
    const known = answers.get(id);
    if (known !== undefined) return known;
    const answer = work();
    answers.set(id, answer);
    // What broke is tried again when it comes again.
    answer.catch(() => answers.delete(id));
    const [oldest] = answers.keys();
    if (answers.size > MOST && oldest !== undefined) answers.delete(oldest);
    return answer;
  };
}
