import { expect, test } from 'vitest';
import { axeFinds } from './axe-finds.ts';
import { screenshot } from './browser.ts';
import { isLive, TIME, useBrowser, withPage } from './browser-page.ts';

useBrowser();

test.each([
  [390, 'light'],
  [390, 'dark'],
  [1280, 'light'],
] as const)(
  'the plan as a picture at %i px, %s: drawn in colours and patterns, readable, nothing sticks out',
  (width, colorScheme) =>
    withPage({ colorScheme, viewport: { width, height: 900 } }, async ({ page, url }) => {
      await page.goto(url);
      await isLive(page);
      const plan = page.locator('#p-plan');
      await plan.scrollIntoViewIfNeeded();
      const boxes = await plan.locator('.seg rect').evaluateAll((rects) =>
        rects.map((rect) => {
          const { left, right, width: wide, height } = rect.getBoundingClientRect();
          return { left, right, wide, height };
        }),
      );
      expect(boxes.length).toBeGreaterThan(15);
      for (const box of boxes) {
        expect(box.wide).toBeGreaterThan(3);
        expect(box.height).toBeGreaterThan(12);
        expect(box.right).toBeLessThanOrEqual(width + 1);
      }
      // A fill that the page's rules had forbidden would leave the pattern's ground without its colour.
      const solid = await plan
        .locator('.fill .solid')
        .first()
        .evaluate((node) => getComputedStyle(node).fill);
      expect(solid).not.toBe('rgb(0, 0, 0)');
      const hours = await plan
        .locator('.times')
        .first()
        .locator('.hour text')
        .evaluateAll((texts) =>
          texts
            .filter((text) => text.getClientRects().length > 0)
            .map((text) => text.getBoundingClientRect()),
        );
      expect(hours.length).toBeGreaterThan(3);
      for (const [i, hour] of hours.entries()) {
        const before = hours[i - 1];
        if (before) expect(hour.left).toBeGreaterThan(before.right);
      }
      await plan.locator('details summary').first().click();
      expect(await plan.locator('details li').first().isVisible()).toBe(true);
      expect(await axeFinds(page)).toEqual([]);
      await plan.screenshot({ path: `build/screenshots/board-plan-${width}-${colorScheme}.png` });
      await screenshot(page, `board-plan-page-${width}-${colorScheme}`);
    }),
  TIME,
);

test(
  'on paper the picture is there in black and white',
  () =>
    withPage({ viewport: { width: 800, height: 1000 } }, async ({ page, url }) => {
      await page.goto(url);
      await page.emulateMedia({ media: 'print' });
      const plan = page.locator('#p-plan');
      expect(await plan.locator('.times').first().isVisible()).toBe(true);
      await plan.screenshot({ path: 'build/screenshots/board-plan-print.png' });
    }),
  TIME,
);
