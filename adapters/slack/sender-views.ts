import type { View } from '@slack/types';
import type { Sent } from '../chat/outcome.ts';
import type { SenderServices } from './sender.ts';
import { answered, tried } from './sender-call.ts';

export interface OpenView {
  readonly id: string;
  /** Changes with each update; given back, it keeps an older update from overwriting a newer one. */
  readonly hash: string | null;
}

interface Answer {
  readonly view?: { readonly id?: string; readonly hash?: string };
}

/** Forms and the app's home. None waits for a turn: a trigger is good for 3 s only. */
export function viewing({ client }: Pick<SenderServices, 'client'>) {
  async function shown(call: () => Promise<Answer>): Promise<Sent<OpenView>> {
    const said = await tried(call);
    if (said.kind !== 'ok') return said;
    const { id, hash = null } = said.value.view ?? {};
    return answered(id === undefined ? undefined : { id, hash }, 'the form');
  }

  return {
    openView: (triggerId: string, view: View) =>
      shown(() => client.views.open({ trigger_id: triggerId, view })),
    /** On top of the form that the press came from. */
    pushView: (triggerId: string, view: View) =>
      shown(() => client.views.push({ trigger_id: triggerId, view })),
    updateView: ({ id, hash }: OpenView, view: View) =>
      shown(() => client.views.update({ view_id: id, view, ...(hash === null ? {} : { hash }) })),
    /** Without a hash it overwrites whatever is there. */
    publishHome: (userId: string, view: View, hash: string | null = null) =>
      shown(() => client.views.publish({ user_id: userId, view, ...(hash === null ? {} : { hash }) })),
  };
}
