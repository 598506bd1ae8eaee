import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { boardWords } from '../../adapters/cli/board-words.ts';
import { briefDay } from '../../adapters/cli/brief.ts';
import { exampleDay, loadSite } from '../../adapters/cli/site.ts';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { formatProblem } from '../../adapters/files/problem.ts';
import { buildForm, readForm } from '../../src/forms/forms.ts';
import { pagePanels } from '../../src/views/pages.ts';
import { tempDir } from '../files/temp-dir.ts';
import { axeFinds } from './axe-finds.ts';
import { screenshot } from './browser.ts';
import { TIME, useBrowser, type Visit, withPage } from './browser-page.ts';
import { writeTurnedLanguage } from './rtl-language.ts';

useBrowser();

const dir = tempDir();
writeTurnedLanguage(dir);
const site = loadSite();
const people = site.pack.people.map((one) => ({ ...one, language: 'he' }));
const pack = { ...site.pack, people, site: { ...site.pack.site, language: 'he' } };
const texts = loadTexts(dir, { units: 'metric', siteLanguage: 'he', own: site.words });
const example = exampleDay(site);
if (!example) throw new Error('the demo site has no example day');
const { shift } = briefDay(pack, example, texts.textsFor);

/** The real pages and forms of the demo day, every word of them from right to left. */
const services = {
  texts: texts.textsFor,
  words: (language: string) => boardWords(texts.textsFor(language)),
  pack: () => pack,
  currentShift: async () => shift,
  pages: pagePanels,
  buildForm,
  readForm,
  checkPin: async () => true,
};

const foreman = pack.people.find(({ roles }) => roles.includes('foreman'))?.id ?? '';

/** Elements that reach beyond either side of the page. */
const sticksOut = (page: Page) =>
  page.evaluate(() =>
    [...document.querySelectorAll('body *')]
      .filter((node) => {
        const { left, right, width } = node.getBoundingClientRect();
        return width > 1 && (left < -1 || right > document.documentElement.clientWidth + 1);
      })
      .map((node) => node.outerHTML.slice(0, 90)),
  );

/** Figures with a unit in Latin letters: whether the unit stands at the right of its figure, as it is read. */
const figures = (page: Page) =>
  page.evaluate(() => {
    const found: { text: string; right: boolean }[] = [];
    const walk = document.createTreeWalker(document.querySelector('main') as Node, NodeFilter.SHOW_TEXT);
    for (let node = walk.nextNode(); node; node = walk.nextNode()) {
      for (const match of (node.textContent ?? '').matchAll(/\d+ (?=[a-zµ°][^\s]*)/gi)) {
        const at = (from: number) => {
          const range = document.createRange();
          range.setStart(node as Node, from);
          range.setEnd(node as Node, from + 1);
          return range.getBoundingClientRect();
        };
        const figure = at(match.index);
        const unit = at(match.index + match[0].length);
        if (figure.width === 0 || Math.abs(figure.top - unit.top) > 4) continue;
        found.push({
          text: (node.textContent ?? '').slice(match.index, match.index + 12),
          right: unit.left > figure.left,
        });
      }
    }
    return found;
  });

const logIn = async ({ page, url }: Visit, next: string) => {
  await page.goto(`${url}/login?${new URLSearchParams({ who: foreman, next })}`);
  await page.fill('#pin', '1');
  await page.keyboard.press('Enter');
  await page.waitForSelector('#log-out');
};

test('the turned language has every word', () => {
  expect(texts.problems.map(formatProblem)).toEqual([]);
  expect(texts.warnings).toEqual([]);
});

describe('from right to left at 360 px', () => {
  test.each([
    ['today', '/', true],
    ['briefing', '/briefing', true],
    ['sign-off', '/sign-off', true],
    ['emergency', '/emergency', true],
    ['batch', `/form/mix-batch?rig=${pack.rigs[0]?.id}`, true],
    ['day', '/form/post-day', false],
    ['reading', '/form/take-reading', false],
    ['names', '/login', false],
  ] as const)(
    '%s: nothing breaks out, figures keep their unit at the right',
    (name, path, hasFigures) =>
      withPage({ viewport: { width: 360, height: 740 }, services }, async (visit) => {
        const { page, url } = visit;
        if (name === 'names') await page.goto(url + path);
        else await logIn(visit, path);
        expect(await page.getAttribute('html', 'dir')).toBe('rtl');
        expect(await page.getAttribute('html', 'lang')).toBe('he');
        for (const more of await page.locator('details').all())
          await more.evaluate((node) => node.setAttribute('open', ''));
        expect(await sticksOut(page)).toEqual([]);
        const shown = await figures(page);
        expect(shown.filter(({ right }) => !right)).toEqual([]);
        if (hasFigures) expect(shown.length).toBeGreaterThan(0);
        // A unit by itself begins with a sign that would go to its other side.
        for (const unit of await page.locator('.unit').all())
          expect(await unit.getAttribute('dir')).toBe('ltr');
        expect(await axeFinds(page)).toEqual([]);
        await screenshot(page, `board-rtl-${name}-360`);
      }),
    TIME,
  );
});
