import { failedConnection } from '../chat/connection.ts';
import type { Failed } from '../chat/outcome.ts';
import type { TeamsConfig } from './config.ts';

/** A record is a few hundred kilobytes, and a site's line can be slow. Nothing waits for it. */
export const UPLOAD_TIMEOUT_MS = 30_000;

/**
 * Where the platform keeps people's own files: learn.microsoft.com/microsoft-365/enterprise/urls-and-ip-address-ranges;
 * the three of national clouds from memory.
 */
const stores = ['.sharepoint.com', '.sharepoint.us', '.sharepoint-mil.us', '.sharepoint.cn'] as const;

/**
 * Whether a file may go to this address. It comes in a verified activity, but a record has names and signatures in it:
 * were that check ever passed by somebody else, neither the record nor a request from inside the site's network may go
 * where they say. Which organisation's store it is the address does not tell. `apiUrl`: the Teams of tests, and then
 * nothing else.
 */
export function isFileStore(address: string, apiUrl: TeamsConfig['apiUrl']): boolean {
  if (!URL.canParse(address)) return false;
  const { protocol, username, password, port, hostname, origin } = new URL(address);
  if (apiUrl !== null) return origin === new URL(apiUrl).origin;
  const plain = protocol === 'https:' && username === '' && password === '' && port === '';
  return plain && stores.some((store) => hostname.endsWith(store));
}

export type FileStore = ReturnType<typeof createFileStore>;

export function createFileStore(apiUrl: TeamsConfig['apiUrl'], timeoutMs: number = UPLOAD_TIMEOUT_MS) {
  return {
    takes: (address: string): boolean => isFileStore(address, apiUrl),

    /**
     * All bytes in one request, once: learn.microsoft.com/onedrive/developer/rest-api/api/driveitem_createuploadsession.
     * The address itself is the right to write there; the bot's token never goes along. Never throws for the network.
     */
    async put(address: string, bytes: Uint8Array<ArrayBuffer>): Promise<{ readonly kind: 'ok' } | Failed> {
      const range = `bytes 0-${bytes.length - 1}/${bytes.length}`;
      try {
        const response = await fetch(address, {
          method: 'PUT',
          headers: { 'content-range': range, 'content-type': 'application/octet-stream' },
          body: bytes,
          redirect: 'error',
          signal: AbortSignal.timeout(timeoutMs),
        });
        const { status } = response;
        await response.body?.cancel();
        // 202 would mean that it waits for more.
        if (status === 200 || status === 201) return { kind: 'ok' };
        const why = `The store of people's files answered HTTP ${status}.`;
        return { kind: status >= 500 ? 'unclear' : 'retry', why };
      } catch (error) {
        return failedConnection(error, "the store of people's files");
      }
    },
  };
}
