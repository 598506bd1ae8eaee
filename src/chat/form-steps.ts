import type { Field, FieldProblem, Form } from '../message/form.ts';

export interface Section {
  readonly head: Extract<Field, { kind: 'group' }> | null;
  /** Without the heading. */
  readonly fields: readonly Field[];
}

/** Fields with the heading they stand under. */
export function sectionsOf(fields: readonly Field[]): readonly Section[] {
  const sections: { head: Section['head']; fields: Field[] }[] = [];
  for (const field of fields) {
    const last = sections.at(-1);
    if (field.kind === 'group') sections.push({ head: field, fields: [] });
    else if (last) last.fields.push(field);
    else sections.push({ head: null, fields: [field] });
  }
  return sections;
}

/** The heading and what stands under it. */
export function wholeSection({ head, fields }: Section): readonly Field[] {
  return head === null ? fields : [head, ...fields];
}

/** Each sheet has its own problems on top; the first has them all, those of later sheets under their labels. */
export function problemsOn(
  sheet: Form,
  whole: Form,
  at: number,
  problems: readonly FieldProblem[],
): readonly FieldProblem[] {
  const own = new Set(sheet.fields.map(({ name }) => name));
  if (at > 0) return problems.filter(({ field }) => own.has(field));
  const labels = new Map(whole.fields.map(({ name, label }) => [name, label]));
  return problems.map((problem) => {
    const label = labels.get(problem.field);
    return own.has(problem.field) || label === undefined
      ? problem
      : { ...problem, message: `${label}: ${problem.message}` };
  });
}

/**
 * Sections on as few sheets as `holds` allows. Only a section too long for any sheet is cut inside. `at` is the number of
 * the sheet from 0; `shared` is true where sections would share it, which may be held shorter.
 */
export function packSections(
  sections: readonly Section[],
  holds: (fields: readonly Field[], at: number, shared: boolean) => boolean,
): readonly (readonly Field[])[] {
  const sheets: (readonly Field[])[] = [];
  const add = (fields: readonly Field[], shared: boolean): boolean => {
    const last = sheets.at(-1);
    if (!last || !holds([...last, ...fields], sheets.length - 1, shared)) return false;
    sheets.splice(-1, 1, [...last, ...fields]);
    return true;
  };
  for (const section of sections) {
    const whole = wholeSection(section);
    if (add(whole, true)) continue;
    if (holds(whole, sheets.length, false)) sheets.push(whole);
    else for (const field of whole) if (!add([field], false)) sheets.push([field]);
  }
  return sheets;
}
