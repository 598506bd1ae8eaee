/**
 * The hazard statements there are, by number: physical, health and environmental ones of the UN Globally Harmonized System
 * (revision 9, annex 3) with those of Regulation (EC) No 1272/2008, annex III. From memory, to be held against both.
 */
const H_CODES: readonly (readonly [number, number])[] = [
  [200, 211],
  [220, 232],
  [240, 242],
  [250, 252],
  [260, 261],
  [270, 272],
  [280, 284],
  [290, 290],
  [300, 305],
  [310, 320],
  [330, 336],
  [340, 341],
  [350, 351],
  [360, 362],
  [370, 373],
  [400, 402],
  [410, 413],
  [420, 420],
];

/** The supplemental EU statements, annex II of the same regulation. From memory. */
const EUH_CODES = new Set([
  ...[14, 18, 19, 29, 31, 32, 44, 66, 70, 71],
  ...[201, 202, 203, 204, 205, 206, 207, 208, 209, 210, 211, 212],
  ...[380, 381, 401, 430, 431, 440, 441, 450, 451],
]);

/** Only the codes for genes, cancer and fertility come with letters: H350i, H360FD. */
const LETTERED: readonly [number, number] = [340, 361];
/** The two supplemental statements that have a second wording. */
const EUH_LETTERED = new Set(['EUH201A', 'EUH209A']);

/** Codes of the right shape that are in neither list: slips of copying, so that nobody knows what they stood for. */
export function strangeCodes(codes: readonly string[]): readonly string[] {
  return codes.filter((code) => !isKnown(code));
}

function isKnown(code: string): boolean {
  const number = Number(/\d{3}/.exec(code)?.[0]);
  const plain = /\d$/.test(code);
  if (code.startsWith('EUH')) return plain ? EUH_CODES.has(number) : EUH_LETTERED.has(code);
  if (!plain && (number < LETTERED[0] || number > LETTERED[1])) return false;
  return H_CODES.some(([first, last]) => number >= first && number <= last);
}
