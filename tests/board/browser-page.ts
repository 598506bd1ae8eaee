import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, expect } from 'vitest';
import type { BoardServices, RunningBoard } from '../../adapters/board/services.ts';
import { launchBrowser } from './browser.ts';
import { type Fake, fakeBoard } from './fakes.ts';

/** A browser on a busy machine may take its time; how long says nothing about the board. */
export const TIME = 120_000;

export interface Visit {
  readonly fake: Fake;
  readonly running: RunningBoard;
  readonly page: Page;
  readonly url: string;
  readonly faults: string[];
}

let browser: Browser | null = null;

/** Call at the top of a test file that needs a browser. */
export function useBrowser(): void {
  beforeAll(async () => {
    browser = await launchBrowser();
  }, TIME);
  afterAll(() => browser?.close());
}

/** One board, one browser window; what its console complains of is collected. */
export async function withPage(
  options: BrowserContextOptions & {
    readonly host?: string;
    readonly services?: Partial<BoardServices>;
  },
  act: (visit: Visit) => Promise<void>,
): Promise<void> {
  if (browser === null) throw new Error('call useBrowser() at the top of the test file');
  const { host = '127.0.0.1', services, ...more } = options;
  const fake = fakeBoard({ hostNames: ['board.shed.test'], ...services });
  const running = await fake.board.start({ port: 0 });
  const url = running.url.replace('127.0.0.1', host);
  const context = await browser.newContext({ viewport: { width: 1400, height: 900 }, ...more });
  const page = await context.newPage();
  page.setDefaultTimeout(15_000);
  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(error.message));
  page.on('console', (line) => {
    if (/Content Security Policy|Uncaught/.test(line.text())) faults.push(line.text());
  });
  try {
    await act({ fake, running, page, url, faults });
    expect(faults).toEqual([]);
  } finally {
    await context.close();
    await running.stop();
  }
}

export const isLive = (page: Page) => page.waitForSelector('html[data-live=on]');
export async function logIn(page: Page, url: string, next = '/'): Promise<void> {
  await page.goto(`${url}/login?${new URLSearchParams({ who: 'ada', next })}`);
  await page.fill('#pin', '4711');
  await page.keyboard.press('Enter');
  await page.waitForSelector('#log-out');
}
