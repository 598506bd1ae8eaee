import type { ModalView } from '@slack/types';
import {
  packSections,
  problemsOn,
  type Section,
  sectionsOf,
  wholeSection,
} from '../../src/chat/form-steps.ts';
import type { Field, Form } from '../../src/message/form.ts';
import { limits } from './limits.ts';
import { type FormOptions, formBlocks, renderForm, viewBytes } from './render-form.ts';

type Group = NonNullable<Section['head']>;

/** A form that has to be cut anyway is cut into sheets a thumb gets through. */
const SHORT_STEP = 30;
/** For what the view holds besides its blocks. */
const OWN_BYTES = 10_000;

/** A form as modals one after the other. The answers of all of them together are the answers to the form. */
export function renderFormSteps(
  form: Form,
  options: Omit<FormOptions, 'step'>,
): readonly { readonly view: ModalView }[] {
  const forms = formSteps(form, options);
  if (forms.length === 1) return [renderForm(form, options)];
  return forms.map((sheet, at) =>
    renderForm(sheet, {
      ...options,
      step: { at: at + 1, of: forms.length },
      problems: problemsOn(sheet, form, at, options.problems ?? []),
      ...(at === 0 ? {} : { refusal: undefined }),
    }),
  );
}

/**
 * The form in as many forms as it takes, each field in one of them. Folded groups come last, unless something is filled
 * in there or is to be mended. Only the first has the intro. From one sheet to the next take the form without what was
 * typed so far, or a group filled in meanwhile would move; after a problem begin again with what was typed.
 */
export function formSteps(form: Form, options: Omit<FormOptions, 'step'>): readonly Form[] {
  const mend = new Set((options.problems ?? []).map(({ field }) => field));
  const all = named(sectionsOf(form.fields));
  const folded = all.filter(
    ({ head, fields }) => head?.folded === true && !fields.some((one) => isOpen(one, mend)),
  );
  const first = all.filter((section) => !folded.includes(section));
  const pages = [
    ...pagesOf(form, first, options, form.intro.length > 0),
    ...pagesOf(form, folded, options, false),
  ];
  if (pages.length === 0) return [form];
  return pages.map((fields, at) => ({ ...form, intro: at === 0 ? form.intro : [], fields }));
}

/** A folded group says what it belongs to: on a sheet of its own "If needed" alone would not tell which job. */
function named(sections: readonly Section[]): readonly Section[] {
  let over: Group | null = null;
  return sections.map((section) => {
    const { head, fields } = section;
    if (head?.folded !== true) {
      over = head;
      return section;
    }
    const group: Group =
      over === null || !head.name.startsWith(`${over.name}.`)
        ? head
        : { ...head, label: `${over.label}: ${head.label}` };
    return { head: group, fields };
  });
}

function isOpen(field: Field, mend: ReadonlySet<string>): boolean {
  if (field.kind === 'group') return false;
  const filled = field.kind === 'choices' ? field.value.length > 0 : (field.value ?? '') !== '';
  return filled || mend.has(field.name);
}

/** Sections on one sheet where they fit, else on short ones. Only a section too long for any sheet is cut inside. */
function pagesOf(
  form: Form,
  sections: readonly Section[],
  options: Omit<FormOptions, 'step'>,
  intro: boolean,
): readonly (readonly Field[])[] {
  const whole = sections.flatMap(wholeSection);
  if (whole.length === 0) return [];
  const fits = (fields: readonly Field[], at: number, most: number) => {
    const page = { ...form, intro: intro && at === 0 ? form.intro : [], fields };
    const blocks = formBlocks(page, { ...options, step: { at: 99, of: 99 } });
    return blocks.length <= most && viewBytes(blocks) <= limits.viewBytes.most - OWN_BYTES;
  };
  const most = limits.blocksInModal.most;
  if (fits(whole, 0, most)) return [whole];
  return packSections(sections, (fields, at, shared) => fits(fields, at, shared ? SHORT_STEP : most));
}
