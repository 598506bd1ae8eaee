/** Reading what comes in over HTTP. */
import type { IncomingMessage } from 'node:http';
import { type Dict, isDict, parsed } from './json.ts';

export async function bytesOf(request: IncomingMessage): Promise<Buffer> {
  const chunks: Buffer[] = [];
  for await (const chunk of request) chunks.push(Buffer.from(chunk));
  return Buffer.concat(chunks);
}

/** Arguments of an API call, from the query and a form or JSON body. Values stay strings unless the body is JSON. */
export function argumentsIn(url: URL, type: string, body: Buffer): Dict {
  const args: Dict = Object.fromEntries(url.searchParams);
  if (type.startsWith('application/json')) {
    const given = parsed(body.toString('utf8'));
    return isDict(given) ? { ...args, ...given } : args;
  }
  return { ...args, ...Object.fromEntries(new URLSearchParams(body.toString('utf8'))) };
}

/** Arguments as a test wants to read them: JSON strings opened, the token left out. */
export function readable(args: Dict): Dict {
  const entries = Object.entries(args).filter(([name]) => name !== 'token');
  return Object.fromEntries(entries.map(([name, value]) => [name, opened(value)]));
}

function opened(value: unknown): unknown {
  if (typeof value !== 'string' || !/^\s*[[{]/.test(value)) return value;
  return parsed(value) ?? value;
}

/** The uploaded file in a body: the only file of a multipart form, or the body itself. */
export async function fileIn(type: string, body: Buffer): Promise<Uint8Array> {
  if (!type.startsWith('multipart/form-data')) return new Uint8Array(body);
  const form = await new Response(new Uint8Array(body), { headers: { 'content-type': type } }).formData();
  for (const value of form.values()) {
    if (typeof value !== 'string') return new Uint8Array(await value.arrayBuffer());
  }
  return new Uint8Array();
}
