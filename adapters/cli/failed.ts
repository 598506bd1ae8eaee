import { StoreDamaged } from '../../src/ports.ts';
import { StoreUnavailable } from '../sqlite/errors.ts';
import { UsageProblem } from './site.ts';

/**
 * Say on standard error why a command failed, and with which exit code the process ends. What the person can mend is
 * said in words; only what nobody foresaw is shown with its stack.
 */
export function reportFailure(error: unknown): number {
  const words = inWords(error);
  process.stderr.write(`${words ?? (error instanceof Error ? error.stack : String(error))}\n`);
  return words === null ? 1 : 2;
}

/** Null for an error that is nobody's doing but ours. */
function inWords(error: unknown): string | null {
  if (error instanceof UsageProblem || error instanceof StoreUnavailable || error instanceof StoreDamaged)
    return error.message;
  return isSystemError(error) ? systemErrorWords(error) : null;
}

function isSystemError(error: unknown): error is NodeJS.ErrnoException {
  return error instanceof Error && 'syscall' in error && 'code' in error;
}

const reasons: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file or folder',
  EISDIR: 'this is a folder, and a file is needed',
  ENOTDIR: 'there is a file where a folder is needed',
  EEXIST: 'there is a file where a folder is needed',
  EACCES: 'this user may not read or write here',
  EPERM: 'this user may not read or write here',
  EROFS: 'this disk cannot be written to',
  ENOSPC: 'the disk is full',
};

function systemErrorWords({ code, path, message }: NodeJS.ErrnoException): string {
  const reason = reasons[code ?? ''];
  return path === undefined || reason === undefined ? message : `${path}: ${reason}. Check the path.`;
}
