import { clockTime } from '../../src/model/time.ts';
import { type AnyCrew, SHIFT } from './day.ts';
import { DATE, type Hands } from './hands.ts';

/**
 * What happened in a shift, a line each, as it must be in whichever chat: the surface, who the stranger is there and the
 * seconds that the platform's limits took are left out.
 */
export async function journalLines(
  hands: Pick<AnyCrew, 'potbell' | 'site'> & Pick<Hands, 'stranger' | 'surface'>,
  date = DATE,
): Promise<string> {
  const { timeZone } = hands.site.pack.site;
  const journal = await hands.potbell.store.journal(SHIFT(hands, date));
  return `${journal
    .map(({ event: { at, by, body } }) => {
      const facts = JSON.stringify(body, (key, value: unknown) => shown(key, value));
      const line = `${clockTime(at, timeZone)} ${JSON.stringify(by)} ${facts}`;
      return line
        .replaceAll(hands.stranger.id, 'stranger')
        .replaceAll(`"surface":"${hands.surface}"`, '"surface":"chat"');
    })
    .join('\n')}\n`;
}

/** The day and its briefing have golden files of their own; what was shown is words, instants differ by seconds. */
function shown(key: string, value: unknown): unknown {
  if (key === 'day' || key === 'briefing' || key === 'shown' || key === 'cautions') return undefined;
  return typeof value === 'number' && value > 1e12 ? 'instant' : value;
}
