import { pino } from 'pino';
import type { Log } from '../host/log.ts';

/** JSON lines on standard error; PINs, cookies and tokens never get into them. */
export function logger(level: string): Log {
  return pino(
    {
      level,
      base: null,
      timestamp: pino.stdTimeFunctions.isoTime,
      redact: ['pin', '*.pin', 'cookie', '*.cookie', 'token', '*.token', 'headers.authorization'],
    },
    pino.destination({ dest: 2, sync: true }),
  );
}
