/** trigger_id and response_url: what an app gets for answering one thing that a person did. */
import { Refused } from './methods/method.ts';
import type { ResponseUrl, Trigger, Workspace } from './state.ts';

/** docs.slack.dev/reference/methods/views.open: 3 seconds, one use. */
const TRIGGER_LIFE = 3000;
/** docs.slack.dev/interactivity/handling-user-interaction: 5 uses within 30 minutes. */
const RESPONSE_USES = 5;
const RESPONSE_LIFE = 30 * 60_000;

export function mintTrigger(space: Workspace, user: string, viewId: string | null): string {
  const number = space.ids.count('trigger');
  const id = `${13345000000 + number}.${738474920}.${String(number).padStart(12, 'a')}`;
  space.triggers.set(id, { user, madeAt: space.clock.now(), used: false, viewId });
  return id;
}

export function exchange(space: Workspace, id: string): Trigger {
  const trigger = space.triggers.get(id);
  if (trigger === undefined) throw new Refused('invalid_trigger_id');
  if (trigger.used) throw new Refused('exchanged_trigger_id');
  if (space.clock.now() - trigger.madeAt > TRIGGER_LIFE) throw new Refused('expired_trigger_id');
  trigger.used = true;
  return trigger;
}

/** The last part of a response_url. */
export function mintResponse(
  space: Workspace,
  to: Pick<ResponseUrl, 'user' | 'channel' | 'messageTs'>,
): string {
  const id = space.ids.id('R');
  space.responseUrls.set(id, { ...to, madeAt: space.clock.now(), uses: 0 });
  return id;
}

export function spendResponse(space: Workspace, id: string): ResponseUrl | 'expired_url' | 'used_url' {
  const found = space.responseUrls.get(id);
  if (found === undefined || space.clock.now() - found.madeAt > RESPONSE_LIFE) return 'expired_url';
  if (found.uses >= RESPONSE_USES) return 'used_url';
  found.uses += 1;
  return found;
}
