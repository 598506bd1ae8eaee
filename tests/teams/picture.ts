import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type * as Official from 'adaptivecards';
import type { Page } from 'playwright-core';
import type { Card } from '../../adapters/teams/render-card.ts';
import type { Dict } from '../peers/slack/json.ts';
import { escapeHtml } from '../slack/picture.ts';
import { hostConfig, ownStyle, type Theme } from './picture-look.ts';

const file = (name: string): string =>
  readFileSync(createRequire(import.meta.url).resolve(`adaptivecards/dist/${name}`), 'utf8');
/** The official renderer, 3.0.6 (MIT). */
const renderer = file('adaptivecards.min.js');
const rendererStyle = file('adaptivecards.css');

export const cardStyle = (theme: Theme): string => rendererStyle + ownStyle(theme);

/** A place in a page where `drawCards` puts the card. */
export const cardSlot = (card: Card | Dict): string =>
  `<div class="slot" data-card="${escapeHtml(JSON.stringify(card))}"></div>`;

/** A page for cards, without anything that leads out of it. */
export const cardPage = (theme: Theme, body: string): string =>
  `<!doctype html><html lang="en"><head><meta charset="utf-8"><style>${cardStyle(theme)}</style></head><body>${body}</body></html>`;

/**
 * Has the official renderer draw every card of the page, at version 1.5. `open`: with what is folded away. Returns what the
 * parser said about them, which is nothing for a good card.
 */
export async function drawCards(page: Page, theme: Theme, open = false): Promise<readonly string[]> {
  await page.addScriptTag({ content: renderer });
  return page.evaluate(
    ([config, unfold]) => {
      const official = (window as unknown as { AdaptiveCards: typeof Official }).AdaptiveCards;
      // The platform reads bold and mentions (learn.microsoft.com/microsoftteams/platform/task-modules-and-cards/cards/
      // cards-format); the other marks are made harmless before they come here.
      official.AdaptiveCard.onProcessMarkdown = (words, result) => {
        const safe = words.replace(/<(?!\/?at>)/g, '&lt;');
        result.outputHtml = safe
          .replace(/\*\*(.+?)\*\*/g, '<b>$1</b>')
          .replace(/<at>(.*?)<\/at>/g, '<b>$1</b>');
        result.didProcess = true;
      };
      const events: string[] = [];
      for (const slot of document.querySelectorAll<HTMLElement>('[data-card]')) {
        const card = JSON.parse(slot.dataset.card ?? '', (key, value) =>
          unfold && key === 'isVisible' ? undefined : value,
        );
        const parsed = new official.AdaptiveCard();
        parsed.hostConfig = new official.HostConfig(config);
        const context = new official.SerializationContext(official.Versions.v1_5);
        parsed.parse(card, context);
        for (let at = 0; at < context.eventCount; at += 1) events.push(context.getEventAt(at).message);
        const drawn = parsed.render();
        if (drawn === undefined) events.push('nothing was drawn');
        else slot.replaceChildren(drawn);
      }
      return events;
    },
    [hostConfig(theme), open] as const,
  );
}

export interface Drawn {
  /** What can be read, in its order, without white space. */
  readonly read: string;
  /** Words that do not fit where they stand, and what is wider than the card. */
  readonly cut: readonly string[];
  /** Words with less than 4.5 : 1 against what is behind them. Source: WCAG 2.2, 1.4.3. */
  readonly faint: readonly string[];
  /** Buttons and choices lower than 24 px. Source: WCAG 2.2, 2.5.8. */
  readonly small: readonly string[];
}

/** What a person can make of each drawn card of the page. */
export function lookAt(page: Page): Promise<readonly Drawn[]> {
  return page.evaluate(() => {
    const channels = (colour: string) => (colour.match(/[\d.]+/g) ?? []).map(Number);
    const light = (colour: string): number => {
      const [r = 0, g = 0, b = 0] = channels(colour).map((one) => {
        const share = one / 255;
        return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
      });
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    const behind = (node: Element | null): string => {
      if (node === null) return 'rgb(255, 255, 255)';
      const { backgroundColor } = getComputedStyle(node);
      return channels(backgroundColor)[3] === 0 ? behind(node.parentElement) : backgroundColor;
    };
    const contrast = (node: Element): number => {
      const [low = 0, high = 0] = [light(getComputedStyle(node).color), light(behind(node))].sort(
        (one, other) => one - other,
      );
      return (high + 0.05) / (low + 0.05);
    };
    const seen = (node: Element) => (node as HTMLElement).offsetParent !== null;
    return [...document.querySelectorAll<HTMLElement>('[data-card]')].map((slot) => {
      const all = [...slot.querySelectorAll<HTMLElement>('*')].filter(seen);
      const own = all.filter((node) =>
        [...node.childNodes].some(
          (one) => one.nodeType === Node.TEXT_NODE && (one.textContent ?? '').trim() !== '',
        ),
      );
      const words = (node: Element) => (node.textContent ?? '').trim().slice(0, 80);
      const edge = slot.getBoundingClientRect().right;
      const cut = all.filter((node) => {
        if (node.matches('option, select, input, textarea')) return false;
        const { overflow } = getComputedStyle(node);
        const hidden =
          overflow !== 'visible' &&
          (node.scrollWidth > node.clientWidth + 1 || node.scrollHeight > node.clientHeight + 1);
        return hidden || node.getBoundingClientRect().right > edge + 1;
      });
      const buttons = all.filter((node) => node.matches('button'));
      const fields = [...slot.querySelectorAll<HTMLInputElement>('input[type=text], textarea')];
      return {
        // biome-ignore lint/performance/useDomNodeTextContent: only what is seen counts
        read: [slot.innerText, ...fields.map(({ value }) => value)].join('\n').replace(/\s/g, ''),
        cut: cut.map(words),
        faint: own.filter((node) => !node.matches('option') && contrast(node) < 4.5).map(words),
        small: buttons.filter((node) => node.getBoundingClientRect().height < 24).map(words),
      };
    });
  });
}
