import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { launchBrowser } from '../board/browser.ts';
import { escapeHtml } from '../slack/picture.ts';

/** Something people see, as HTML that stands for itself. */
export interface Shot {
  /** Goes into the file name: small letters and hyphens. */
  readonly name: string;
  readonly title: string;
  /** What happened just before, and at what time. */
  readonly note: string;
  /** Which of the forms it is, if it is one. */
  readonly form?: string | undefined;
  /** Drawn after the day: drawing takes so long that the app would lose its connection meanwhile. */
  body(): string;
}

/** How the pictures of one chat are drawn. */
export interface Look {
  /** A sentence for the index, without its full stop. */
  readonly drawnBy: string;
  page(title: string, note: string, body: string, width: Width): string;
  /** What a page does for itself once it is there; without it, pages run no scripts. */
  readonly draw?: (page: Page, width: Width) => Promise<void>;
}

export type Width = (typeof widths)[number]['name'];

/** Width of the picture in CSS pixels; `screen` is how much of it a phone shows at once. */
const widths = [
  { name: 'phone', width: 390, scale: 1.5, screen: 760 },
  { name: 'wide', width: 900, scale: 1, screen: null },
] as const;

/** A picture taller than this (CSS pixels) goes on in a second file. */
const TALLEST = 6000;

interface Taken {
  readonly shot: Shot;
  readonly phone: readonly string[];
  readonly wide: readonly string[];
  readonly screens: number;
}

/** Takes a picture of each on a phone and wide, and writes an index of them. The folder is emptied first. */
export async function takePictures(shots: readonly Shot[], look: Look, folder: string): Promise<number> {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  const browser = await launchBrowser();
  const taken: Taken[] = [];
  try {
    const files = new Map<string, string[]>();
    let screens = new Map<Shot, number>();
    const bodies = shots.map((shot) => shot.body());
    for (const { name, width, scale, screen } of widths) {
      const context = await browser.newContext({
        viewport: { width, height: 760 },
        deviceScaleFactor: scale,
        javaScriptEnabled: look.draw !== undefined,
      });
      const page = await context.newPage();
      for (const [at, shot] of shots.entries()) {
        const base = `${String(at + 1).padStart(3, '0')}-${shot.name}`;
        await page.setContent(look.page(shot.title, shot.note, bodies[at] ?? '', name));
        await look.draw?.(page, name);
        const height = await heightOf(page);
        if (screen !== null) screens = new Map(screens).set(shot, Math.ceil(height / screen));
        files.set(`${base} ${name}`, await photograph(page, folder, `${base}-${name}`, width, height));
      }
      await context.close();
    }
    for (const [at, shot] of shots.entries()) {
      const base = `${String(at + 1).padStart(3, '0')}-${shot.name}`;
      const of = (width: string) => files.get(`${base} ${width}`) ?? [];
      taken.push({ shot, phone: of('phone'), wide: of('wide'), screens: screens.get(shot) ?? 1 });
    }
  } finally {
    await browser.close();
  }
  writeFileSync(join(folder, 'index.html'), indexHtml(taken, look));
  return [...taken].flatMap(({ phone, wide }) => [...phone, ...wide]).length;
}

async function heightOf(page: Page): Promise<number> {
  const box = await page.locator('body').boundingBox();
  if (box === null) throw new Error('A page of the demo has no body to take a picture of.');
  return Math.ceil(box.height);
}

async function photograph(page: Page, folder: string, base: string, width: number, height: number) {
  const parts = Math.ceil(height / TALLEST);
  const names: string[] = [];
  for (let part = 0; part < parts; part += 1) {
    const name = `${base}${parts === 1 ? '' : `-${part + 1}`}.png`;
    const y = part * TALLEST;
    await page.screenshot({
      path: join(folder, name),
      fullPage: true,
      clip: { x: 0, y, width, height: Math.min(TALLEST, height - y) },
    });
    names.push(name);
  }
  return names;
}

function indexHtml(taken: readonly Taken[], { drawnBy }: Look): string {
  const image = (name: string, width: number) =>
    `<a href="${name}"><img src="${name}" width="${width}" loading="lazy" alt="${escapeHtml(name)}"></a>`;
  const rows = taken.map(
    ({ shot, phone, wide, screens }, at) => `<section><h2>${at + 1}. ${escapeHtml(shot.title)}</h2>
<p>${escapeHtml(shot.note)} Phone: ${screens} ${screens === 1 ? 'screen' : 'screens'} to scroll.</p>
<div>${phone.map((name) => image(name, 260)).join('')}${wide.map((name) => image(name, 600)).join('')}</div></section>`,
  );
  return `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>A day in the crew's chat</title>
<style>body{font:16px/1.4 sans-serif;margin:16px} div{display:flex;flex-wrap:wrap;gap:12px;align-items:flex-start} img{border:1px solid #999}</style>
</head><body><h1>A day in the crew's chat</h1>
<p>The invented demo site. ${drawnBy}, in plain frames: a look-alike, not the platform itself.</p>
${rows.join('\n')}</body></html>`;
}
