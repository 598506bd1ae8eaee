import { z } from 'zod';
import { idSchema } from '../../src/model/id.ts';

/** A PIN as a salted hash: scrypt's cost N, r and p (RFC 7914), salt and hash in base64url. */
const pinLine = /^scrypt:(\d{1,8}):(\d{1,3}):(\d{1,3}):[A-Za-z0-9+/_=-]{16,}:[A-Za-z0-9+/_=-]{32,}$/;

/** True for a line whose PIN can be checked, at a cost that neither gives the PIN away nor stops the computer. */
export function isPinLine(text: string): boolean {
  const [n = 0, r = 0, p = 0] = pinLine.exec(text)?.slice(1).map(Number) ?? [];
  const powerOfTwo = Number.isInteger(Math.log2(n));
  return powerOfTwo && n >= 2 ** 14 && n <= 2 ** 20 && r >= 1 && r <= 32 && p >= 1 && p <= 16;
}

/** `pins.yaml`: person id → the line that `potbell pin` made. */
export const pinsSchema = z
  .record(idSchema, z.string().regex(pinLine))
  .describe('person id → the line made by "potbell pin"; never a PIN itself');
