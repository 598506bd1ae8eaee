import type { z } from 'zod';
import { FORMAT, recordSchema, type ShiftRecord, VERSION } from './record-document.ts';

export type ReadRecord =
  | { readonly ok: true; readonly record: ShiftRecord }
  | { readonly ok: false; readonly problem: string };

const MOST_NAMED = 5;

/** A record file read and checked for its form. Whether it is true is for `verifyRecord`. Never throws. */
export function readRecord(text: string): ReadRecord {
  let data: unknown;
  try {
    // Editors on some machines put a byte order mark in front of what they save.
    data = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return no(`This is not JSON: ${why}. Give the .json file of a shift record, whole as Potbell wrote it.`);
  }
  const { format, version } = headOf(data);
  if (format !== FORMAT)
    return no(
      `This is not a shift record: "format" should be "${FORMAT}". Give the .json file of a shift record.`,
    );
  if (version !== VERSION)
    return no(
      `This record has version ${JSON.stringify(version) ?? 'nothing'}; this Potbell reads version ${VERSION}. Read it with the Potbell that wrote it.`,
    );
  const read = recordSchema.safeParse(data);
  if (read.success) return { ok: true, record: read.data as unknown as ShiftRecord };
  const { issues } = read.error;
  const named = issues.slice(0, MOST_NAMED).map(issueText);
  const more = issues.length > MOST_NAMED ? ` And ${issues.length - MOST_NAMED} more.` : '';
  return no(
    `This record is not whole: ${named.join(' ')}${more} Take an unchanged copy, or make the record again.`,
  );
}

function headOf(data: unknown): { readonly format: unknown; readonly version: unknown } {
  if (typeof data !== 'object' || data === null) return { format: undefined, version: undefined };
  const { format, version } = data as Record<string, unknown>;
  return { format, version };
}

function issueText({ path, message }: z.core.$ZodIssue): string {
  const where = path.length === 0 ? 'the file' : path.map(String).join('.');
  return `${where}: ${message}.`;
}

function no(problem: string): ReadRecord {
  return { ok: false, problem };
}
