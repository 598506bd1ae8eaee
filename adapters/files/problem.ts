/** One thing wrong in a file somebody wrote, said so that they can mend it without asking. */
export interface PackProblem {
  readonly file: string;
  /** From 1. */
  readonly line: number;
  /** From 1. */
  readonly column: number;
  /** Dotted path, e.g. "coatings.epoxy-mid.potLife.#2.c"; '' when it is about the whole file. */
  readonly field: string;
  /** What stood there, shortened; '' when nothing did. */
  readonly found: string;
  /** What is wrong. */
  readonly message: string;
  /** What to write or do instead. */
  readonly write: string;
}

const LONGEST_FOUND = 40;

/** What stood in a file, on one line, without control characters, at most 40 characters. */
export function shorten(text: string): string {
  const flat = text.replace(/[\p{Cc}\s]+/gu, ' ').trim();
  return flat.length <= LONGEST_FOUND ? flat : `${flat.slice(0, LONGEST_FOUND - 1)}…`;
}

/** `file:line:column field: message. Found "x". Write: y` */
export function formatProblem(problem: PackProblem): string {
  const where = `${problem.file}:${problem.line}:${problem.column}`;
  const field = problem.field === '' ? '' : ` ${problem.field}`;
  const found = problem.found === '' ? 'Found nothing.' : `Found "${problem.found}".`;
  // A name in the file can hold a character that would upset a terminal.
  return `${where}${field}: ${problem.message}. ${found} Write: ${problem.write}`.replace(/\p{Cc}+/gu, ' ');
}

/** By file (those of `order` first, in that order), then by line and column. */
export function inReadingOrder(
  problems: readonly PackProblem[],
  order: readonly string[] = [],
): readonly PackProblem[] {
  const files = [...new Set([...order, ...problems.map((problem) => problem.file)])];
  return [...problems].sort(
    (a, b) => files.indexOf(a.file) - files.indexOf(b.file) || a.line - b.line || a.column - b.column,
  );
}
