import { describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { dayPlan } from '../../src/facts/plan.ts';
import type { Block, Message } from '../../src/message/message.ts';
import { plainText } from '../../src/message/plain-text.ts';
import type { DayEntryInput } from '../../src/model/day-entry.ts';
import { type SitePack, sitePackSchema } from '../../src/model/site.ts';
import { briefingMessage } from '../../src/views/briefing.ts';
import type { View } from '../../src/views/context.ts';
import { pagePanels } from '../../src/views/pages.ts';
import { planMessage } from '../../src/views/plan.ts';
import { whyPlan } from '../../src/views/why/plan.ts';
import { Play } from '../flow/harness.ts';
import { aDay, aJob, aPack, t } from '../flow/pack.ts';

const texts = loadTexts().textsFor('en');
const base = aPack();
const tipped: SitePack = sitePackSchema.parse({
  ...base,
  coatings: base.coatings.map((sheet) => ({ ...sheet, tip: '517', densityKgPerL: 1.2 })),
});

function posted(given: Partial<DayEntryInput> = {}, pack: SitePack = tipped) {
  const play = new Play(pack);
  play.do(aDay(given));
  return play;
}
const viewOf = (play: Play): View => ({ shift: play.state, texts, now: play.now });
const wordsOf = (given: Partial<DayEntryInput> = {}, pack: SitePack = tipped) =>
  plainText(planMessage(viewOf(posted(given, pack))));
const timelineOf = ({ blocks }: Message) => {
  const found = blocks.find(
    (block): block is Extract<Block, { kind: 'timeline' }> => block.kind === 'timeline',
  );
  if (!found) throw new Error('there is no timeline');
  return found;
};

describe('the plan in words', () => {
  test('says first that it is a plan, neither a permission nor an order', () => {
    const [first] = planMessage(viewOf(posted())).blocks;
    expect(first).toMatchObject({ kind: 'note', tone: 'plain' });
    expect(JSON.stringify(first)).toContain('A plan, not a permission and not an order.');
  });
  test('each batch: when to mix what, both parts, spraying, and the three times', () => {
    expect(wordsOf({ jobs: [aJob({ thinnerPct: 5 })] })).toContain(
      '1. Mix 07:10: 16.1 L. Measured out of a kit. Base 12.88 L, hardener 3.22 L, thinner 0.805 L. Spray 07:30 to 07:57. Use by 08:40. Start the flush by 08:56. Dead at 09:10.',
    );
  });
  test('coating and area are named where a rig has several', () => {
    const text = wordsOf({
      jobs: [aJob(), aJob({ area: 'Gate 2', coating: 'finish', coat: 'finish', dftUm: 60 })],
    });
    expect(text).toMatch(/1\. Mix \d\d:\d\d: [\d.]+ L Test epoxy\./);
    expect(text).toMatch(
      /2\. Mix \d\d:\d\d: [\d.]+ L Test finish\..* Spray \d\d:\d\d to \d\d:\d\d: Gate 2\./,
    );
    expect(text).toContain('Another coating comes.');
  });
  test('flushes with their solvent, last mixing times, totals and limits', () => {
    const text = wordsOf({ breaks: [{ from: '12:00', to: '12:30' }] });
    expect(text).toMatch(
      /- Flush 07:5\d to 08:\d\d, Cleaner T: 7\.1 L first, 4\.8 L second\. The end of the work\./,
    );
    expect(text).toMatch(/Last mix to spray out before the break 12:00: 1\d:\d\d \(16\.1 L\)/);
    expect(text).toMatch(/Last mix to spray and flush before the end 16:00: 15:\d\d \(16\.1 L\)/);
    expect(text).toContain('Test epoxy: 16.1 L, 1 kit');
    expect(text).toContain('What limits the day: the paint (all of it is sprayed)');
  });
  test('a part kit is said to be measured; nothing else is when there is none', () => {
    expect(wordsOf()).toContain('A part kit is measured, base and hardener both. Never by eye.');
    // 74.66 m² need 20.0 L.
    expect(wordsOf({ jobs: [aJob({ areaM2: 74.6 })] })).not.toContain('A part kit is measured');
  });
  test('what does not fit: how much does, why, and the nearest change', () => {
    const play = posted({ jobs: [aJob({ areaM2: 2000 })] });
    const message = planMessage(viewOf(play));
    expect(message.tone).toBe('attention');
    const text = plainText(message);
    expect(text).toMatch(
      /! It does not all fit: \d+ m² of 2000 m²\. Too little paint comes through the gun\. Nearest change: /,
    );
    expect(text).toMatch(/leave \d+ m² for another day/);
  });
  test('weather outside the limits is named with its hours and figures', () => {
    const text = wordsOf({
      forecast: [
        { at: '06:00', airC: 20, rhPct: 92 },
        { at: '09:00', airC: 20 },
      ],
    });
    expect(text).toContain('! Forecast 07:00 to 09:00: Test epoxy: steel is');
    expect(text).toContain('Test epoxy: humidity 92 %. At most 85 % is allowed.');
  });
  test('a tip nobody knows is counted as a small one, and said', () => {
    expect(wordsOf({}, base)).toContain('! Gate 1: no tip is known, so a small one (0.33 mm) is counted.');
    expect(wordsOf()).not.toContain('no tip is known');
  });
  test('a rig that is tagged out is planned and said to be tagged', () => {
    const play = posted();
    play.at('06:40').do({ type: 'report-defect', rig: 'rig-1', part: 'gun', text: 'leaks' }, 'pia');
    expect(plainText(planMessage(viewOf(play)))).toContain(
      '! Rig One is tagged out. The plan counts as if the tag were cleared.',
    );
  });
  test('a figure that cannot be planned with is said, not hidden', () => {
    const absurd = sitePackSchema.parse({
      ...tipped,
      rigs: tipped.rigs.map((rig) => ({ ...rig, litresPerCycle: 0.001, flushCyclesPerMinute: 1 })),
    });
    // A two-pack day with such a pump is refused when it is posted.
    const jobs = [aJob({ coating: 'one-pack', coat: 'finish', dftUm: 60 })];
    expect(wordsOf({ jobs }, absurd)).toMatch(/! Rig One: no plan\. flushMinutes is \d+/);
  });
  test('a one-pack is opened, not mixed, and has no clock', () => {
    const text = wordsOf({ jobs: [aJob({ coating: 'one-pack', coat: 'finish', dftUm: 60 })] });
    expect(text).toMatch(/1\. Open 07:\d\d: [\d.]+ L\. Spray .* No pot-life clock\./);
  });
});

describe('the plan as a picture', () => {
  const play = posted({ breaks: [{ from: '12:00', to: '12:30' }], jobs: [aJob({ areaM2: 300 })] });
  const timeline = timelineOf(planMessage(viewOf(play)));
  test('is the shift, with a mark at every full hour of the site’s clock', () => {
    expect([timeline.from, timeline.to]).toEqual([t('07:00'), t('16:00')]);
    expect(timeline.marks.map(({ label }) => label)).toEqual([
      '07:00',
      '08:00',
      '09:00',
      '10:00',
      '11:00',
      '12:00',
      '13:00',
      '14:00',
      '15:00',
      '16:00',
    ]);
  });
  test('holds every mixing, spraying, flush and break of the plan', () => {
    const [one] = dayPlan(play.state.day, null);
    const plan = one?.plan;
    const kinds = timeline.lanes[0]?.segments.map(({ kind }) => kind) ?? [];
    const count = (kind: string) => kinds.filter((one) => one === kind).length;
    expect(count('mix')).toBe(plan?.batches.length);
    expect(count('spray')).toBe(plan?.batches.length);
    expect(count('flush')).toBe(plan?.flushes.length);
    expect(count('break')).toBe(1);
    expect(count('stand')).toBe(plan?.batches.length);
  });
  test('nothing in it lies outside the shift, and its clocks are its times', () => {
    const { segments = [] } = timeline.lanes[0] ?? {};
    for (const { from, to, clock } of segments) {
      expect(from).toBeGreaterThanOrEqual(timeline.from);
      expect(to).toBeLessThanOrEqual(timeline.to);
      expect(clock).toBe(
        `${new Date(from).toISOString().slice(11, 16)}–${new Date(to).toISOString().slice(11, 16)}`,
      );
    }
  });
});

describe('where it is shown', () => {
  const play = posted();
  test('in the briefing, after what can kill and before who signs', () => {
    const headings = briefingMessage(viewOf(play)).blocks.flatMap((block) =>
      block.kind === 'heading' ? [block.text] : [],
    );
    const place = headings.indexOf('Plan for the day');
    expect(place).toBeGreaterThan(headings.findIndex((text) => text.startsWith('STOP')));
    expect(headings.indexOf(texts.say('brief.sign-list'))).toBeGreaterThan(place);
  });
  test('as a panel of today, until the shift is closed', () => {
    const panelsOf = (shown: Play) =>
      pagePanels('today', { pack: shown.pack, shift: shown.state, now: shown.now, texts, viewer: null }).map(
        ({ id }) => id,
      );
    expect(panelsOf(play)).toContain('plan');
    const closed = posted();
    closed.at('15:00').do({ type: 'close-shift', reason: 'rain' });
    expect(panelsOf(closed)).not.toContain('plan');
  });
});

test('why: each batch with its litres, its times and its flush inside the use-by', () => {
  const [item] = whyPlan(viewOf(posted()));
  expect(item?.topic).toBe('plan');
  expect(item?.result).toBe('Rig One, batch 1: mix 16.1 L at 07:10.');
  expect(item?.formula).toContain(
    '16.1 L with 0 L thinner = 16.1 L; 16.1 ÷ 0.642 = 26 min, whole minutes upwards.',
  );
  expect(item?.formula).toContain('Flush 07:56 + 14 min = 08:10, inside the use-by 08:40.');
  expect(item?.source).toContain('common practice, no source');
});
