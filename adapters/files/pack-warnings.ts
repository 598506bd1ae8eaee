import { strangeCodes } from '../../src/facts/hazard-codes.ts';
import { type SheetDoubt, sheetDoubts } from '../../src/facts/sheet-doubts.ts';
import type { CoatingSheet } from '../../src/model/coating-sheet.ts';
import { type Entry, problemAt } from './check-entry.ts';
import type { PackProblem } from './problem.ts';

/** A coating sheet that lacks something or disagrees with itself: the briefing takes the dangerous reading meanwhile. */
export function coatingWarnings(entry: Entry<'coatings'>): readonly PackProblem[] {
  const sheet = entry.value;
  if (!sheet) return [];
  return sheetDoubts(sheet).map((doubt) => {
    const { field, message, write } = doubtWords(doubt, sheet);
    return problemAt(entry, [field], message, write);
  });
}

interface DoubtWords {
  readonly field: 'isocyanate' | 'hazards' | 'flashPointC' | 'id';
  readonly message: string;
  readonly write: string;
}

const ISOCYANATE = 'isocyanate: true, or what section 2 and 3 of the safety data sheets of both parts say';

function doubtWords(doubt: SheetDoubt, sheet: CoatingSheet): DoubtWords {
  switch (doubt) {
    case 'pot-life':
      return {
        field: 'id',
        message:
          'this two-pack has no pot life; the briefing says to mix none of it, a batch counts as having no time',
        write: 'potLife: [{ c: 23, minutes: 120 }] with every line of the data sheet',
      };
    case 'no-codes':
      return {
        field: 'id',
        message: 'this coating has no hazard codes; the briefing treats what it does not know as hazardous',
        write:
          'hazards: [H226, H317] with the H-codes from section 2 of the safety data sheets of both parts',
      };
    case 'strange-code':
      return {
        field: 'hazards',
        message: `there is no hazard statement ${strangeCodes(sheet.hazards).join(', ')}; the briefing treats what it stood for as hazardous`,
        write: 'the H-codes from section 2 of the safety data sheets of both parts, copied again',
      };
    case 'isocyanate-by-code':
      return {
        field: 'isocyanate',
        message:
          'EUH204 says this coating contains isocyanates, this line says it does not; the briefing goes by EUH204',
        write: ISOCYANATE,
      };
    case 'isocyanate-by-family':
      return {
        field: 'isocyanate',
        message: 'a polyurethane without isocyanate is unusual; the briefing treats it as isocyanate',
        write: ISOCYANATE,
      };
    case 'isocyanate-by-h334':
      return {
        field: 'isocyanate',
        message:
          'H334 (allergy of the airways) is listed, as for isocyanate hardeners, but this line says there is none; the briefing treats it as isocyanate',
        write: ISOCYANATE,
      };
    case 'isocyanate-uncoded':
      return {
        field: 'hazards',
        message: 'isocyanate is true, but neither H334 nor EUH204 is listed; the briefing goes by isocyanate',
        write: 'the H-codes of the hardener as well',
      };
    case 'flash-uncoded':
      return {
        field: 'flashPointC',
        message:
          'a flash point up to 60 °C goes with H224, H225 or H226, none is listed; the briefing counts it as flammable',
        write: 'H226 (or what the safety data sheet says) in hazards, or the right flash point',
      };
  }
}

/** A rig whose weakest part nobody knows. */
export function rigWarnings(entry: Entry<'rigs'>): readonly PackProblem[] {
  const rig = entry.value;
  if (!rig) return [];
  const rated = new Set(rig.ratings.map((rating) => rating.part));
  const lacking = (['hose', 'gun'] as const).filter((part) => !rated.has(part));
  const doubts = lacking.map((part) =>
    problemAt(
      entry,
      ['id'],
      `no pressure rating of the ${part} is given; the briefing treats an unknown rating as not enough`,
      `- { part: ${part}, bar: 280 } under ratings, with the figure stamped on the ${part}`,
    ),
  );
  if (rig.drive !== 'air' && rig.ratio !== undefined)
    doubts.push(
      problemAt(
        entry,
        ['ratio'],
        `a ratio belongs to an air-driven rig, this one has ${rig.drive} drive; the ratio is not used`,
        'drive: air, or take the ratio out',
      ),
    );
  return doubts;
}
