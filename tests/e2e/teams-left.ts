import { expect } from 'vitest';
import { compose, openRunning } from '../../adapters/cli/compose.ts';
import { handClock } from '../../adapters/cli/hand-clock.ts';
import { loadSite } from '../../adapters/cli/site.ts';
import { readTeamsConfig } from '../../adapters/teams/config.ts';
import { PATH } from '../../adapters/teams/link.ts';
import { commandSchema } from '../../src/model/command.ts';
import { crewLog, passing } from '../chats/passing.ts';
import { runningDay, shiftOf } from '../cli/running-day.ts';
import type { TeamsPeer } from '../peers/teams/peer.ts';
import { member } from './teams-hands.ts';
import { environmentFor, TEAM } from './teams-place.ts';

/** A batch of 20 L in rig 1; at 23 °C the demo's sheet gives it 120 min. */
const mix = { type: 'mix-batch', rig: 'rig-1', coating: 'epoxy-mid', litres: 20, paintC: 23, pot: 'fresh' };

/**
 * Leaves in `data` what a Potbell leaves that heard from Teams and then went away at `died` (epoch ms), with a day posted
 * and paint just mixed, and all of it said. It is made in this process, on a clock set back: nobody waits two hours for
 * paint to set. Nothing reaches Potbell any more afterwards.
 */
export async function leaveBehind(teams: TeamsPeer, pack: string, data: string, died: number): Promise<void> {
  const read = readTeamsConfig(environmentFor(teams));
  if (read.kind !== 'ok') throw new Error(JSON.stringify(read));
  const clock = handClock(died);
  const { store, memoryFor } = openRunning(data);
  const { log, port, faults } = crewLog();
  const chat = { config: read.config, memory: memoryFor(clock) };
  const potbell = await compose(loadSite(pack), store, clock, log, { teams: chat });
  potbell.join();
  await teams.until(() => port() !== null);
  teams.httpTo(`http://127.0.0.1:${port()}${PATH}`);
  await teams.installs(member('ines'), TEAM);
  const day = runningDay(teams.clock.now());
  const does = async (person: string, input: unknown) => {
    const outcome = await potbell.host.handle({
      shift: shiftOf(day),
      command: commandSchema.parse(input),
      actor: { kind: 'person', person, surface: 'board' },
      commandId: `before-${person}`,
    });
    expect(outcome).toMatchObject({ ok: true });
  };
  await does('ines', { type: 'post-day', entry: day });
  await does('bento', mix);
  const goOn = (ms: number) => clock.set(clock.now() + ms);
  await passing(potbell, clock, goOn, () => died).deliver();
  expect(faults).toEqual([]);
  teams.httpTo(null);
  await potbell.stop();
}
