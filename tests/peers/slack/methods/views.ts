/** views.open, update, push, publish. Errors: docs.slack.dev/reference/methods/views.*. */
import { dict, text } from '../json.ts';
import type { Workspace } from '../state.ts';
import { exchange } from '../triggers.ts';
import type { ViewState } from '../types.ts';
import { everyView, makeView, pushView, replaceView, stackOf, viewIn } from '../views.ts';
import { viewShape } from '../wire.ts';
import { json, type Method, need, Refused } from './method.ts';

const shown = (space: Workspace, view: ViewState) => ({ view: viewShape(space, view) });

const open: Method = ({ space }, args) => {
  const sent = viewIn(args, 'modal');
  const { user } = exchange(space, need(args, 'trigger_id'));
  // From memory, not confirmed: opening over an open stack starts a new one.
  space.modals.set(user, []);
  const view = makeView(space, user, sent, null);
  space.modals.set(user, [view]);
  return shown(space, view);
};

const push: Method = ({ space }, args) => {
  const sent = viewIn(args, 'modal');
  const trigger = exchange(space, need(args, 'trigger_id'));
  if (trigger.viewId === null || stackOf(space, trigger.user).length === 0) throw new Refused('not_found');
  return shown(space, pushView(space, trigger.user, sent));
};

const update: Method = ({ space }, args) => {
  const id = text(args.view_id);
  const external = text(args.external_id);
  if (id === '' && external === '') need(args, 'view_id');
  const view = everyView(space).find((one) => (id === '' ? one.externalId === external : one.id === id));
  if (view === undefined) throw new Refused('not_found');
  const kind = dict(json(args, 'view', 'invalid_arguments')).type === 'home' ? 'home' : 'modal';
  const sent = viewIn(args, kind);
  if (kind !== view.type) throw new Refused('invalid_arguments');
  sameHash(args.hash, view);
  replaceView(space, view, sent);
  return shown(space, view);
};

const publish: Method = ({ space }, args) => {
  const userId = need(args, 'user_id');
  const user = space.users.get(userId);
  if (user === undefined || user.isBot === true) throw new Refused('user_not_found');
  const sent = viewIn(args, 'home');
  const before = space.homes.get(userId);
  if (before !== undefined) {
    sameHash(args.hash, before);
    replaceView(space, before, sent);
    return shown(space, before);
  }
  const view = makeView(space, userId, sent, null);
  space.homes.set(userId, view);
  return shown(space, view);
};

function sameHash(given: unknown, view: ViewState): void {
  const hash = text(given);
  if (hash !== '' && hash !== view.hash) throw new Refused('hash_conflict');
}

export const VIEWS: { readonly [method: string]: Method } = {
  'views.open': open,
  'views.push': push,
  'views.update': update,
  'views.publish': publish,
};
