import type { CautionWords, QuestionWords } from '../../src/texts/texts.ts';
import type { Units } from '../../src/units/quantity.ts';
import { cautionLines, type PlacedText, placeOf } from './caution-lines.ts';
import { type Complain, gather } from './caution-parts.ts';
import { type CompiledText, compileText, type Guard, unguarded, type Writing } from './compile-text.ts';
import { type PackProblem, shorten } from './problem.ts';

/** The words of one caution in one language, with what a check needs to know of them. */
export interface CautionFile {
  readonly words: CautionWords;
  readonly placeholders: {
    readonly reason: readonly string[];
    /** Null when the caution has no "Each". */
    readonly each: readonly string[] | null;
    readonly steps: readonly string[];
  };
  readonly steps: number;
  readonly questions: readonly { readonly id: string; readonly choices: number }[];
}

export interface ParsedCaution {
  /** Null when there is a problem. */
  readonly caution: CautionFile | null;
  readonly problems: readonly PackProblem[];
}

/** At most ten: a choice is one digit. */
const MOST_CHOICES = 10;
/** With one question alone, a wrong answer would bring the same one again. */
const FEWEST_OWN_QUESTIONS = 2;

/**
 * The words of a caution from its Markdown: `# title`, `## Why today`, `## Each`, `## Do`, `## More`, `## Ask` with a
 * `### question-id` for each question. Each, More and Ask may be left out. Numbers and names come in braces, in
 * "Why today", "Each" and "Do" only. `guard` is put around every text that is filled later. `own`: a caution of a site,
 * which is given no numbers and must have questions.
 */
export function parseCaution(
  file: string,
  text: string,
  writing: Writing | string,
  guard: Guard = unguarded,
  units: Units = 'metric',
  own = false,
): ParsedCaution {
  const problems: PackProblem[] = [];
  const complain: Complain = (place, field, found, message, write) => {
    problems.push({
      file,
      line: place.line,
      column: place.column,
      field,
      found: shorten(found),
      message,
      write,
    });
  };
  const first = { line: 1, column: 1 };
  const raw = gather(cautionLines(text), complain);

  const open = text.lastIndexOf('<!--');
  if (open >= 0 && text.indexOf('-->', open) < 0)
    complain(
      { line: text.slice(0, open).split('\n').length, column: 1 },
      '',
      '<!--',
      'a comment is not closed',
      '-->',
    );

  const compiled = (placedText: PlacedText, field: string): CompiledText | null => {
    const result = compileText(placedText.text, writing, units);
    if (result.ok) return guard(result.text, `${file}: ${field}`);
    const { offset, message, write } = result.fault;
    complain(placeOf(placedText, offset), field, placedText.text, message, write);
    return null;
  };
  const bare = (placedText: PlacedText, field: string): CompiledText | null => {
    const result = compiled(placedText, field);
    const name = result?.placeholders[0];
    if (name === undefined) return result;
    const where = own ? 'a caution of the site has none' : 'placeholders belong into Why today, Each and Do';
    complain(
      placeOf(placedText, Math.max(placedText.text.indexOf(`{${name}`), 0)),
      field,
      placedText.text,
      `nothing is given for the placeholder {${name}} here`,
      `the words alone; ${where}`,
    );
    return null;
  };
  const fixed = (placedText: PlacedText, field: string): string => bare(placedText, field)?.fill({}) ?? '';
  const filled = own ? bare : compiled;

  if (!raw.title)
    complain(first, 'title', '', 'the title is missing', '# and a space and a few words, as the first line');
  if (!raw.why)
    complain(first, 'Why today', '', 'this part is missing', '## Why today, then why it applies today');
  if (raw.steps.length === 0)
    complain(
      first,
      'Do',
      '',
      'there is nothing to do',
      '## Do, then one line for each step, beginning with "- "',
    );
  const title = raw.title ? fixed(raw.title, 'title') : '';
  const reason = raw.why ? filled(raw.why, 'Why today') : null;
  const each = raw.each ? filled(raw.each, 'Each') : null;
  const steps = raw.steps.flatMap((step) => filled(step, 'Do') ?? []);
  if (own && raw.each)
    complain(
      placeOf(raw.each, 0),
      'Each',
      raw.each.text,
      'a caution of the site has no rows, this would not be shown',
      'these words under ## Why today, and take ## Each out',
    );
  if (own && raw.questions.length < FEWEST_OWN_QUESTIONS)
    complain(
      first,
      'Ask',
      '',
      `there are fewer than ${FEWEST_OWN_QUESTIONS} questions to read back`,
      '## Ask with two questions: ### and an id, the question, its choices and > why',
    );
  const more = raw.more.map((line) => fixed(line, 'More'));
  const questions = new Map<string, QuestionWords>();
  for (const question of raw.questions) {
    const id = question.id.text;
    const field = `Ask.${id}`;
    const at = placeOf(question.id, 0);
    const say = (message: string, write: string) => complain(at, field, id, message, write);
    if (!/^[a-z0-9][a-z0-9-]{0,39}$/.test(id))
      say('this is not a question id', 'small letters, digits and hyphens');
    if (questions.has(id)) say('this question id is used twice', 'another id');
    if (!question.ask) say('the question itself is missing', 'the question, on the line below');
    if (question.right.length !== 1)
      say(`${question.right.length} choices are marked as right`, '- [x] before the one right choice');
    if (question.wrong.length === 0)
      say('there is no wrong choice', '- [ ] and a wrong choice, once or more often');
    if (question.right.length + question.wrong.length > MOST_CHOICES)
      say(`there are more than ${MOST_CHOICES} choices`, `at most ${MOST_CHOICES}; two or three are best`);
    if (!question.because) say('the reason is missing', '> because, and why the right choice is right');
    questions.set(id, {
      ask: question.ask ? fixed(question.ask, field) : '',
      choices: [...question.right, ...question.wrong].map((choice) => fixed(choice, field)),
      because: question.because ? fixed(question.because, field) : '',
    });
  }

  if (problems.length > 0 || !reason) return { caution: null, problems };
  const words: CautionWords = {
    title,
    more,
    reason: (params) => reason.fill(params),
    each: (params) => each?.fill(params) ?? null,
    steps: (params) => steps.map((step) => step.fill(params)),
    question(id) {
      const found = questions.get(id);
      if (!found) throw new Error(`There is no question "${id}" in ${file}. Write it there under ## Ask.`);
      return found;
    },
  };
  const caution: CautionFile = {
    words,
    placeholders: {
      reason: reason.placeholders,
      each: each?.placeholders ?? null,
      steps: [...new Set(steps.flatMap((step) => step.placeholders))].sort(),
    },
    steps: steps.length,
    questions: [...questions].map(([id, question]) => ({ id, choices: question.choices.length })),
  };
  return { caution, problems };
}
