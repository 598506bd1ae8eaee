import type { FormRef } from '../../src/message/action.ts';
import { buttons, message } from '../../src/message/build.ts';
import type { Form } from '../../src/message/form.ts';
import type { Button } from '../../src/message/message.ts';
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
  const form = await formFor(services, show, visit, ref);
  if (form === null || (await show.openForm(visit, form))) return;
  // A button instead: with the press of its own it opens.
  await show.directly(visit, {
    ...words('attention', visit.texts.say('talk.form-late')),
    blocks: buttons(opening(form, ref)),
  });
}

/** Where no form can be opened from: a button for it, which says which form it is. */
export async function offerForm(
  services: ChatServices,
  show: Showing,
  visit: Visit,
  ref: FormRef,
): Promise<void> {
  const form = await formFor(services, show, visit, ref);
  if (form === null) return;
  const asks = visit.texts.say('talk.open-form', { form: form.title });
  await show.tell(visit, message(asks, 'plain', ...buttons(opening(form, ref))));
}

const opening = ({ title }: Form, form: FormRef): Button => ({
  label: title,
  tone: 'main',
  action: { kind: 'open', form },
});

/** Null: there is none for this person now, and they have been told why. */
async function formFor(
  services: ChatServices,
  show: Showing,
  visit: Visit,
  ref: FormRef,
): Promise<Form | null> {
  if (visit.person === null && ref.id !== 'stop-work') {
    await show.tell(visit, unknownPerson(visit));
    return null;
  }
  const { text } = ref.about;
  const typed = text === undefined ? undefined : { text };
  const built = services.buildForm(ref, await formContext(services, visit), typed);
  if (built.ok) return built.form;
  await show.tell(visit, built.shown);
  return null;
}
