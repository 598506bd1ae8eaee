import { type CautionLine, joinedTo, type PlacedText, placeOf } from './caution-lines.ts';
import { nearest } from './nearest.ts';

const sections = ['Why today', 'Each', 'Do', 'More', 'Ask'] as const;
type Section = (typeof sections)[number];

export interface QuestionParts {
  readonly id: PlacedText;
  ask: PlacedText | null;
  readonly right: PlacedText[];
  readonly wrong: PlacedText[];
  because: PlacedText | null;
}

export type Complain = (
  place: { readonly line: number; readonly column: number },
  field: string,
  found: string,
  message: string,
  write: string,
) => void;

export interface CautionParts {
  title: PlacedText | null;
  why: PlacedText | null;
  each: PlacedText | null;
  readonly steps: PlacedText[];
  readonly more: PlacedText[];
  readonly questions: QuestionParts[];
}

/** Puts the lines where they belong; a line that belongs nowhere is a problem, never left out. */
export function gather(lines: readonly CautionLine[], complain: Complain): CautionParts {
  const out: CautionParts = { title: null, why: null, each: null, steps: [], more: [], questions: [] };
  const seen = new Set<Section>();
  let section: Section | null = null;
  /** Takes what a text line continues; null after a blank line. */
  let open: ((next: PlacedText) => void) | null = null;
  const into = (list: PlacedText[], item: PlacedText) => {
    const i = list.push(item) - 1;
    open = (next) => {
      list[i] = joinedTo(list[i] ?? null, next);
    };
  };
  for (const { kind, at } of lines) {
    const question: QuestionParts | undefined = section === 'Ask' ? out.questions.at(-1) : undefined;
    const stray = (message: string, write: string) =>
      complain(placeOf(at, 0), section ?? '', at.text, message, write);
    switch (kind) {
      case 'blank':
        open = null;
        break;
      case 'bad':
        stray(
          'the mark at the beginning of this line is not complete',
          '"# ", "- ", "- [x] ", "- [ ] " or "> " with its space',
        );
        break;
      case 'title':
        if (out.title) stray('there is a second title', '## for the parts below the title');
        else out.title = at;
        break;
      case 'section': {
        const name: Section | undefined = sections.find((one) => one === at.text);
        open = null;
        if (!name) {
          const meant = nearest(at.text, sections);
          stray(
            'there is no part with this name',
            `${meant === null ? '' : `${meant}, if that was meant; `}one of ${sections.join(', ')}`,
          );
        } else if (seen.has(name)) stray('this part is there twice', 'it once, with all its lines');
        section = name ?? null;
        if (name) seen.add(name);
        break;
      }
      case 'question':
        open = null;
        if (section === 'Ask') out.questions.push({ id: at, ask: null, right: [], wrong: [], because: null });
        else stray('a question belongs under ## Ask', '## Ask on a line above it');
        break;
      case 'right':
      case 'wrong':
        if (question) into(question[kind], at);
        else stray('a choice belongs under a question', '### and a question id above it');
        break;
      case 'because':
        if (question) {
          question.because = joinedTo(question.because, at);
          open = (next) => {
            question.because = joinedTo(question.because, next);
          };
        } else stray('a reason (>) belongs under a question', 'it below the choices of a question');
        break;
      case 'bullet':
        if (section === 'Do') into(out.steps, at);
        else if (section === 'More') into(out.more, at);
        else
          stray(
            'a line with "- " does not belong here',
            '"- " under ## Do and ## More; choices begin with "- [x] " or "- [ ] "',
          );
        break;
      case 'text':
        if (open) open(at);
        else if (section === 'Why today') out.why = joinedTo(out.why, at);
        else if (section === 'Each') out.each = joinedTo(out.each, at);
        else if (question && question.right.length + question.wrong.length === 0 && !question.because)
          question.ask = joinedTo(question.ask, at);
        else stray('this line belongs to no part', 'it under a heading, or with "- " before it');
        break;
    }
  }
  return out;
}
