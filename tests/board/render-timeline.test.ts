import { describe, expect, test } from 'vitest';
import { renderTimeline } from '../../adapters/board/render-timeline.ts';
import { styles } from '../../adapters/board/styles.ts';
import { timelineOf } from './rich-page.ts';

const block = timelineOf(1_000_000_000_000);
const out = String(renderTimeline(block, 'p-plan-1'));

describe('a timeline on the board', () => {
  test('has a picture for each lane that says all of it to a screen reader', () => {
    expect(out.match(/<svg class="times"/g)).toHaveLength(2);
    expect(out).toContain(
      'aria-label="Rig 1, yellow hose: 07:30–08:00 weather; 08:00–08:10 mix: batch 1, 40 L;',
    );
  });

  test('says the same as a list, nothing left out', () => {
    for (const { segments } of block.lanes)
      for (const { clock, name, label } of segments)
        expect(out).toContain(`<li>${clock} ${name}${label && `: ${label}`}</li>`);
  });

  test('puts segments where their time is: per cent of the nine hours', () => {
    // 08:26 is 56 of 540 minutes, 46 minutes long.
    expect(out).toContain(`x="${Math.round((56 / 540) * 100_000) / 1000}%"`);
    expect(out).toMatch(/seg-spray"><rect x="10\.37%" y="\d+" width="8\.519%"/);
  });

  test('tells kinds apart by a pattern of their own and a word, not by colour', () => {
    const shapes = [
      ...out.matchAll(/<pattern class="fill fill-(\w+)" id="p-plan-1-l-\w+"[^>]*>(.*?)<\/pattern>/g),
    ];
    expect(shapes.map(([, kind]) => kind).sort()).toEqual([
      'break',
      'flush',
      'hold',
      'mix',
      'spray',
      'stand',
    ]);
    // A break is an empty box with a broken outline, all others have a filling of their own.
    expect(new Set(shapes.map(([, , shape]) => shape)).size).toBe(shapes.length);
    for (const word of ['mix', 'stand', 'spray', 'break', 'flush', 'weather'])
      expect(out).toContain(`<span>${word}</span></li>`);
    expect(styles).toContain('.seg-break rect { stroke-dasharray');
  });

  test('writes no style of its own, which the page would not be allowed to use', () => {
    expect(out).not.toMatch(/\sstyle=|<style/);
  });

  test('names every pattern once, so that no two lanes share one', () => {
    const ids = [...out.matchAll(/\sid="([^"]+)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const [, used] of out.matchAll(/url\(#([^)]+)\)/g)) expect(ids).toContain(used);
  });

  test('leaves out a mark that has no room, never the segment', () => {
    const narrow = { ...block, to: block.from + 24 * 60 * 60_000 };
    const html = String(renderTimeline(narrow, 'n'));
    expect(html.match(/seg-spray"><rect/g)?.length).toBe(out.match(/seg-spray"><rect/g)?.length);
    expect(html).not.toMatch(/seg-spray"><rect[^>]*\/><text[^>]*>2</);
  });
});
