import { mkdirSync, rmdirSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import chromium from '@sparticuz/chromium';
import { type Browser, type Page, chromium as playwright } from 'playwright-core';

const quiet = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

const lock = join(tmpdir(), 'potbell-chromium.lock');
const STALE_MS = 120_000;

/**
 * Where the browser is. It unpacks itself at first use, and a second test file must not start it half unpacked: one
 * at a time. A lock left by a killed run is taken away after two minutes.
 */
async function unpacked(): Promise<string> {
  for (;;) {
    try {
      mkdirSync(lock);
      break;
    } catch {
      const since = statSync(lock, { throwIfNoEntry: false })?.mtimeMs ?? Number.POSITIVE_INFINITY;
      if (Date.now() - since > STALE_MS) rmdirSync(lock);
      else await pause(200);
    }
  }
  try {
    return await chromium.executablePath();
  } finally {
    rmdirSync(lock);
  }
}

/** A headless browser. Names ending in `.shed.test` lead to this machine, as plain http from another one would. */
export async function launchBrowser(more: readonly string[] = []): Promise<Browser> {
  return playwright.launch({
    executablePath: await unpacked(),
    args: [...quiet, '--host-resolver-rules=MAP *.shed.test 127.0.0.1', ...more],
    headless: true,
  });
}

/** Kept as build output for people to look at; never committed. */
export async function screenshot(page: Page, name: string): Promise<void> {
  mkdirSync('build/screenshots', { recursive: true });
  await page.screenshot({ path: `build/screenshots/${name}.png`, fullPage: true });
}
