import { existsSync, readFileSync } from 'node:fs';

const headerBytes = 32;
const frameHeaderBytes = 24;

/**
 * SQLite reads its write-ahead log up to the first frame whose checksum fails and takes the rest for a write that a
 * crash interrupted. A damaged frame in the middle therefore drops commits without a word that people were told are
 * kept. One interrupted commit at the very end is normal; anything of this log after it is not, because each commit
 * was synced to the disk before the next began.
 *
 * Damage inside the very last commit looks the same as an interrupted one and cannot be told apart.
 * Format: https://www.sqlite.org/fileformat2.html#walformat
 */
export function walDamage(walFile: string): string | null {
  if (!existsSync(walFile)) return null;
  const first = readFileSync(walFile);
  const found = damageIn(first);
  // While another process writes, one reading can mix old and new frames; then the next reading differs.
  if (found !== null && !readFileSync(walFile).equals(first)) return null;
  return found;
}

function damageIn(wal: Buffer): string | null {
  if (wal.length <= headerBytes) return null;
  const magic = wal.readUInt32BE(0);
  if (magic !== 0x377f0682 && magic !== 0x377f0683) return 'its write-ahead log does not begin like one';
  const sum = checksum(magic === 0x377f0683);
  sum.add(wal, 0, headerBytes - 8);
  if (!sum.equals(wal, headerBytes - 8)) return 'the head of its write-ahead log does not match its checksum';
  const frameBytes = frameHeaderBytes + wal.readUInt32BE(8);
  const salts = wal.subarray(16, 24);
  let broken = false;
  let commitAfterBreak = false;
  for (let at = headerBytes; at + frameBytes <= wal.length; at += frameBytes) {
    const ofThisLog = wal.subarray(at + 8, at + 16).equals(salts);
    if (!broken) {
      sum.add(wal, at, 8);
      sum.add(wal, at + frameHeaderBytes, frameBytes - frameHeaderBytes);
      broken = !ofThisLog || !sum.equals(wal, at + 16);
    }
    if (!broken || !ofThisLog) continue;
    if (commitAfterBreak)
      return 'its write-ahead log is broken in the middle, so confirmed entries would be missing';
    commitAfterBreak = wal.readUInt32BE(at + 4) !== 0;
  }
  return null;
}

/** The running Fibonacci-weighted sum of the format; words are big- or little-endian by the log's first number. */
function checksum(bigEndian: boolean) {
  let s0 = 0;
  let s1 = 0;
  return {
    add(bytes: Buffer, from: number, length: number): void {
      for (let at = from; at < from + length; at += 8) {
        const x0 = bigEndian ? bytes.readUInt32BE(at) : bytes.readUInt32LE(at);
        const x1 = bigEndian ? bytes.readUInt32BE(at + 4) : bytes.readUInt32LE(at + 4);
        s0 = (s0 + x0 + s1) >>> 0;
        s1 = (s1 + x1 + s0) >>> 0;
      }
    },
    equals(bytes: Buffer, at: number): boolean {
      return bytes.readUInt32BE(at) === s0 && bytes.readUInt32BE(at + 4) === s1;
    },
  };
}
