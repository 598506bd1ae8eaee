import { beforeAll, describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { recordCsv } from '../../adapters/record/record-csv.ts';
import type { RecordInput } from '../../adapters/record/record-input.ts';
import { recordJson } from '../../adapters/record/record-json.ts';
import { recordPage } from '../../adapters/record/record-page.ts';
import { verifyRecord } from '../../adapters/record/verify-record.ts';
import { crewDay, demoPack } from './crew-day.ts';
import { leftOn, wholeDay } from './whole-day.ts';

const metricTexts = loadTexts().textsFor;
const usTexts = loadTexts(undefined, { units: 'us' }).textsFor;

const METRIC = /\d\s?(?:°C|bar\b|µm|m²|m³|mm\b|L\b|m\/s|m\b)/u;
const US = /\d\s?(?:°F|psi\b|mil\b|ft²|ft³|in\b(?! order)|gal\b|mph\b|ft\b)/u;

let metric: RecordInput;
/** The same shift on a site that reads US units, messages shown included. */
let us: RecordInput;
let paper: { readonly metric: string; readonly us: string };

beforeAll(async () => {
  const { pack } = demoPack();
  metric = await (await wholeDay({ pack, words: metricTexts })).record();
  const site = { ...pack.site, units: 'us' as const };
  us = await (await wholeDay({ pack: { ...pack, site }, words: usTexts })).record();
  paper = { metric: recordPage(metric), us: recordPage(us) };
}, 60_000);

/** Each cell, heading and paragraph that a reader sees, on a line of its own. */
function readLines(html: string): readonly string[] {
  return html
    .replace(/<style>.*?<\/style>/s, '')
    .replace(/<\/?(?:td|th|tr|h\d|p|li|dt|dd|div|span)\b[^>]*>/g, '\n')
    .replace(/<[^>]*>/g, '')
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');
}

const part = (id: string, html: string) =>
  readLines(new RegExp(`<section id="${id}".*?</section>`, 's').exec(html)?.[0] ?? '').join(' | ');

describe('the page to print reads in the units of its site and in no others', () => {
  test('metric', () => {
    for (const unit of [/\d °C/, /\d bar/, /\d L\b/, /\d µm/, /\d m²/]) expect(paper.metric).toMatch(unit);
    expect(readLines(paper.metric).filter((line) => US.test(line))).toEqual([]);
  });

  test('us', () => {
    for (const unit of [/\d °F/, /\d psi/, /\d gal/, /\d mil/, /\d ft²/]) expect(paper.us).toMatch(unit);
    expect(readLines(paper.us).filter((line) => METRIC.test(line))).toEqual([]);
  });

  // Factors: NIST SP 811 (2008), appendix B.8: 1 US gallon is 3.785 412 L, 1 psi 6.894 757 kPa, 1 mil 25.4 µm,
  // 1 ft² 0.092 903 04 m²; °F = 1.8 °C + 32.
  test('figures, each worked out by hand from the metric page', () => {
    expect(part('day', paper.metric)).toMatch(/150 µm dry \| 193 µm wet.*up to 248 bar/);
    expect(part('day', paper.us)).toMatch(/5\.91 mil dry \| 7\.6 mil wet.*up to 3597 psi/);
    expect(part('day', paper.metric)).toContain('6 L Cleaner E');
    expect(part('day', paper.us)).toContain('1.585 gal Cleaner E');
    expect(part('temperatures', paper.metric)).toMatch(/paint 25 °C.*hose 27 °C.*11\.5 L sprayed/);
    expect(part('temperatures', paper.us)).toMatch(/paint 77 °F.*hose 80\.6 °F.*3\.038 gal sprayed/);
    expect(part('conditions', paper.metric)).toContain('wet bulb 16.5 °C');
    expect(part('conditions', paper.us)).toContain('wet bulb 61.7 °F');
    expect(part('batches', paper.metric)).toContain('6 L + 1 L + 0 L');
    expect(part('batches', paper.us)).toContain('1.585 gal + 0.264 gal + 0 gal');
  });

  test('steel over dew point is a difference: 2.8 °C are 5 °F, not 37 °F', () => {
    expect(part('conditions', paper.metric)).toMatch(/Handrails, shade.*\| 2\.8 °C \|/);
    expect(part('conditions', paper.us)).toMatch(/Handrails, shade.*\| 5 °F \|/);
  });
});

describe('a recoat window', () => {
  test('that ends in the heat names the steel in the units of the site', async () => {
    const at = Date.UTC(2026, 5, 5, 9);
    const coat = { area: 'Span 10', coating: 'epoxy-mid', coat: 'intermediate', firstAt: at, at };
    const { pack, day } = demoPack();
    const before = leftOn('2026-06-05', { coats: [{ ...coat, steel: [{ at, c: 50 }] }] });
    const crew = crewDay(pack, day.date, usTexts, before);
    await crew.until('06:00');
    await crew.does('ines', { type: 'post-day', entry: day });
    expect(part('day', recordPage(await crew.record()))).toContain('122 °F is hotter than the sheet');
  });
});

describe('data files do not change with the units of the site', () => {
  test('the CSV file is the same, words included', () => {
    expect(recordCsv({ ...metric, textsFor: usTexts })).toBe(recordCsv(metric));
    expect(recordCsv(us)).toMatch(METRIC);
    expect(
      recordCsv(us)
        .split('\r\n')
        .filter((line) => US.test(line)),
    ).toEqual([]);
  });

  test('the JSON file is the same, but for the messages: they stand as people were shown them', () => {
    expect(recordJson({ ...metric, textsFor: usTexts })).toBe(recordJson(metric));
    const shown = JSON.parse(recordJson({ ...us, textsFor: metricTexts })).shown as { text: string }[];
    expect(shown.map(({ text }) => text).join('\n')).toMatch(US);
    expect(shown.filter(({ text }) => METRIC.test(text))).toEqual([]);
    const summary = (input: RecordInput) => JSON.parse(recordJson(input)).summary as object;
    const bare = (input: RecordInput) =>
      JSON.stringify({ ...summary(input), closed: null, previousHead: null });
    expect(bare(us)).toBe(bare(metric));
  });

  test('a record of either site verifies', () => {
    expect(verifyRecord(recordJson(us)).problems).toEqual([]);
    expect(verifyRecord(recordJson(metric)).problems).toEqual([]);
  });
});
