import { describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { holdsOf } from '../../src/flow/holds.ts';
import { plainText } from '../../src/message/plain-text.ts';
import { conditionsMessage } from '../../src/views/conditions.ts';
import { type Play, ready } from '../flow/harness.ts';

const texts = loadTexts().textsFor('en');
const words = (play: Play) => plainText(conditionsMessage({ shift: play.state, texts, now: play.now }));

function measured(reading: { airC: number; rhPct: number; wbgtC?: number }): Play {
  const play = ready();
  play.at('11:00').do({ type: 'take-reading', steelC: reading.airC, ...reading });
  return play;
}

describe('CO9 what the air is to people', () => {
  test('CO9 32 °C and 60 % are a heat index of 37.1 °C (NWS), said upwards with its band, and rest and water', () => {
    const said = words(measured({ airC: 32, rhPct: 60 }));
    expect(said).toContain('Heat index: 38 °C in shade: extreme caution');
    expect(said).toContain('drink a cup of water');
  });

  test('CO9 cool air says nothing of heat', () => {
    expect(words(measured({ airC: 18, rhPct: 60 }))).not.toMatch(/heat/i);
  });

  test('CO9 a measured WBGT counts in the coveralls of the site against the NIOSH limits at 300 W', () => {
    // 56.7 − 11.5 log10(300) = 28.2 and 59.9 − 14.1 log10(300) = 24.9 °C; a vapour barrier counts as 11 °C more (from memory).
    const said = words(measured({ airC: 26, rhPct: 50, wbgtC: 22 }));
    expect(said).toContain(
      '22 °C, counts as 33 °C in vapour-barrier coveralls. Limit 28.2 °C; 24.9 °C for people',
    );
    expect(said).toContain('!!');
  });

  test('CO9 heat is no hold: the foreman decides', () => {
    const play = measured({ airC: 33, rhPct: 60, wbgtC: 30 });
    expect(holdsOf(play.state, play.now).map(({ kind }) => kind)).not.toContain('heat');
    expect(words(play)).toContain('the foreman decides');
  });
});
