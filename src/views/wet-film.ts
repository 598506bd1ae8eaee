import { wetFilmOf } from '../facts/wet-film.ts';
import type { CoatingSheet } from '../model/coating-sheet.ts';
import type { Texts } from '../texts/texts.ts';

/** The wet film to aim at with its band, and which way there is no room. */
export function wetFilmText(
  texts: Texts,
  sheet: Pick<CoatingSheet, 'volumeSolids' | 'dft'>,
  dftUm: number,
  thinnerPct: number,
): string {
  const { room, wftUm: wft, leastUm: least, mostUm: most } = wetFilmOf(sheet, dftUm, thinnerPct);
  switch (room) {
    case 'band':
      return texts.say('film.band', { wft, least, most });
    case 'thin':
      return texts.say('film.thin', { wft, least, most });
    case 'thick':
      return texts.say('film.thick', { wft, least, most });
    case 'exact':
      return texts.say('film.exact', { wft });
    case 'open':
      return texts.say('film.open', { wft });
  }
}
