import { zlibSync } from 'fflate';

/** Red, green, blue and how much it covers, 0 to 255 each. */
export type Pixel = readonly [red: number, green: number, blue: number, alpha: number];

/** A square picture as PNG, 8 bits a channel with alpha. Source: W3C, Portable Network Graphics, third edition. */
export function png(size: number, at: (x: number, y: number) => Pixel): Uint8Array {
  const row = 1 + size * 4;
  const raw = new Uint8Array(size * row);
  for (let y = 0; y < size; y += 1) for (let x = 0; x < size; x += 1) raw.set(at(x, y), y * row + 1 + x * 4);
  const head = new Uint8Array(13);
  const view = new DataView(head.buffer);
  view.setUint32(0, size);
  view.setUint32(4, size);
  // 8 bits, colour with alpha; compression, filter and interlace as there is one of each.
  head.set([8, 6, 0, 0, 0], 8);
  return joined([
    Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a),
    chunk('IHDR', head),
    chunk('IDAT', zlibSync(raw, { level: 9 })),
    chunk('IEND', new Uint8Array(0)),
  ]);
}

function chunk(name: string, data: Uint8Array): Uint8Array {
  const named = joined([new TextEncoder().encode(name), data]);
  const made = new Uint8Array(named.length + 8);
  const view = new DataView(made.buffer);
  view.setUint32(0, data.length);
  made.set(named, 4);
  view.setUint32(named.length + 4, crc32(named));
  return made;
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const made = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    made.set(part, at);
    at += part.length;
  }
  return made;
}

/** Annex D of the same source. */
function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}
