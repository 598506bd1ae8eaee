import type { CommandInput } from '../../src/model/command.ts';
import type { Running } from '../cli/potbell.ts';

/** One command that was sent, and what became of it. */
export interface Sent {
  readonly person: string;
  readonly command: CommandInput;
  readonly commandId: string;
  /** The whole answer came, and it was yes. */
  acknowledged: boolean;
}

/** Each can be given at any moment of a shift with mixed paint in rig 1, and is one line of the journal. */
const kinds: readonly ((words: string) => CommandInput)[] = [
  (words) => ({ type: 'take-reading', airC: 20, rhPct: 60, steelC: 19, place: words }),
  (words) => ({ type: 'raise-concern', text: words }),
  () => ({ type: 'pot-temperature', rig: 'rig-1', c: 20 }),
];

/**
 * Everybody sends one command after the other, all at the same time, until the process no longer answers.
 * `acknowledged` is told after each yes, with how many there were; there it can be killed.
 */
export async function burst(
  potbell: Pick<Running, 'send'>,
  people: readonly string[],
  name: string,
  acknowledged: (count: number) => void,
): Promise<readonly Sent[]> {
  const all: Sent[] = [];
  let count = 0;
  let refused = false;

  async function keepSending(person: string, first: number): Promise<void> {
    for (let turn = first; !refused; turn += 1) {
      const commandId = `${name}-${person}-${turn}`;
      const command = (kinds[turn % kinds.length] ?? kinds[0])?.(commandId);
      if (!command) throw new Error('there are no commands to send');
      const sent: Sent = { person, command, commandId, acknowledged: false };
      all.push(sent);
      const answer = await potbell.send(person, command, commandId).catch(() => null);
      if (answer === null) return;
      if (!answer.ok) {
        refused = true;
        throw new Error(`${commandId} was refused (${answer.status}): ${answer.text}`);
      }
      sent.acknowledged = true;
      count += 1;
      acknowledged(count);
    }
  }

  await Promise.all(people.map((person, index) => keepSending(person, index)));
  return all;
}
