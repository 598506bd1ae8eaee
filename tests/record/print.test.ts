import { mkdirSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { recordFiles } from '../../adapters/record/record-files.ts';
import { launchBrowser } from '../board/browser.ts';
import { wholeDay } from './whole-day.ts';

const OUT = 'build/screenshots';
const axeFile = createRequire(import.meta.url).resolve('axe-core/axe.min.js');
let browser: Browser;
let url: string;

beforeAll(async () => {
  mkdirSync(OUT, { recursive: true });
  const [html] = recordFiles(await (await wholeDay()).record());
  writeFileSync(`${OUT}/record.html`, html?.body ?? '');
  url = pathToFileURL(resolve(OUT, 'record.html')).href;
  browser = await launchBrowser();
}, 60_000);
afterAll(() => browser?.close());

// Widths of the paper less the margins of 11.6 mm, at 96 px an inch (CSS Values and Units 3): ISO 216 A4 is 210 mm wide, US
// Letter 8.5 in.
test.each([
  ['A4', Math.floor(((210 - 23.2) / 25.4) * 96)],
  ['Letter', Math.floor((8.5 - 23.2 / 25.4) * 96)],
] as const)(
  'prints on %s with nothing cut off at the side, and fetches nothing',
  async (format, width) => {
    const page = await browser.newPage({ viewport: { width, height: 1000 } });
    const asked: string[] = [];
    const faults: string[] = [];
    page.on('request', (request) => asked.push(request.url()));
    page.on('console', (message) => faults.push(message.text()));
    page.on('pageerror', (error) => faults.push(error.message));
    await page.emulateMedia({ media: 'print' });
    await page.goto(url);
    const wide = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(wide).toBe(0);
    const pdf = await page.pdf({ format, path: `${OUT}/record-${format.toLowerCase()}.pdf` });
    expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
    expect(asked).toEqual([url]);
    expect(faults).toEqual([]);
    await page.close();
  },
  60_000,
);

test('can be read on a phone without moving the page sideways', async () => {
  const page = await browser.newPage({ viewport: { width: 390, height: 800 } });
  await page.goto(url);
  const wide = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  );
  expect(wide).toBe(0);
  await page.setViewportSize({ width: 1100, height: 900 });
  await page.screenshot({ path: `${OUT}/record-screen.png`, fullPage: true });
  await page.close();
}, 60_000);

// Web Content Accessibility Guidelines 2.2, as far as axe-core can tell by itself.
test('is marked up so that it can be heard as well as seen', async () => {
  // The page lets no script run; the checker has to be let in.
  const context = await browser.newContext({ bypassCSP: true });
  const page = await context.newPage();
  await page.goto(url);
  await page.addScriptTag({ path: axeFile });
  const found = await page.evaluate(async () => {
    const { axe } = globalThis as unknown as { axe: { run(): Promise<{ violations: { id: string }[] }> } };
    return (await axe.run()).violations.map(({ id }) => id);
  });
  expect(found).toEqual([]);
  await context.close();
}, 60_000);
