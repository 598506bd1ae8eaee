import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { axeFinds } from './axe-finds.ts';
import { screenshot } from './browser.ts';
import { isLive, logIn, TIME, useBrowser, type Visit, withPage } from './browser-page.ts';
import { bellPanel, noted } from './fakes.ts';

useBrowser();

const wider = (page: Page) =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

/** What reaches beyond the page's width. */
const sticksOut = (page: Page) =>
  page.evaluate(() =>
    [...document.querySelectorAll('body *')]
      .filter((node) => node.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
      .map((node) => node.outerHTML.slice(0, 90)),
  );

/** Targets that a glove would miss. Links inside a sentence are text, not targets. */
const tooSmall = (page: Page) =>
  page.evaluate(() =>
    [
      ...document.querySelectorAll<HTMLElement>(
        '.button, nav a, summary, .tile, .field > input, select, textarea, .number input',
      ),
    ]
      .map((target) => ({ target, box: target.getBoundingClientRect() }))
      .filter(({ box }) => box.height > 0 && (box.height < 48 || box.width < 48))
      .map(
        ({ target, box }) =>
          `${target.outerHTML.slice(0, 80)} ${Math.round(box.width)}×${Math.round(box.height)}`,
      ),
  );

const views: Readonly<Record<string, (visit: Visit) => Promise<void>>> = {
  today: async ({ page, url }) => {
    await page.goto(url);
    await isLive(page);
  },
  bell: async ({ page, url, fake }) => {
    fake.bells = [bellPanel('Rig 1: start the flush now, by 06:52')];
    await page.goto(url);
    await page.waitForSelector('html[data-ringing]');
  },
  names: async ({ page, url }) => void (await page.goto(`${url}/login`)),
  pin: async ({ page, url }) => void (await page.goto(`${url}/login?who=ada`)),
  form: async ({ page, url }) => {
    await logIn(page, url, '/form/mix-batch?rig=rig-1');
  },
  problems: async ({ page, url }) => {
    await logIn(page, url, '/form/mix-batch?rig=rig-1');
    await page.fill('#f-litres', 'twelve');
    await page.click('#submit');
    await page.waitForSelector('#problems');
  },
  said: async ({ page, url, fake }) => {
    await logIn(page, url);
    fake.answer = () => ({
      ok: true,
      shift: fake.shift as never,
      events: [],
      repeated: false,
      shown: noted('Batch B-04 on rig 1: use by 08:10, start the flush by 08:02'),
    });
    await page.getByRole('button', { name: 'Hose is warm' }).click();
    await page.waitForSelector('.said');
  },
  record: async ({ page, url }) => void (await page.goto(`${url}/record`)),
};

describe.each(['light', 'dark'] as const)('in %s', (colorScheme) => {
  describe.each([360, 1400])('at %i px', (width) => {
    test.each(Object.keys(views))(
      '%s: no accessibility violation, no sideways scroll, nothing too small to hit',
      (name) =>
        withPage(
          { colorScheme, viewport: { width, height: 900 }, reducedMotion: 'reduce' },
          async (visit) => {
            await views[name]?.(visit);
            expect(await axeFinds(visit.page)).toEqual([]);
            expect(await wider(visit.page)).toBeLessThanOrEqual(0);
            expect(await tooSmall(visit.page)).toEqual([]);
            await screenshot(visit.page, `board-${name}-${width}-${colorScheme}`);
          },
        ),
      TIME,
    );
  });
});

describe('other screens', () => {
  test(
    'right to left nothing breaks',
    () =>
      withPage({ viewport: { width: 360, height: 740 } }, async ({ page, url }) => {
        await page.goto(`${url}/login?who=yusra`);
        await page.fill('#pin', '8024');
        await page.keyboard.press('Enter');
        await page.waitForSelector('html[dir=rtl] #log-out');
        expect(await wider(page)).toBeLessThanOrEqual(0);
        await screenshot(page, 'board-rtl-360');
      }),
    TIME,
  );

  test.each([
    ['at 320 px (WCAG 2.2, 1.4.10)', 320, ''],
    ['with text doubled (WCAG 2.2, 1.4.4)', 640, '36px'],
  ])(
    '%s nothing sticks out',
    (_name, width, fontSize) =>
      withPage({ viewport: { width, height: 740 } }, async ({ page, url }) => {
        for (const path of ['/', '/login?who=ada', '/record']) {
          await page.goto(url + path);
          await page.evaluate((size) => {
            document.documentElement.style.fontSize = size;
          }, fontSize);
          expect(await sticksOut(page)).toEqual([]);
        }
      }),
    TIME,
  );

  test(
    'the shed screen and paper',
    () =>
      withPage({ viewport: { width: 1920, height: 1080 } }, async ({ page, url }) => {
        await page.goto(url);
        await isLive(page);
        await screenshot(page, 'board-today-1920');
        await page.emulateMedia({ media: 'print' });
        expect(
          await page
            .locator('#stop-work, nav, .panel button')
            .evaluateAll((nodes) => nodes.filter((node) => node.getClientRects().length > 0).length),
        ).toBe(0);
        await screenshot(page, 'board-print');
      }),
    TIME,
  );
});
