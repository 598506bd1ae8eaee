import { describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { plainText } from '../../src/message/plain-text.ts';
import type { JournalEvent } from '../../src/model/event.ts';
import type { Units } from '../../src/units/quantity.ts';
import { announcements } from '../../src/views/announce.ts';
import { pagePanels } from '../../src/views/pages.ts';
import { mixed, type Play } from '../flow/harness.ts';
import { aPack } from '../flow/pack.ts';

const METRIC = /\d\s?(?:°C|bar\b|µm|m²|m³|mm\b|L\b|m\/s|m\b)/u;
const US = /\d\s?(?:°F|psi\b|mil\b|ft²|ft³|in\b|gal\b|mph\b|ft\b)/u;

/** Everything people read on a day with a reading, a batch, a warm hose, a bell and a flush. */
function read(units: Units): readonly string[] {
  const { textsFor } = loadTexts(undefined, { units });
  const pack = aPack();
  const play: Play = mixed();
  play.at('08:30').do({ type: 'hose-temperature', rig: 'rig-1', c: 31 });
  play.do({ type: 'take-reading', airC: 24, rhPct: 60, steelC: 22.5 });
  play.do({ type: 'start-flush', rig: 'rig-1' });
  const texts = textsFor('en');
  const said = announcements(null, play.state, play.journal as readonly JournalEvent[], textsFor);
  const pages = (['today', 'briefing', 'sign-off', 'emergency', 'notices', 'record'] as const).flatMap(
    (page) =>
      pagePanels(page, { pack, shift: play.state, now: play.now, texts, viewer: 'finn' }).map(
        ({ message }) => message,
      ),
  );
  return [...said.map(({ message }) => message), ...pages].map(plainText);
}

describe('a site reads its own units and no others', () => {
  test('metric', () => {
    const all = read('metric').join('\n');
    expect(all).toMatch(METRIC);
    expect(all.split('\n').filter((line) => US.test(line))).toEqual([]);
  });

  test('us', () => {
    const all = read('us').join('\n');
    expect(all).toMatch(US);
    expect(all.split('\n').filter((line) => METRIC.test(line))).toEqual([]);
  });
});
