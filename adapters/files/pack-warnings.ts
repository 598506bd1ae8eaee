import type { CoatingSheet } from '../../src/model/coating-sheet.ts';
import { type Entry, problemAt } from './check-entry.ts';
import type { PackProblem } from './problem.ts';

/** A coating sheet that disagrees with itself: the briefing takes the dangerous reading until it is mended. */
export function coatingWarnings(entry: Entry<'coatings'>): readonly PackProblem[] {
  const sheet = entry.value;
  if (!sheet) return [];
  return coatingDoubts(sheet).map((doubt) => problemAt(entry, [doubt.field], doubt.message, doubt.write));
}

interface Doubt {
  readonly field: 'isocyanate' | 'hazards' | 'flashPointC' | 'id';
  readonly message: string;
  readonly write: string;
}

/**
 * EUH204 is "Contains isocyanates", H334 the respiratory sensitiser, H224 to H226 the flammable liquids up to a flash
 * point of 60 °C: Regulation (EC) No 1272/2008, annexes I (2.6, 3.4) and II (2.4).
 */
function coatingDoubts(sheet: CoatingSheet): readonly Doubt[] {
  const codes = new Set(sheet.hazards);
  const doubts: Doubt[] = [];
  const sds = 'what section 2 and 3 of the safety data sheets of both parts say';
  if (sheet.hazards.length === 0)
    doubts.push({
      field: 'id',
      message: 'this coating has no hazard codes; the briefing treats what it does not know as hazardous',
      write: 'hazards: [H226, H317] with the H-codes from section 2 of the safety data sheets of both parts',
    });
  if (!sheet.isocyanate && codes.has('EUH204'))
    doubts.push({
      field: 'isocyanate',
      message:
        'EUH204 says this coating contains isocyanates, this line says it does not; the briefing goes by EUH204',
      write: `isocyanate: true, or ${sds}`,
    });
  else if (!sheet.isocyanate && sheet.family === 'polyurethane')
    doubts.push({
      field: 'isocyanate',
      message: 'a polyurethane without isocyanate is unusual; the briefing treats it as isocyanate',
      write: `isocyanate: true, or ${sds}`,
    });
  else if (!sheet.isocyanate && codes.has('H334'))
    doubts.push({
      field: 'isocyanate',
      message:
        'H334 (allergy of the airways) is listed, as for isocyanate hardeners, but this line says there is none',
      write: `isocyanate: true, or ${sds}`,
    });
  if (sheet.isocyanate && sheet.hazards.length > 0 && !codes.has('EUH204') && !codes.has('H334'))
    doubts.push({
      field: 'hazards',
      message: 'isocyanate is true, but neither H334 nor EUH204 is listed; the briefing goes by isocyanate',
      write: 'the H-codes of the hardener as well',
    });
  const flammable = ['H224', 'H225', 'H226'].some((code) => codes.has(code));
  if (sheet.flashPointC !== undefined && sheet.flashPointC <= 60 && sheet.hazards.length > 0 && !flammable)
    doubts.push({
      field: 'flashPointC',
      message:
        'a flash point up to 60 °C goes with H224, H225 or H226, none is listed; the briefing counts it as flammable',
      write: 'H226 (or what the safety data sheet says) in hazards, or the right flash point',
    });
  return doubts;
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
