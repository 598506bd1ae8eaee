import type { Backstop, BackstopDay } from '../../src/chat/backstop.ts';
import { mergeBackstops } from '../../src/chat/backstop-merge.ts';
import { arm, refuse } from './backstop-arm.ts';
import type { Round } from './backstop-round.ts';
import { FALSE_YES_MS, withdraw } from './backstop-withdraw.ts';

/** What the platform should hold for the day, and whether each of it is set. */
export type Targets = ReadonlyMap<string, { readonly backstop: Backstop; readonly isArmed: boolean }>;

/**
 * Sets everything the day wants, earliest first. Where the platform takes no more around one time, the rigs share one
 * notice from then on, until one rig at most is left.
 */
export async function armAll(round: Round, day: BackstopDay): Promise<Targets> {
  const wanted = day.wanted
    .filter(({ postAt }) => postAt > round.services.clock.now())
    .sort((x, y) => x.postAt - y.postAt);
  const shared = await round.book.isMerged(round.day);
  if (shared && wanted.length < 2) await round.book.setMerged(round.day, false);
  if (shared && wanted.length >= 2) return armOne(round, day, wanted);
  const targets = new Map<string, { backstop: Backstop; isArmed: boolean }>();
  for (const backstop of wanted) {
    const armed = await arm(round, backstop);
    if (armed === 'crowded' && wanted.length >= 2) {
      await round.book.setMerged(round.day, true);
      return armOne(round, day, wanted);
    }
    const isArmed = armed === 'armed' || (armed === 'crowded' && (await armWithRoom(round, backstop)));
    targets.set(backstop.ref, { backstop, isArmed });
  }
  return targets;
}

async function armOne(round: Round, { call }: BackstopDay, wanted: readonly Backstop[]): Promise<Targets> {
  const backstop = mergeBackstops(wanted, call, round.services.texts());
  const armed = await arm(round, backstop);
  const isArmed = armed === 'armed' || (armed === 'crowded' && (await armWithRoom(round, backstop)));
  return new Map([[backstop.ref, { backstop, isArmed }]]);
}

/**
 * The one case in which something is taken back before the new one is set: there is no other way to make room. One by
 * one, the nearest first, those that can still be taken back.
 */
async function armWithRoom(round: Round, backstop: Backstop): Promise<boolean> {
  const now = round.services.clock.now();
  const far = ({ postAt }: { readonly postAt: number }) => Math.abs(postAt - backstop.postAt);
  const others = [...round.rows.values()]
    .filter(
      ({ state, ref, postAt }) => state === 'armed' && ref !== backstop.ref && postAt - now >= FALSE_YES_MS,
    )
    .sort((x, y) => far(x) - far(y));
  for (const other of others) {
    await withdraw(round, other);
    const armed = await arm(round, backstop);
    if (armed !== 'crowded') return armed === 'armed';
  }
  const row = round.rows.get(backstop.ref);
  if (row) await refuse(round, row, row.why);
  return false;
}
