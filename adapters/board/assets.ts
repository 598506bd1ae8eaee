import { createHash } from 'node:crypto';
import type { Hono } from 'hono';
import { clientScript } from './client-script.ts';
import type { BoardEnv } from './services.ts';
import { styles } from './styles.ts';

const iconSvg =
  '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 40"><rect width="40" height="40" rx="6" fill="#0c3c42"/><path fill="#fff" d="M9 20h22v9a4 4 0 0 1-4 4H13a4 4 0 0 1-4-4Z"/><path fill="none" stroke="#fff" stroke-width="3" d="M11 15c1-6 5-8 9-8s8 2 9 8Z"/></svg>';

const files = {
  css: { name: 'board.css', type: 'text/css; charset=utf-8', body: styles },
  js: { name: 'board.js', type: 'text/javascript; charset=utf-8', body: clientScript },
  icon: { name: 'icon.svg', type: 'image/svg+xml', body: iconSvg },
} as const;

/** Changes when the look or the script changes: addresses carry it, and open pages reload when they learn of a new one. */
export const build = createHash('sha256')
  .update(
    Object.values(files)
      .map((file) => file.body)
      .join('\0'),
  )
  .digest('hex')
  .slice(0, 12);

export const assetPaths = {
  css: `/assets/${build}/board.css`,
  js: `/assets/${build}/board.js`,
  icon: `/assets/${build}/icon.svg`,
} as const;

export function assetRoutes(app: Hono<BoardEnv>): void {
  for (const file of Object.values(files)) {
    app.get(`/assets/:build/${file.name}`, (c) => {
      const current = c.req.param('build') === build;
      c.header('Cache-Control', current ? 'public, max-age=31536000, immutable' : 'no-store');
      return c.body(file.body, 200, { 'Content-Type': file.type });
    });
  }
}
