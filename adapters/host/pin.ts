import { randomBytes, scrypt, timingSafeEqual } from 'node:crypto';

/** Cost for four-digit secrets on a site laptop: about 50 ms a try. RFC 7914. */
const COST = { N: 16_384, r: 8, p: 1 } as const;

function derive(
  pin: string,
  salt: Buffer,
  { N, r, p }: { N: number; r: number; p: number },
): Promise<Buffer> {
  return new Promise((resolve, reject) => {
    scrypt(pin, salt, 32, { N, r, p, maxmem: 256 * N * r }, (error, key) =>
      error ? reject(error) : resolve(key),
    );
  });
}

/** A line for `pins.yaml`: "scrypt:N:r:p:salt:hash", salt and hash in base64url. */
export async function hashPin(pin: string): Promise<string> {
  const salt = randomBytes(16);
  const key = await derive(pin, salt, COST);
  return ['scrypt', COST.N, COST.r, COST.p, salt.toString('base64url'), key.toString('base64url')].join(':');
}

/** False for a wrong PIN and for a person who has none. Throws when the stored line is not one of ours. */
export async function verifyPin(pin: string, stored: string): Promise<boolean> {
  const [kind, N, r, p, salt, hash] = stored.split(':');
  if (kind !== 'scrypt' || !salt || !hash)
    throw new Error('a stored PIN is not a "scrypt:N:r:p:salt:hash" line');
  const key = await derive(pin, Buffer.from(salt, 'base64url'), { N: Number(N), r: Number(r), p: Number(p) });
  const expected = Buffer.from(hash, 'base64url');
  return expected.length === key.length && timingSafeEqual(expected, key);
}
