import { describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { announcements } from '../../src/views/announce.ts';
import { rungBeforeMessage } from '../../src/views/rung-before.ts';
import { briefed, mixed, type Play } from '../flow/harness.ts';
import { t } from '../flow/pack.ts';

const { textsFor } = loadTexts();
const viewOf = (play: Play, language = 'en') => ({
  shift: play.state,
  texts: textsFor(language),
  now: play.now,
});

/** The messages that ring for the crew until then, with the time at which each of them was queued. */
function rungUntil(play: Play, until: string, kind = '') {
  const from = play.journal.length;
  const before = play.state;
  play.ringUntil(until);
  return play.journal.slice(from).flatMap((event) => {
    const said = announcements(before, play.state, [event], textsFor);
    const crews = said.find(
      ({ audience, key }) => audience.kind === 'crew' && key.startsWith(`bell:${kind}`),
    );
    return crews ? [{ key: crews.key, rangAt: event.at }] : [];
  });
}

describe('what is left of a ring that was followed by another one', () => {
  test.each([
    ['en', 'Call 2 at 09:50: Rig One, start the flush. Rang again at 09:54, below.'],
    ['es', '2.ª llamada de las 09:50: Rig One, empezar el lavado. Volvió a sonar a las 09:54, más abajo.'],
    ['pt', '2.ª chamada das 09:50: Rig One, começar a lavar. Tocou outra vez às 09:54, mais abaixo.'],
    ['pl', '2. wezwanie z 09:50: Rig One, zacznij płukanie. Ponowiono o 09:54, niżej.'],
  ])('BE12 says which call it was, of what, when, and when it rang again (%s)', (language, line) => {
    const play = mixed();
    const [, second, third] = rungUntil(play, '09:55', 'start-flush');
    if (!second || !third) throw new Error('the bell does not ring three times');
    const said = rungBeforeMessage(viewOf(play, language), { ...second, againAt: third.rangAt });
    expect(said?.summary).toBe(line);
    expect(said?.blocks.map(({ kind }) => kind)).toEqual(['paragraph']);
  });

  test('BE12 a bell that is about nothing in particular is named alone', () => {
    const play = briefed();
    const [first, second] = rungUntil(play, '07:59', 'unsigned');
    if (!first || !second) throw new Error('the bell does not ring twice');
    const said = rungBeforeMessage(viewOf(play), { ...first, againAt: second.rangAt });
    expect(said?.summary).toMatch(
      /^Call 1 at \d\d:\d\d: sign-off chased\. Rang again at \d\d:\d\d, below\.$/,
    );
  });

  test('BE12 a ring from before the bell moved later has no number: it counts anew', () => {
    const play = mixed().at('08:30');
    play.do({ type: 'pot-temperature', rig: 'rig-1', c: 30 }, 'max');
    const [first] = rungUntil(play, '09:02', 'start-flush');
    if (!first) throw new Error('the bell does not ring');
    play.do({ type: 'pot-temperature', rig: 'rig-1', c: 20 }, 'max');
    rungUntil(play, '09:55', 'start-flush');
    const said = rungBeforeMessage(viewOf(play), { ...first, againAt: t('09:02') });
    expect(said?.summary).toMatch(/^Call at \d\d:\d\d: Rig One, start the flush\./);
  });

  test('BE12 nothing else is taken for a bell, and every message of a bell is', () => {
    const play = mixed();
    const view = viewOf(play);
    for (const key of ['stop-work:12', 'undelivered:3', 'bell:no-such:bell:1', 'bell:start-flush'])
      expect(rungBeforeMessage(view, { key, rangAt: play.now, againAt: play.now })).toBeNull();
    const rings = rungUntil(play, '11:00');
    expect(new Set(rings.map(({ key }) => key.split(':')[1])).size).toBeGreaterThan(3);
    for (const ring of rings)
      expect(rungBeforeMessage(viewOf(play), { ...ring, againAt: play.now })).not.toBeNull();
  });
});
