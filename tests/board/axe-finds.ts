import axe, { type AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';

/** What axe finds, by rule and place; body text is held to the enhanced contrast as well. */
export async function axeFinds(page: Page): Promise<readonly string[]> {
  await page.evaluate(axe.source);
  const results = await page.evaluate(async () => {
    const { axe: here } = globalThis as unknown as { axe: typeof axe };
    return (await here.run({ rules: { 'color-contrast-enhanced': { enabled: true } } })) as AxeResults;
  });
  // Without this an axe that ran no such rule would look like a page without faults.
  expect(results.passes.map(({ id }) => id)).toContain('color-contrast-enhanced');
  return results.violations.flatMap(({ id, nodes }) =>
    nodes.map((node) => `${id}: ${node.html.slice(0, 120)} ${node.failureSummary}`),
  );
}
