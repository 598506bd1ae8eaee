import { describe, expect, test } from 'vitest';
import { logIn, TIME, useBrowser, withPage } from './browser-page.ts';

useBrowser();

describe('pressing', () => {
  test(
    'works from another machine over plain http, where browsers tell less about a request',
    () =>
      withPage({ host: 'board.shed.test' }, async ({ page, url, fake }) => {
        await logIn(page, url);
        await page.getByRole('button', { name: 'Hose is warm' }).click();
        await page.waitForSelector('.said');
        expect(fake.requests.map(({ command }) => command.type)).toEqual(['hose-warm']);
      }),
    TIME,
  );

  test(
    'works without a script',
    () =>
      withPage({ javaScriptEnabled: false }, async ({ page, url, fake }) => {
        await page.goto(url);
        await page.getByRole('button', { name: 'Hose is warm' }).click();
        await page.getByRole('link', { name: 'Ada Fenwright' }).click();
        await page.fill('#pin', '4711');
        await page.click('#pin-send');
        await page.waitForSelector('.said');
        expect(fake.requests.map(({ command }) => command.type)).toEqual(['hose-warm']);
        await page.goto(`${url}/form/mix-batch?rig=rig-1`);
        await page.fill('#f-litres', '12');
        await page.click('#submit');
        await page.getByText('Noted: pot-temperature').waitFor();
      }),
    TIME,
  );

  test(
    'the digit pad types the PIN, the step buttons move a number',
    () =>
      withPage({ viewport: { width: 360, height: 740 } }, async ({ page, url }) => {
        await page.goto(
          `${url}/login?${new URLSearchParams({ who: 'ada', next: '/form/mix-batch?rig=rig-1' })}`,
        );
        for (const digit of ['4', '7', '1', '9']) await page.click(`[data-digit="${digit}"]`);
        await page.click('[data-digit=erase]');
        await page.click('[data-digit="1"]');
        await page.locator('#keypad button[data-tone=main]').click();
        await page.waitForSelector('#f-litres');
        await page.fill('#f-litres', '12,25');
        await page.getByRole('button', { name: 'Raise Litres, A + B' }).click();
        expect(await page.inputValue('#f-litres')).toBe('12.75');
        for (let turn = 0; turn < 19; turn += 1)
          await page.getByRole('button', { name: 'Lower Paint temperature' }).click();
        expect(await page.inputValue('#f-paintC')).toBe('-1');
      }),
    TIME,
  );

  test(
    'twice in a hurry is one command',
    () =>
      withPage({}, async ({ page, url, fake }) => {
        await logIn(page, url);
        await page.getByRole('button', { name: 'Hose is warm' }).dblclick();
        await page.waitForSelector('.said');
        expect(new Set(fake.requests.map(({ commandId }) => commandId)).size).toBe(1);
      }),
    TIME,
  );

  test(
    'the keyboard reaches the content by the skip link',
    () =>
      withPage({}, async ({ page, url }) => {
        await page.goto(url);
        await page.keyboard.press('Tab');
        expect(await page.evaluate(() => document.activeElement?.className)).toBe('skip');
        await page.keyboard.press('Enter');
        expect(await page.evaluate(() => document.activeElement?.id)).toBe('main');
      }),
    TIME,
  );
});
