import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Card } from '../../adapters/teams/render-card.ts';
import { launchBrowser } from '../board/browser.ts';
import { cardPage, cardSlot, type Drawn, drawCards, lookAt } from './picture.ts';
import { cardsOf, days } from './picture-days.ts';
import type { Theme } from './picture-look.ts';
import { readCard } from './render-check.ts';

const FOLDER = 'build/teams-cards';
/** CSS pixels of a card on a phone (a screen of 360 with the frame of a conversation), and on a wide screen. */
const widths = { phone: 336, wide: 876 } as const;
const ON_ONE_PICTURE = 8;
/** CSS pixels. */
const TALLEST = 2400;

let browser: Browser;
beforeAll(async () => {
  rmSync(FOLDER, { recursive: true, force: true });
  mkdirSync(FOLDER, { recursive: true });
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
});

async function withCards<T>(
  cards: readonly Card[],
  theme: Theme,
  { width, columns = 1, open }: { width: keyof typeof widths; columns?: number; open: boolean },
  use: (page: Page) => Promise<T>,
): Promise<T> {
  const page = await browser.newPage({
    viewport: { width: columns * (widths[width] + 12) + 12, height: 760 },
  });
  const grid = `display:grid;grid-template-columns:repeat(${columns},${widths[width]}px);gap:12px;align-items:start`;
  try {
    await page.setContent(cardPage(theme, `<main style="${grid}">${cards.map(cardSlot).join('')}</main>`));
    expect(await drawCards(page, theme, open)).toEqual([]);
    return await use(page);
  } finally {
    await page.close();
  }
}

/** Looked at with everything unfolded. */
const drawn = (cards: readonly Card[], theme: Theme, width: keyof typeof widths): Promise<readonly Drawn[]> =>
  withCards(cards, theme, { width, open: true }, lookAt);

/** Kept for people to look at, as it comes: folded. Screen by screen, for the browser has no room for a picture of any height. */
const photograph = (cards: readonly Card[], theme: Theme, width: keyof typeof widths, name: string) =>
  withCards(cards, theme, { width, columns: width === 'wide' ? 1 : 4, open: false }, async (page) => {
    const all = await page.evaluate(() => document.documentElement.scrollHeight);
    const { width: wide } = page.viewportSize() ?? { width: widths.wide };
    await page.setViewportSize({ width: wide, height: Math.min(TALLEST, all) });
    for (let y = 0; y < all; y += TALLEST) {
      await page.evaluate((to) => window.scrollTo(0, to), y);
      await page.screenshot({ path: join(FOLDER, `${name}${y === 0 ? '' : `-${1 + y / TALLEST}`}.png`) });
    }
  });

const bare = (text: string): string => text.replace(/[\s\u200b]/g, '');

/** Each card in which a line of its texts cannot be read, or that is hard to use. */
function faults(cards: readonly Card[], looked: readonly Drawn[]): readonly string[] {
  return cards.flatMap((card, at) => {
    const { read = '', cut = [], faint = [], small = [] } = looked[at] ?? {};
    const shown = bare(read);
    const lost = readCard(card)
      .split('\n')
      .filter((line) => !shown.includes(bare(line)));
    return [
      ...lost.map((line) => `cannot be read: ${line}`),
      ...cut.map((line) => `is cut off: ${line}`),
      ...faint.map((line) => `is faint: ${line}`),
      ...small.map((line) => `is small: ${line}`),
    ].map((fault) => `${card.fallbackText}: ${fault}`);
  });
}

const cases = ['en', 'es', 'pt', 'pl'].flatMap((language) =>
  Object.entries(days).map(([name, play]) => [language, name, play] as const),
);
/** Most cards stand in several days; once is enough. */
const known = new Set<string>();
const unknown = (cards: readonly Card[]): readonly Card[] =>
  cards.filter((card) => {
    const key = JSON.stringify(card);
    return !known.has(key) && known.add(key);
  });

describe('cards as the official renderer draws them', () => {
  test.each(cases)('in %s, %s: nothing is lost, cut off or faint', async (language, name, play) => {
    const { messages, dialogs } = cardsOf(play, language);
    expect(messages.length).toBeGreaterThan(name === 'no day' ? 3 : 15);
    expect(dialogs.length).toBeGreaterThan(name === 'no day' ? 0 : 10);
    for (const [kind, all] of Object.entries({ messages, dialogs })) {
      const cards = unknown(all);
      if (cards.length === 0) continue;
      const looks = [['phone', 'dark'] as const, ['wide', 'light'] as const];
      // Wide there is room for any language; light and dark have the same sizes.
      for (const [width, theme] of language === 'en' ? looks : looks.slice(0, 1)) {
        expect(faults(cards, await drawn(cards, theme, width))).toEqual([]);
        // Enough to look at: the others have the same shapes.
        if (name !== 'flushing' && (language !== 'en' || width === 'wide')) continue;
        for (let from = 0; from < cards.length; from += ON_ONE_PICTURE) {
          const number = 1 + from / ON_ONE_PICTURE;
          const file = `${language}-${name.replace(' ', '-')}-${kind}-${number}-${width}-${theme}`;
          await photograph(cards.slice(from, from + ON_ONE_PICTURE), theme, width, file);
        }
      }
    }
  });

  test('what is lost, cut off, faint or refused is found', async () => {
    const base = {
      type: 'AdaptiveCard',
      $schema: '',
      version: '1.5',
      fallbackText: 'x',
      msteams: { width: 'Full' },
    } as const;
    const title = 'A title that is far too long for one button on a phone, whatever its letters';
    const press = { type: 'Action.Submit', title, data: {} } as const;
    const wide: Card = { ...base, body: [{ type: 'ActionSet', actions: [press, press] }] };
    const [look] = await drawn([wide], 'light', 'phone');
    expect(look?.cut).toEqual([title, title]);
    const other: Card = { ...base, body: [{ type: 'RichTextBlock', inlines: ['something else'] }] };
    expect(faults([wide], await drawn([other], 'light', 'phone'))[0]).toContain('cannot be read: A title');

    const page = await browser.newPage();
    await page.setContent(cardPage('light', cardSlot({ ...base, body: [{ type: 'Nonsense' }] })));
    expect(await drawCards(page, 'light')).toHaveLength(1);
    await page.setContent(cardPage('light', '<div data-card="{}"><p style="color:#bbb">Faint</p></div>'));
    expect((await lookAt(page))[0]?.faint).toEqual(['Faint']);
    await page.close();
  });
});
