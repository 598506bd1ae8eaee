import { UNREAD } from '../../facts/round.ts';
import { type UsedRig, usedRigs } from '../../facts/used.ts';
import { becauseRig } from '../because.ts';
import { rigsSpray } from '../causes.ts';
import type { Params } from '../caution.ts';
import type { CautionRule } from '../rule.ts';

/**
 * The order that never opens a line under pressure. Only the step that takes the power off depends on the drive; a
 * plural-component rig has two sides that hold pressure, each by itself.
 */
export const pressureRelief: CautionRule = {
  id: 'pressure-relief',
  grade: 'stop',
  tasks: ['spraying', 'flushing'],
  params: [],
  eachParams: ['rig', 'about', 'drive'],
  questions: [
    { id: 'pump-stopped', choices: 3 },
    { id: 'blocked-tip', choices: 3 },
  ],
  find({ day }) {
    const rigs = usedRigs(day);
    if (rigs.length === 0) return null;
    const unknown = rigs.filter(({ rig }) => !rig);
    const plural = rigs.filter(({ rig }) => rig?.components === 2);
    return {
      params: {},
      each: [...rigs.map(powerRow), ...plural.map(sidesRow)],
      because: [
        rigsSpray(day),
        ...unknown.map(({ name }) => becauseRig(name, 'drive', null)),
        ...plural.map(({ name }) => becauseRig(name, 'components', 2)),
      ],
    };
  },
};

function powerRow({ name, rig }: UsedRig): Params {
  return { rig: name, about: 'power', drive: rig?.drive ?? 'unknown' };
}

function sidesRow({ name }: UsedRig): Params {
  return { rig: name, about: 'sides', drive: UNREAD };
}
