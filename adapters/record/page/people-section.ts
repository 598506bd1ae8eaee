import type { PersonSummary } from '../summary/people.ts';
import { cautionTitle, questionText } from '../words.ts';
import { clock, type Page } from './context.ts';
import {
  alarm,
  type Cell,
  type Html,
  lines,
  name,
  named,
  type Row,
  section,
  table,
  tight,
  under,
} from './markup.ts';

/** Who signed which revision, how, and after which read-back; who did not. */
export function peopleSection(page: Page): Html {
  const { texts } = page;
  const heads = [
    named(texts.say('paper.sign.person')),
    tight(texts.say('paper.sign.revision')),
    named(texts.say('paper.sign.signed')),
    named(texts.say('paper.sign.how')),
    texts.say('paper.sign.read-back'),
  ];
  const rows = page.summary.people.flatMap((person) => personRows(page, person));
  return section(
    'sign-offs',
    texts.say('paper.sign.title'),
    table(heads, rows, texts.say('paper.page.none'), 'people'),
  );
}

function personRows(page: Page, one: PersonSummary): readonly Row[] {
  const { texts } = page;
  const roles = one.roles.map((role) => texts.say(`word.role.${role}`)).join(', ');
  const remarks = [
    roles,
    ...(one.arrivedAt ? [texts.say('paper.sign.arrived', { time: clock(page, one.arrivedAt) })] : []),
    ...(one.onShift ? [] : [texts.say('paper.sign.left')]),
  ];
  const who = [name(one.person.name), under(remarks.join(' · '))];
  const signed = one.signOffs.map(
    (signOff): Row => ({
      cells: [
        who,
        String(signOff.revision),
        clock(page, signOff.at),
        lines([
          signOff.witness
            ? texts.say('paper.sign.witnessed', { witness: signOff.witness.name, surface: signOff.by.from })
            : texts.say('paper.sign.by-self', { surface: signOff.by.from }),
          ...(signOff.shown
            ? [
                texts.say('paper.sign.read', {
                  language: languageName(texts, signOff.shown.language),
                  line: signOff.line,
                }),
              ]
            : []),
        ]),
        answers(page, one, signOff.revision),
      ],
    }),
  );
  if (one.unsigned.length === 0) return onlyFirstNamed(signed);
  const revision = page.shift.briefing.revision;
  const cautions = one.unsigned.map((id) => cautionTitle(texts, id)).join('; ');
  const nothing = one.unsigned.length === page.shift.briefing.cautions.length;
  const missing = nothing ? texts.say('paper.sign.nothing') : texts.say('paper.sign.missing', { cautions });
  const open: Row = {
    tone: 'alarm',
    cells: [who, String(revision), alarm(missing), '', answers(page, one, revision)],
  };
  return onlyFirstNamed([...signed, open]);
}

/** A person's name stands once, at the first of their rows. */
function onlyFirstNamed(rows: readonly Row[]): readonly Row[] {
  return rows.map((row, index) => (index === 0 ? row : { ...row, cells: ['', ...row.cells.slice(1)] }));
}

function answers({ texts }: Page, { answers }: PersonSummary, revision: number): Cell {
  const given = answers.filter((answer) => answer.revision === revision);
  if (given.length === 0) return texts.say('paper.sign.no-question');
  return lines(
    given.map(({ question, right, shown }) => {
      // As it stood there: the templates of today may ask otherwise, and in another language.
      const words = { question: shown?.text.split('\n')[0] ?? questionText(texts, question) };
      return right ? texts.say('paper.sign.right', words) : texts.say('paper.sign.wrong', words);
    }),
  );
}

function languageName({ locale }: Page['texts'], code: string): string {
  return new Intl.DisplayNames([locale], { type: 'language' }).of(code) ?? code;
}
