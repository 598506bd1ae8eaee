import { strangeCodes } from '../../facts/hazard-codes.ts';
import { UNREAD } from '../../facts/round.ts';
import { type SheetDoubt, sheetDoubts } from '../../facts/sheet-doubts.ts';
import { selectKey, type UsedCoating, usedCoatings } from '../../facts/used.ts';
import type { CoatingSheet } from '../../model/coating-sheet.ts';
import { type Because, becauseCoating, distinct } from '../because.ts';
import type { Params } from '../caution.ts';
import type { CautionRule } from '../rule.ts';

/** What today's sheets leave out or say against themselves: everybody hears that the worst case is being assumed. */
export const notKnown: CautionRule = {
  id: 'not-known',
  grade: 'must',
  tasks: 'everybody',
  params: [],
  eachParams: ['coating', 'gap', 'codes'],
  questions: [
    { id: 'no-figure', choices: 3 },
    { id: 'two-answers', choices: 3 },
  ],
  find({ day }) {
    const found = usedCoatings(day).flatMap(gaps);
    if (found.length === 0) return null;
    return {
      params: {},
      each: found.map(({ row }) => row),
      because: distinct(found.map(({ fact }) => fact)),
    };
  },
};

function gaps({ name, sheet }: UsedCoating): readonly { readonly row: Params; readonly fact: Because }[] {
  const row = { coating: name, codes: UNREAD };
  if (!sheet) return [{ row: { ...row, gap: 'no_sheet' }, fact: becauseCoating(name, 'name', null) }];
  const strange = strangeCodes(sheet.hazards).join(', ');
  return sheetDoubts(sheet).map((doubt) => ({
    row: { ...row, gap: selectKey(doubt), ...(doubt === 'strange-code' && { codes: strange }) },
    fact: cause(name, doubt, sheet),
  }));
}

/** The line of the sheet somebody has to look at. */
function cause(coating: string, doubt: SheetDoubt, sheet: CoatingSheet): Because {
  switch (doubt) {
    case 'pot-life':
      return becauseCoating(coating, 'potLife', null);
    case 'isocyanate-by-family':
      return becauseCoating(coating, 'family', sheet.family);
    case 'no-codes':
    case 'strange-code':
    case 'isocyanate-by-code':
    case 'isocyanate-by-h334':
    case 'isocyanate-uncoded':
    case 'flash-uncoded':
      return becauseCoating(coating, 'hazards', sheet.hazards);
  }
}
