import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Composed, compose, openStore } from '../../adapters/cli/compose.ts';
import { type HandClock, handClock } from '../../adapters/cli/hand-clock.ts';
import { loadSite, loadWords } from '../../adapters/cli/site.ts';
import { verifyRecord } from '../../adapters/record/verify-record.ts';
import { flushSteps, rigChecks } from '../../src/model/checks.ts';
import { instantOf } from '../../src/model/time.ts';
import type { Texts } from '../../src/texts/texts.ts';
import { axeFinds } from '../board/axe-finds.ts';
import { launchBrowser, screenshot } from '../board/browser.ts';

/**
 * The demo day as people do it: real board, real store, real browser; only the clock is moved by hand. Screenshots are
 * left in build/screenshots/ for people to look at.
 */
const DATE = '2026-06-08';
const site = loadSite();
const textsFor = loadWords(site);
const texts = textsFor('en');
const silent = { info: () => undefined, warn: () => undefined, error: () => undefined };

describe('the demo day in a browser', () => {
  const folder = mkdtempSync(join(tmpdir(), 'potbell-e2e-'));
  let browser: Browser;
  let potbell: Composed;
  let clock: HandClock;
  let board: { readonly url: string; stop(): Promise<void> };
  let shed: Page;
  let phone: Page;
  const faults: string[] = [];

  const time = (hhmm: string) => instantOf(DATE, hhmm, site.pack.site.timeZone);
  /** Let the site's clock go on, ringing what comes due on the way. */
  async function passTo(hhmm: string): Promise<void> {
    for (;;) {
      const next = await potbell.store.earliestBell();
      if (next === null || next > time(hhmm)) break;
      clock.set(next);
      await potbell.host.bells.runDue();
      await potbell.host.outbox.drain();
    }
    clock.set(time(hhmm));
    await potbell.host.outbox.drain();
    potbell.board.changed();
  }

  async function newPage(width: number, height: number): Promise<Page> {
    const context = await browser.newContext({ viewport: { width, height } });
    const page = await context.newPage();
    page.on('pageerror', (error) => faults.push(error.message));
    return page;
  }

  const main = (page: Page) => page.locator('main');
  // biome-ignore lint/performance/useDomNodeTextContent: what people can see is the point; hidden text is not.
  const words = (page: Page) => main(page).innerText();
  const open = (page: Page, path: string) => page.goto(`${board.url}${path}`);

  async function press(page: Page, name: string | RegExp, within = main(page)): Promise<void> {
    const named = typeof name === 'string' ? { name, exact: true } : { name };
    await within.getByRole('button', named).or(within.getByRole('link', named)).first().click();
    await page.waitForLoadState();
  }

  async function logIn(page: Page, name: string): Promise<void> {
    if (!page.url().includes('/login')) await open(page, '/login');
    await press(page, name);
    const person = site.pack.people.find((one) => one.name === name)?.id ?? '';
    await page.locator('input[name=pin]').fill(site.demoPins[person] ?? '');
    await page.locator('input[name=pin]').press('Enter');
    await page.waitForLoadState();
  }

  /** A log-in ends by itself after ten minutes of the board's clock, so there may be nothing to log out of. */
  async function logOut(page: Page): Promise<void> {
    await page.context().clearCookies();
    await open(page, '/');
  }

  /** Answer until right, then sign, in one's own language. A wrong answer brings another question; three choices, so it ends. */
  async function signAs(page: Page, name: string): Promise<void> {
    const { language } = site.pack.people.find((one) => one.name === name) ?? { language: 'en' };
    const own = textsFor(language);
    await logIn(page, name);
    await open(page, '/sign-off');
    expect(await page.locator('html').getAttribute('lang')).toBe(language);
    if (language !== 'en') await screenshot(page, `day-03-sign-off-${language}`);
    await answerAndSign(page, '#p-own-sign-off', own);
    expect(await words(page)).toContain(own.say('done.sign'));
    await logOut(page);
  }

  /** `panel` asks the first question; each answer then brings the next press with it. */
  async function answerAndSign(page: Page, panel: string, own: Texts = texts): Promise<void> {
    let within = page.locator(panel);
    for (let tries = 0; tries < 12; tries += 1) {
      const name = new RegExp([own.say('sign.question'), own.say('sign.next-question')].join('|'));
      const next = within.getByRole('link', { name }).or(within.getByRole('button', { name }));
      if ((await next.count()) === 0) break;
      await next.first().click();
      await page.waitForLoadState();
      await page
        .locator('main input[type=radio]')
        .nth(tries % 3)
        .check();
      await press(page, own.say('form.read-back.submit'));
      within = page.locator('.said');
    }
    await press(page, own.say('sign.sign'), within);
  }

  beforeAll(async () => {
    browser = await launchBrowser();
    clock = handClock(time('06:40'));
    potbell = await compose(site, openStore(join(folder, 'potbell.db')), clock, silent);
    board = await potbell.board.start({ port: 0 });
    shed = await newPage(1440, 900);
    phone = await newPage(390, 844);
  }, 180_000);

  afterAll(async () => {
    await browser?.close();
    await board?.stop();
    await potbell?.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  it('the foreman posts the day; the briefing goes out at the prestart time', async () => {
    await open(phone, '/');
    await press(phone, 'Post the day');
    await logIn(phone, 'Ines');
    await screenshot(phone, 'day-01-post');
    await phone.locator('[name=date]').fill(DATE);
    await phone.locator('[name=start]').fill('07:30');
    await phone.locator('[name=end]').fill('16:30');
    await phone.locator('[name=breaks]').fill('10:00-10:20, 12:30-13:15');
    await press(phone, 'Post the day');
    expect(await words(phone)).toContain('Day posted.');
    expect(await words(phone)).toContain('The briefing goes out at 07:00.');
    await passTo('07:00');
    await open(shed, '/briefing');
    const briefing = await words(shed);
    for (const part of ['225 bar', 'Rig 1 (large pump)', 'isocyanate', 'Who signs', 'Ines: not signed'])
      expect(briefing).toContain(part);
    await screenshot(shed, 'day-02-briefing');
    await logOut(phone);
  });

  it('people answer and sign with their own PIN; a concern holds the start until it is answered', async () => {
    for (const name of ['Ines', 'Duarte', 'Marta', 'Rui', 'Livia', 'Clara', 'Tomas'])
      await signAs(phone, name);
    await logIn(phone, 'Bento');
    await open(phone, '/sign-off');
    await screenshot(phone, 'day-03-sign-off');
    await press(phone, 'Something is wrong: raise a concern');
    await phone.locator('[name=text]').fill('The earth clamp of rig 2 sits on painted steel.');
    await press(phone, 'Raise the concern');
    await logOut(phone);
    await open(shed, '/');
    expect(await words(shed)).toContain('Open concern: The earth clamp of rig 2 sits on painted steel.');

    await logIn(phone, 'Ines');
    await open(phone, '/');
    await press(phone, 'Answer the concern');
    await phone.locator('[name=text]').fill('Moved to bare metal.');
    await press(phone, 'Resolve it');
    await open(phone, '/sign-off');
    await answerAndSign(phone, '#p-witness-nuno');
    await logOut(phone);
    await signAs(phone, 'Bento');
    await open(shed, '/');
    const today = await words(shed);
    expect(today).toContain('Everybody on the list has signed.');
    expect(today).toContain('witnessed by Ines');
  }, 180_000);

  it('rig checks and a reading; a small margin is a hold', async () => {
    await logIn(phone, 'Duarte');
    for (const rig of ['rig-1', 'rig-2']) {
      await open(phone, `/form/check-rig?rig=${rig}`);
      for (const check of rigChecks) await phone.locator(`input[name="${check}"][value=ok]`).check();
      await press(phone, 'Rig checked');
    }
    await open(phone, '/form/take-reading');
    await phone.locator('[name=airC]').fill('14,5');
    await phone.locator('[name=rhPct]').fill('78');
    await phone.locator('[name=steelC]').fill('13.6');
    await press(phone, 'Note the reading');
    expect(await words(phone)).toContain('Dew point 10.8 °C, margin 2.8 °C');
    await open(shed, '/');
    expect(await words(shed)).toContain('steel is 2.8 °C over the dew point. At least 3 °C is needed.');
    clock.set(time('08:10'));
    await logIn(phone, 'Duarte');
    await open(phone, '/form/take-reading');
    await phone.locator('[name=airC]').fill('16');
    await phone.locator('[name=wetC]').fill('13');
    await phone.locator('[name=steelC]').fill('15.8');
    await press(phone, 'Note the reading');
    await open(shed, '/');
    expect(await words(shed)).toContain('No hold known to Potbell. That is no permission.');
    await logOut(phone);
  });

  it('a batch starts the clock; nonsense is refused with what to write, and nothing typed is lost', async () => {
    clock.set(time('08:15'));
    await logIn(phone, 'Bento');
    await open(phone, '/form/mix-batch?rig=rig-1');
    await phone.locator('[name=paintC]').fill('280');
    await press(phone, 'Start the clock');
    expect(await words(phone)).toContain('Is it the right unit?');
    expect(await phone.locator('[name=paintC]').inputValue()).toBe('280');
    await phone.locator('[name=paintC]').fill('18');
    await press(phone, 'Start the clock');
    const done = await words(phone);
    for (const part of [
      'use by 10:10',
      'Start the flush by 10:35',
      'Dead at 10:49',
      'Runs out about the break 10:00 to 10:20',
    ])
      expect(done).toContain(part);
    await screenshot(phone, 'day-04-batch');
    await logOut(phone);
  });

  it('a figure is followed to its formula and source in two clicks, on the shed screen and on a phone', async () => {
    for (const [page, name] of [
      [shed, 'day-04-why-shed'],
      [phone, 'day-04-why-phone'],
    ] as const) {
      await open(page, '/');
      await press(page, 'Where the figures come from');
      const told = await words(page);
      expect(told).toContain('45 × 5 bar = 225 bar at the pump.');
      expect(told).toContain('Source: force balance on the two pistons of the pump');
      await screenshot(page, name);
    }
    await open(shed, '/');
    await screenshot(shed, 'day-04-shed');
  });

  it('the bell is seen and heard on the open board, and answered once for everybody', async () => {
    await open(shed, '/');
    const rung = shed.locator('#bells').filter({ hasText: 'USE BY 10:10. Stop' });
    await passTo('10:11');
    await rung.first().waitFor();
    await screenshot(shed, 'day-05-bell');
    await logIn(phone, 'Duarte');
    await open(phone, '/');
    // The break was rung for as well: each bell is answered by itself.
    const answers = phone.locator('#bells').getByRole('button', { name: 'I am on it' });
    for (let left = await answers.count(); left > 0; left -= 1)
      await press(phone, 'I am on it', phone.locator('#bells'));
    await rung.first().waitFor({ state: 'detached' });
    expect((await potbell.host.currentShift())?.bells['use-by:rig-1:line:rig-1-1']?.answered?.by).toBe(
      'duarte',
    );
  });

  it('the flush goes step by step in order; pressure relief cannot be left out', async () => {
    await logIn(phone, 'Duarte');
    await open(phone, '/');
    await press(phone, 'Start the flush');
    expect(await words(phone)).not.toContain('Leave it out');
    await screenshot(phone, 'day-06-flush');
    for (const step of flushSteps) {
      const form = ['primary-flush', 'secondary-flush', 'solvent-away'].includes(step);
      await open(phone, '/');
      await press(phone, texts.say(`press.${step}`), phone.locator('#p-rig-rig-1'));
      if (!form) continue;
      await phone.locator('[name=litres]').fill('6');
      await press(phone, 'Done');
    }
    const rig = (await potbell.host.currentShift())?.rigs['rig-1'];
    expect(rig).toMatchObject({ flush: null, line: null, pot: null });
    expect(Object.keys(rig?.flushes[0]?.steps ?? {})).toHaveLength(flushSteps.length);
    await logOut(phone);
  });

  it('anybody stops the work with one tap; only the foreman clears it', async () => {
    await open(phone, '/');
    await phone.locator('header').getByRole('button', { name: 'Stop work' }).click();
    await phone.waitForLoadState();
    await open(shed, '/');
    expect(await words(shed)).toContain('STOP WORK');
    await screenshot(shed, 'day-07-stop');
    await logIn(phone, 'Duarte');
    await open(phone, '/form/clear-stop-work');
    await phone.locator('[name=text]').fill('I think it is fine.');
    await press(phone, 'Clear it');
    expect(await words(phone)).toContain('Only the foreman can do this: Ines.');
    await logOut(phone);
    await logIn(phone, 'Ines');
    await open(phone, '/form/clear-stop-work');
    await phone.locator('[name=text]').fill('False alarm, looked at it with Duarte.');
    await press(phone, 'Clear it');
    expect((await potbell.host.currentShift())?.stop).toBeNull();
  });

  it('the emergency card is one tap away without a log-in', async () => {
    const stranger = await newPage(390, 844);
    await open(stranger, '/');
    await stranger.getByRole('link', { name: 'Emergency' }).click();
    const card = await words(stranger);
    for (const part of [
      'Surgical emergency, however small the hole',
      '112',
      'Gate 2, Quay Road',
      'High-pressure injection injury',
    ])
      expect(card).toContain(part);
    await screenshot(stranger, 'day-08-emergency');
  });

  it('the shift closes into a record that prints and verifies', async () => {
    await passTo('16:20');
    await logIn(phone, 'Ines');
    await open(phone, '/form/close-shift');
    await press(phone, 'Close the shift');
    await open(shed, '/record');
    await screenshot(shed, 'day-09-record');
    const id = (await potbell.host.currentShift())?.id ?? '';
    const json = await (await fetch(`${board.url}/file/${encodeURIComponent(id)}/json`)).text();
    expect(verifyRecord(json)).toMatchObject({ ok: true, problems: [] });
    await open(shed, `/file/${encodeURIComponent(id)}/html`).catch(() => undefined);
    const page = await (await fetch(`${board.url}/file/${encodeURIComponent(id)}/html`)).text();
    for (const part of ['Duarte', 'rig-1-1', 'Moved to bare metal.', 'False alarm'])
      expect(page).toContain(part);
    expect(faults).toEqual([]);
  });

  it('no page of that day has a fault that axe can find, and none is wider than a phone', async () => {
    for (const path of [
      '/',
      '/briefing',
      '/sign-off',
      '/notices',
      '/why',
      '/record',
      '/emergency',
      '/form/post-day',
    ]) {
      await open(phone, path);
      expect(await axeFinds(phone), path).toEqual([]);
      const over = () => document.documentElement.scrollWidth - document.documentElement.clientWidth;
      expect(await phone.evaluate(over), path).toBeLessThanOrEqual(0);
    }
  });
});
