import type { FormRef } from '../../src/message/action.ts';
import { words } from './messages.ts';
import { unknownPerson } from './refused.ts';
import type { ChatServices } from './services.ts';
import type { Showing } from './showing.ts';
import { formContext, type Visit } from './visit.ts';

/** Opens a form over what somebody looks at. What was typed before it, `about.text`, stands in its field `text`. */
export async function openForm(
  services: ChatServices,
  show: Showing,
  visit: Visit,
  ref: FormRef,
): Promise<void> {
  if (visit.person === null && ref.id !== 'stop-work') return show.tell(visit, unknownPerson(visit));
  const { text } = ref.about;
  const typed = text === undefined ? undefined : { text };
  const built = services.buildForm(ref, await formContext(services, visit), typed);
  if (!built.ok) return show.tell(visit, built.shown);
  if (await show.openForm(visit, built.form)) return;
  // A button instead: with the press of its own it opens.
  const again = {
    label: built.form.title,
    tone: 'main',
    action: { kind: 'open', form: ref },
  } as const;
  await show.directly(visit, {
    ...words('attention', visit.texts.say('talk.form-late')),
    blocks: [{ kind: 'buttons', buttons: [again] }],
  });
}
