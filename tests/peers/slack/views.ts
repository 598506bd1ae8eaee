/** The views that people have open: making, replacing, stacking. */

import { startValues } from './fill.ts';
import { type Dict, dicts, isDict, text } from './json.ts';
import { checked, json, Refused } from './methods/method.ts';
import type { Workspace } from './state.ts';
import type { ViewState } from './types.ts';
import { withIds } from './wire.ts';

/** docs.slack.dev/surfaces/modals: three views at most in one stack. */
const DEEPEST = 3;

/** The `view` argument, checked against every limit. */
export function viewIn(args: Dict, kind: 'modal' | 'home'): Dict {
  const view = json(args, 'view', 'invalid_arguments');
  if (!isDict(view)) {
    throw new Refused('invalid_arguments', {
      response_metadata: { messages: ['[ERROR] missing required field: view'] },
    });
  }
  checked(kind, view);
  return view;
}

export function everyView(space: Workspace): ViewState[] {
  return [...space.homes.values(), ...[...space.modals.values()].flat()];
}

function hash(space: Workspace): string {
  return `${Math.floor(space.clock.now() / 1000)}.${String(space.ids.count('hash')).padStart(8, '0')}`;
}

function unusedName(space: Workspace, externalId: string, self: ViewState | null): void {
  if (externalId === '') return;
  if (everyView(space).some((one) => one !== self && one.externalId === externalId)) {
    throw new Refused('duplicate_external_id');
  }
}

export function makeView(space: Workspace, user: string, sent: Dict, under: ViewState | null): ViewState {
  const externalId = text(sent.external_id);
  unusedName(space, externalId, null);
  const id = space.ids.id('V');
  const view = { ...sent, blocks: withIds(space, dicts(sent.blocks)) };
  return {
    id,
    user,
    type: sent.type === 'home' ? 'home' : 'modal',
    hash: hash(space),
    externalId,
    rootId: under?.rootId ?? id,
    previousId: under?.id ?? null,
    view,
    typed: startValues(view),
    errors: {},
  };
}

/** Puts a new payload into a view. What was typed stays where block_id and action_id stay. */
export function replaceView(space: Workspace, state: ViewState, sent: Dict): void {
  const externalId = text(sent.external_id);
  unusedName(space, externalId, state);
  const view = { ...sent, blocks: withIds(space, dicts(sent.blocks)) };
  const values = startValues(view);
  for (const [blockId, actions] of Object.entries(values)) {
    for (const [actionId, value] of Object.entries(actions)) {
      const before = state.typed[blockId]?.[actionId];
      if (before !== undefined && before.type === value.type) actions[actionId] = before;
    }
  }
  state.view = view;
  state.externalId = externalId;
  state.typed = values;
  state.errors = {};
  state.hash = hash(space);
}

export function stackOf(space: Workspace, user: string): ViewState[] {
  return space.modals.get(user) ?? [];
}

export function pushView(space: Workspace, user: string, sent: Dict): ViewState {
  const stack = stackOf(space, user);
  if (stack.length >= DEEPEST) throw new Refused('push_limit_reached');
  const view = makeView(space, user, sent, stack.at(-1) ?? null);
  space.modals.set(user, [...stack, view]);
  return view;
}

export function popView(space: Workspace, user: string): void {
  space.modals.set(user, stackOf(space, user).slice(0, -1));
}
