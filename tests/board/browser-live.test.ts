import { describe, expect, test } from 'vitest';
import { isLive, logIn, TIME, useBrowser, withPage } from './browser-page.ts';
import { bellDelivery, bellPanel, fakeBoard, START } from './fakes.ts';

useBrowser();

describe('live', () => {
  test(
    'a change comes in: the changed panel is new, the others, an opened detail and the focus stay',
    () =>
      withPage({}, async ({ page, url, fake }) => {
        await page.goto(url);
        await isLive(page);
        await page.click('summary');
        await page.focus('#p-people a.button');
        await page.evaluate(() => {
          for (const id of ['p-people', 'p-rig-rig-2', 'p-conditions'])
            document.getElementById(id)?.setAttribute('data-mark', 'old');
        });
        fake.panels = fake.panels.map((panel) =>
          panel.id === 'conditions' ? { ...panel, title: 'Conditions, new reading' } : panel,
        );
        fake.board.changed();
        await page.getByText('Conditions, new reading').waitFor();
        expect(await page.getAttribute('#p-people', 'data-mark')).toBe('old');
        expect(await page.getAttribute('#p-conditions', 'data-mark')).toBeNull();
        expect(await page.locator('details[open]').count()).toBe(1);
        expect(await page.evaluate(() => document.activeElement?.closest('.panel')?.id)).toBe('p-people');

        fake.panels = [...fake.panels.slice(1).reverse(), ...fake.panels.slice(0, 1)].filter(
          ({ id }) => id !== 'next',
        );
        fake.board.changed();
        await page.waitForSelector('#p-next', { state: 'detached' });
        expect(
          await page.locator('#panels > *').evaluateAll((nodes) => nodes.map((node) => node.id)),
        ).toEqual(fake.panels.map(({ id }) => `p-${id}`));
        expect(await page.evaluate(() => document.activeElement?.closest('.panel')?.id)).toBe('p-people');
      }),
    TIME,
  );

  test(
    'a bell rings while somebody types: it comes on top, and nothing typed is lost',
    () =>
      withPage({}, async ({ page, url, fake }) => {
        await logIn(page, url, '/form/mix-batch?rig=rig-1');
        await isLive(page);
        await page.fill('#f-litres', '17.5');
        fake.bells = [bellPanel('Rig 1: start the flush now')];
        await fake.board.surface.deliver(bellDelivery('Rig 1: start the flush now'));
        await page.waitForSelector('html[data-ringing] #bells .panel');
        expect(await page.inputValue('#f-litres')).toBe('17.5');
        expect(await page.textContent('#ringing-what')).toBe('Rig 1: start the flush now');
      }),
    TIME,
  );

  test(
    'the bell sounds after a touch, once for all its audiences, can be quieted here, and ends when answered',
    () =>
      withPage({}, async ({ page, url, fake }) => {
        await page.goto(url);
        await isLive(page);
        await page.waitForSelector('html[data-sound=blocked]');
        await page.getByRole('button', { name: 'Bell is silent: turn on' }).click();
        await page.waitForSelector('html[data-sound=on]');
        await page.getByText('Two tones should sound now').waitFor();
        expect(await page.getAttribute('html', 'data-tones')).toBe('2');

        const say = 'Rig 1: start the flush now';
        fake.bells = [bellPanel(say)];
        await fake.board.surface.deliver(bellDelivery(say));
        await fake.board.surface.deliver({
          ...bellDelivery(say),
          id: 'to-ada',
          audience: { kind: 'person', person: 'ada' },
        });
        await page.waitForSelector('html[data-ringing] #bells .panel');
        await page.waitForSelector('html[data-tones="10"]');

        await page.click('#bell-quiet');
        await page.waitForSelector('html:not([data-ringing])');
        expect(await page.locator('#bells .panel').count()).toBe(1);
        await page.reload();
        await isLive(page);
        expect(await page.getAttribute('html', 'data-ringing')).toBeNull();

        await fake.board.surface.deliver(bellDelivery(say, START + 240_000));
        await page.waitForSelector('html[data-ringing]');
        fake.bells = [];
        fake.board.changed();
        await page.waitForSelector('#bells', { state: 'hidden' });
        await page.waitForSelector('html:not([data-ringing])');
      }),
    TIME,
  );

  test(
    'a bell whose ring was missed rings when the page finds it',
    () =>
      withPage({}, async ({ page, url, fake }) => {
        await page.goto(url);
        await isLive(page);
        fake.bells = [bellPanel('Rig 1: start the flush now')];
        fake.board.changed();
        await page.waitForSelector('html[data-ringing]');
      }),
    TIME,
  );

  test(
    'after a change no button can be pressed for a moment, and a press in that moment is dropped',
    () =>
      withPage({}, async ({ page, url, fake }) => {
        await page.clock.install();
        await logIn(page, url);
        await isLive(page);
        await page.clock.pauseAt((await page.evaluate(() => Date.now())) + 1000);
        const warm = page.getByRole('button', { name: 'Hose is warm' });
        const settling = () => page.getAttribute('html', 'data-settling');
        expect(await settling()).toBeNull();
        fake.panels = fake.panels.map((panel) =>
          panel.id === 'conditions' ? { ...panel, title: 'Conditions, new reading' } : panel,
        );
        fake.board.changed();
        await page.waitForSelector('html[data-settling]');
        expect(await warm.evaluate((button) => getComputedStyle(button).pointerEvents)).toBe('none');
        await warm.dispatchEvent('click');
        await warm.focus();
        await page.keyboard.press('Enter');
        await page.clock.runFor(1499);
        expect(await settling()).toBe('true');
        await page.clock.runFor(1);
        expect(await settling()).toBeNull();
        expect(fake.requests).toEqual([]);
        await warm.click();
        await page.waitForSelector('.said');
        expect(fake.requests.map(({ command }) => command.type)).toEqual(['hose-warm']);
      }),
    TIME,
  );

  test(
    'nothing is held back when nothing changed; stop work never is',
    () =>
      withPage({}, async ({ page, url, fake }) => {
        await page.clock.install();
        await page.goto(url);
        await isLive(page);
        await page.clock.pauseAt((await page.evaluate(() => Date.now())) + 1000);
        const fresh = page.waitForResponse(/fragment\/today/);
        fake.board.changed();
        await (await fresh).finished();
        expect(await page.getAttribute('html', 'data-settling')).toBeNull();
        fake.bells = [bellPanel('Rig 1: start the flush now')];
        fake.board.changed();
        await page.waitForSelector('html[data-settling]');
        await page.click('#stop-work');
        await page.waitForSelector('.said');
        expect(fake.requests.map(({ command }) => command.type)).toEqual(['stop-work']);
      }),
    TIME,
  );

  test(
    'the panel under the pointer keeps its place when a bell comes in above it',
    () =>
      withPage({ viewport: { width: 390, height: 700 } }, async ({ page, url, fake }) => {
        await page.goto(url);
        await isLive(page);
        const top = () =>
          page.evaluate(() =>
            Math.round(document.getElementById('p-people')?.getBoundingClientRect().top ?? 0),
          );
        await page.evaluate(() => document.getElementById('p-people')?.scrollIntoView({ block: 'center' }));
        const box = await page.locator('#p-people').boundingBox();
        if (box === null) throw new Error('no panel');
        await page.mouse.move(box.x + 40, box.y + box.height / 2);
        const before = await top();
        fake.bells = [bellPanel('Rig 1: start the flush now')];
        fake.board.changed();
        await page.waitForSelector('#bells .panel');
        expect(Math.abs((await top()) - before)).toBeLessThanOrEqual(1);
      }),
    TIME,
  );

  test(
    'on a phone the ringing strip is one line and one row of buttons, however long the bell',
    () =>
      withPage({ viewport: { width: 390, height: 780 } }, async ({ page, url, fake }) => {
        const say = 'Rig 1: start the flush now, by 06:52, and tell the sprayer to lock the trigger first';
        fake.bells = [bellPanel(say)];
        await page.goto(url);
        await page.waitForSelector('html[data-ringing]');
        await page.waitForSelector('html[data-sound=blocked]');
        const rows = await page
          .locator('#ringing-what, #ringing .button')
          .evaluateAll((nodes) =>
            nodes.map((node) => node.getBoundingClientRect()).map(({ top, height }) => [top, height]),
          );
        expect(new Set(rows.slice(1).map(([top]) => top)).size).toBe(1);
        const lineHeight = await page
          .locator('#ringing-what')
          .evaluate((node) => Number.parseFloat(getComputedStyle(node).lineHeight));
        expect(rows[0]?.[1]).toBeLessThan(lineHeight * 1.5);
        const strip = await page.locator('#ringing').evaluate((node) => node.getBoundingClientRect());
        const parts = await page
          .locator('#ringing > *')
          .evaluateAll((nodes) => nodes.filter((node) => node.getBoundingClientRect().height > 1).length);
        expect(parts).toBe(2);
        expect(strip.height).toBeLessThan(130);
        expect(await page.locator('#bells').textContent()).toContain(say);
      }),
    TIME,
  );

  test(
    'a lost connection is said with its time; the printed times stay; it comes back by itself',
    () =>
      withPage({}, async ({ page, url, fake, running }) => {
        await page.goto(url);
        await isLive(page);
        await running.stop();
        await page.waitForSelector('html[data-live=lost]');
        expect(await page.textContent('#live-state')).toBe(
          'Not live since 06:40 — the printed times still hold.',
        );
        expect(await page.locator('#live-state').isVisible()).toBe(true);
        expect(await page.textContent('.countdown-clock')).toBe('06:35');
        const again = await fakeBoard().board.start({ port: Number(new URL(running.url).port) });
        await isLive(page);
        expect(await page.locator('#live-state').isVisible()).toBe(false);
        await again.stop();
        expect(fake.requests).toEqual([]);
      }),
    TIME,
  );

  test(
    'countdowns and the clock follow the server’s time',
    () =>
      withPage({ timezoneId: 'Asia/Tokyo' }, async ({ page, url, fake }) => {
        await page.goto(url);
        await isLive(page);
        const left = page.locator('#p-rig-rig-1 .countdown-left').nth(1);
        expect(await left.textContent()).toMatch(/^1 h 1[12] min left$/);
        fake.now = START + 80 * 60_000;
        fake.board.changed();
        await page.waitForFunction(() => document.getElementById('clock')?.textContent === '08:00');
        expect(await left.textContent()).toBe('passed 7 min ago');
      }),
    TIME,
  );
});
