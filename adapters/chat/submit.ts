import type { FormMetadata } from '../../src/chat/form-metadata.ts';
import type { FormRef } from '../../src/message/action.ts';
import type { FieldProblem, Form, FormValues } from '../../src/message/form.ts';
import type { Message } from '../../src/message/message.ts';
import { createDrafts } from './drafts.ts';
import { hashed } from './marks.ts';
import { answerTo, oldButton, unknownPerson } from './refused.ts';
import type { ChatServices } from './services.ts';
import { ask, formContext, type Visit, visitOf } from './visit.ts';

/** A form that somebody sent, as the platform verified it. */
export interface Submitted {
  readonly member: string;
  /** What it says about itself; null when it is not one of ours (old, cut or forged). */
  readonly meta: FormMetadata | null;
  /** What the platform calls this one opening of a form, the same on all its steps. */
  readonly sheet: string;
  /** Exactly as typed on this step. */
  values(): FormValues;
  /** How many steps the platform makes of a form. */
  steps(visit: Visit, form: Form): number;
}

/** What is to be shown instead of the form that was sent. */
export type Taken =
  | { readonly kind: 'shown'; readonly visit: Visit; readonly message: Message }
  /** The form's step `at`, from 0. */
  | (Onwards & { readonly kind: 'step'; readonly at: number })
  /** From its beginning, with what to mend, or why the flow did not take it. */
  | (Onwards & {
      readonly kind: 'again';
      readonly problems: readonly FieldProblem[];
      readonly refusal: Message | null;
    });

interface Onwards {
  readonly visit: Visit;
  readonly form: Form;
  /** Under this name is kept what was typed so far. */
  readonly draft: string;
  /** On all steps so far. */
  readonly typed: FormValues;
}

/** Takes a form: on to the next step, back with what is to be mended, or to the one door. */
export async function takeSubmit(services: ChatServices, sent: Submitted): Promise<Taken> {
  const { meta, sheet } = sent;
  const visit = await visitOf(services, sent.member);
  const shown = (message: Message): Taken => ({ kind: 'shown', visit, message });
  if (meta === null) return shown(oldButton(visit));
  const ref: FormRef = { id: meta.form, about: meta.about };
  // A form left open over night was about another day's rigs and paint.
  const now = visit.shift?.id ?? null;
  if (meta.shift !== undefined && meta.shift !== now && ref.id !== 'stop-work' && ref.id !== 'post-day')
    return shown(oldButton(visit));
  if (visit.person === null && ref.id !== 'stop-work') return shown(unknownPerson(visit));

  const drafts = createDrafts(services);
  const draft = meta.draft ?? sheet;
  const typed = { ...(await drafts.read(meta.draft)), ...sent.values() };
  const context = await formContext(services, visit);
  if (meta.step !== undefined && meta.step.at < meta.step.of) {
    await drafts.keep(draft, typed);
    // Without what was typed so far, or a group filled in meanwhile would move.
    const plain = services.buildForm(ref, context);
    if (!plain.ok) return shown(plain.shown);
    const { at } = meta.step;
    if (at < sent.steps(visit, plain.form))
      return { kind: 'step', visit, form: plain.form, draft, typed, at };
  }

  const built = services.buildForm(ref, context, typed);
  if (!built.ok) return shown(built.shown);
  const again = (problems: readonly FieldProblem[], refusal: Message | null): Taken => ({
    kind: 'again',
    visit,
    form: built.form,
    draft,
    typed,
    problems,
    refusal,
  });
  const read = services.readForm(ref, typed, context);
  if (!read.ok) return again(read.problems, null);
  const asked = await ask(services, visit, read.command, hashed([sheet, typed]));
  if (!asked.ok && asked.shown !== null) return again([], asked.shown);
  if (meta.draft !== undefined) await drafts.drop(meta.draft);
  return shown(answerTo(visit, read.command, asked));
}
