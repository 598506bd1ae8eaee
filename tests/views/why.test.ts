import { describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { pagePanels } from '../../src/views/pages.ts';
import { whyItems } from '../../src/views/why/index.ts';
import { mixed, type Play, posted } from '../flow/harness.ts';

const texts = loadTexts().textsFor('en');
const itemsOf = (play: Play) => whyItems({ shift: play.state, texts, now: play.now });

function whole(): Play {
  const play = mixed({ surroundings: 'enclosed', space: { volumeM3: 60, airM3PerMin: 20 } });
  play.at('08:40').do({ type: 'take-reading', airC: 30, wetC: 24, steelC: 29, wbgtC: 26 });
  return play;
}

describe('where the figures come from', () => {
  test('every kind of figure that people see on a day with paint in a line can be followed', () => {
    const topics = new Set(itemsOf(whole()).map(({ topic }) => topic));
    for (const topic of [
      'margin',
      'heat-index',
      'wbgt',
      'wet-film',
      'litres',
      'kit',
      'pressure',
      'flush',
      'pot-life',
      'vapour-air',
      'vapour-fill',
    ])
      expect([...topics]).toContain(topic);
  });

  test('each says its result, at least one input, a formula with figures in it, and a source', () => {
    for (const { topic, result, inputs, formula, source } of itemsOf(whole())) {
      expect(result, topic).toMatch(/\d/);
      expect(inputs.length, topic).toBeGreaterThan(0);
      // A figure that stands on the sheet as it is has no formula but where it stands.
      expect(formula, topic).toMatch(/\d|sheet|line itself/);
      expect(source, topic).not.toBe('');
    }
  });

  test('it is a page of its own, one press from the figures on the page of today', () => {
    const play = posted();
    const context = { pack: play.pack, shift: play.state, now: play.now, texts, viewer: null };
    const pressed = JSON.stringify(pagePanels('today', context));
    expect(pressed).toContain('"page":"why"');
    const panels = pagePanels('why', context);
    expect(panels.length).toBe(itemsOf(play).length + 1);
    // The figures, and after them which facts put each caution into the briefing.
    expect(panels.at(-1)?.id).toBe('why-cautions');
  });
});
