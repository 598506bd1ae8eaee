import type { ModalView } from '@slack/types';
import type { Field, FieldProblem, Form } from '../../src/message/form.ts';
import { limits } from './limits.ts';
import { type FormOptions, formBlocks, renderForm, viewBytes } from './render-form.ts';

type Group = Extract<Field, { kind: 'group' }>;

interface Section {
  readonly head: Group | null;
  /** With the heading. */
  readonly fields: readonly Field[];
}

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
      problems: problemsOn(sheet, at === 0 ? form : null, options.problems ?? []),
      ...(at === 0 ? {} : { refusal: undefined }),
    }),
  );
}

/** Each sheet has its own problems on top; the first has them all, those of later sheets under their labels. */
function problemsOn(
  sheet: Form,
  whole: Form | null,
  problems: readonly FieldProblem[],
): readonly FieldProblem[] {
  const own = new Set(sheet.fields.map(({ name }) => name));
  if (whole === null) return problems.filter(({ field }) => own.has(field));
  const labels = new Map(whole.fields.map(({ name, label }) => [name, label]));
  return problems.map((problem) => {
    const label = labels.get(problem.field);
    return own.has(problem.field) || label === undefined
      ? problem
      : { ...problem, message: `${label}: ${problem.message}` };
  });
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

function sectionsOf(fields: readonly Field[]): readonly Section[] {
  const sections: { head: Group | null; fields: Field[] }[] = [];
  for (const field of fields) {
    const last = sections.at(-1);
    if (field.kind === 'group') sections.push({ head: field, fields: [field] });
    else if (last) last.fields.push(field);
    else sections.push({ head: null, fields: [field] });
  }
  return sections;
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
    return { head: group, fields: [group, ...fields.slice(1)] };
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
  const fits = (fields: readonly Field[], withIntro: boolean, most: number) => {
    const page = { ...form, intro: withIntro ? form.intro : [], fields };
    const blocks = formBlocks(page, { ...options, step: { at: 99, of: 99 } });
    return blocks.length <= most && viewBytes(blocks) <= limits.viewBytes.most - OWN_BYTES;
  };
  const whole = sections.flatMap(({ fields }) => fields);
  if (whole.length === 0) return [];
  if (fits(whole, intro, limits.blocksInModal.most)) return [whole];
  const pages: (readonly Field[])[] = [];
  const add = (fields: readonly Field[], most: number): boolean => {
    const last = pages.at(-1);
    if (!last || !fits([...last, ...fields], intro && pages.length === 1, most)) return false;
    pages.splice(-1, 1, [...last, ...fields]);
    return true;
  };
  for (const { fields } of sections) {
    if (add(fields, SHORT_STEP)) continue;
    if (fits(fields, intro && pages.length === 0, limits.blocksInModal.most)) pages.push(fields);
    else for (const field of fields) if (!add([field], limits.blocksInModal.most)) pages.push([field]);
  }
  return pages;
}
