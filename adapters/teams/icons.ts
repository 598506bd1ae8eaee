import { type Pixel, png } from './png.ts';

/** The board's own drawing, a pot with its lid lifted like a bell, on the same grid of 40 by 40. */
const GRID = 40;
/** Pieces of a pixel looked at either way, so that round edges are not stairs. */
const FINE = 4;

const GROUND = [0x1f, 0x3d, 0x4d] as const;
const WHITE = [255, 255, 255] as const;
export const ACCENT = `#${GROUND.map((part) => part.toString(16).padStart(2, '0')).join('')}`;

function inPot(x: number, y: number): boolean {
  if (x < 6 || x > 34 || y < 19 || y > 36) return false;
  // Its lower corners are round.
  const beyondX = Math.max(11 - x, x - 29, 0);
  const beyondY = Math.max(y - 31, 0);
  return Math.hypot(beyondX, beyondY) <= 5;
}

/** Above its rim, the half of an ellipse; `grown` makes it larger all round. */
function inLid(x: number, y: number, grown: number): boolean {
  if (y > 15 + Math.min(grown, 0)) return false;
  return ((x - 20) / (12.5 + grown)) ** 2 + ((y - 15) / (11 + grown)) ** 2 <= 1;
}

const inKnob = (x: number, y: number): boolean => Math.hypot(x - 20, y - 15) <= 2.6 && y > 12;

function inDrawing(x: number, y: number): boolean {
  return inPot(x, y) || (inLid(x, y, 0) && !inLid(x, y, -2.2)) || inKnob(x, y);
}

/** 0 to 1: how much of the pixel the drawing covers; it fills `share` of the picture. */
function covered(size: number, share: number, x: number, y: number): number {
  let hits = 0;
  for (let i = 0; i < FINE; i += 1)
    for (let j = 0; j < FINE; j += 1) {
      const on = (at: number, part: number) =>
        (((at + (part + 0.5) / FINE) / size - 0.5) / share + 0.5) * GRID;
      if (inDrawing(on(x, i), on(y, j))) hits += 1;
    }
  return hits / FINE ** 2;
}

/** 192 by 192, full colour. Sizes: the manifest's schema, "icons". */
export function colorIcon(): Uint8Array {
  return png(192, (x, y): Pixel => {
    const part = covered(192, 0.72, x, y);
    const mixed = GROUND.map((ground, i) => Math.round(ground + ((WHITE[i] ?? 255) - ground) * part));
    const [red = 0, green = 0, blue = 0] = mixed;
    return [red, green, blue, 255];
  });
}

/** 32 by 32, white on nothing. */
export function outlineIcon(): Uint8Array {
  return png(32, (x, y): Pixel => [255, 255, 255, Math.round(covered(32, 0.95, x, y) * 255)]);
}
