import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { tempDir } from './temp-dir.ts';

/** An invented site pack without a fault. Each case of a broken pack changes one thing in it. */
export const goodPack: Readonly<Record<string, string>> = {
  'site.yaml': `id: north-jetty
name: North Jetty
timeZone: Europe/Lisbon
prestart: "06:40"
emergency:
  call: "112"
  address: Gate 1
  hospital: Harbour Hospital
  firstAider: ben
  assembly: Car park
  eyewash: Mixing bench
`,
  'people.yaml': `- id: ana
  name: Ana
  roles: [foreman]
- id: ben
  name: Ben
  roles: [safety]
- id: cid
  name: Cid
  roles: [sprayer]
- id: dora
  name: Dora
  roles: [mixer]
`,
  'coatings.yaml': `- id: epoxy-mid
  name: Epoxy intermediate
  family: epoxy
  parts: 2
  mixRatio: { a: 4, b: 1 }
  volumeSolids: 80
  potLife:
    - { c: 15, minutes: 180 }
    - { c: 23, minutes: 120 }
  thinner: { name: Thinner E, maxPercent: 5 }
  flushSolvent: Cleaner E
  flashPointC: 31
  dft: { min: 100, max: 200 }
  hazards: [H226, H317]
  isocyanate: false
  tip: "519"
- id: pu-finish
  name: Polyurethane finish
  family: polyurethane
  parts: 2
  mixRatio: { a: 6, b: 1 }
  volumeSolids: 57
  potLife: [{ c: 23, minutes: 150 }]
  flushSolvent: Cleaner U
  hazards: [H226, H334]
  isocyanate: true
`,
  'rigs.yaml': `- id: rig-1
  name: Rig 1
  drive: air
  ratio: 45
  ratings:
    - { part: hose, bar: 280 }
    - { part: gun, bar: 345 }
  hoses:
    - { boreMm: 10, lengthM: 30 }
  litresPerCycle: 0.09
  flushCyclesPerMinute: 30
- id: rig-2
  name: Rig 2
  drive: electric
  maxFluidBar: 220
  ratings:
    - { part: hose, bar: 230 }
    - { part: gun, bar: 250 }
  hoses:
    - { boreMm: 6.4, lengthM: 15 }
  litresPerCycle: 0.04
  flushCyclesPerMinute: 40
`,
  'policy.yaml': `lossPct: 35
reservePct: 30
`,
  'pins.yaml': `ana: "scrypt:32768:8:1:c2FsdHNhbHRzYWx0c2FsdA==:aGFzaGhhc2hoYXNoaGFzaGhhc2hoYXNoaGFzaGhhc2g="
`,
  'days/monday.yaml': `date: 2026-06-08
start: 07:30
end: 16:30
surroundings: open-air
weather: { airC: 22, rhPct: 60 }
jobs:
  - area: Span 2
    coating: epoxy-mid
    coat: intermediate
    dftUm: 150
    areaM2: 110
    rig: rig-1
    airBar: 5
    sprayers: [cid]
    mixers: [dora]
others: [ana, ben]
`,
};

/** Writes the good pack into a new folder, with `changes` in place of its files; null leaves a file out. */
export function writePack(changes: Readonly<Record<string, string | Uint8Array | null>> = {}): string {
  const dir = tempDir();
  for (const [name, content] of Object.entries({ ...goodPack, ...changes })) {
    if (content === null) continue;
    mkdirSync(dirname(join(dir, name)), { recursive: true });
    writeFileSync(join(dir, name), content);
  }
  return dir;
}

/** One file of the good pack with `from` replaced by `to`; throws when `from` is not there, so no case goes stale. */
export function changed(file: string, from: string, to: string): Readonly<Record<string, string>> {
  const text = goodPack[file];
  if (!text?.includes(from)) throw new Error(`${file} of the good pack has no "${from}"`);
  return { [file]: text.replace(from, to) };
}
