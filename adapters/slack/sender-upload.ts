import type { KnownBlock } from '@slack/types';
import type { Instant } from '../../src/model/time.ts';
import type { Failed, Sent } from '../chat/outcome.ts';
import { CALL_TIMEOUT_MS } from './client.ts';
import type { SenderServices } from './sender.ts';
import { posted, tried } from './sender-call.ts';
import type { Look } from './sender-look.ts';
import { MOST_BEFORE_POST_MS, type Once, onceOnly } from './sender-once.ts';

export interface Upload extends Once {
  readonly name: string;
  readonly title: string;
  readonly bytes: Uint8Array;
  /** Shown above the file; a comment would take their place and with them the marker. */
  readonly blocks: readonly KnownBlock[];
}

/** Of the time for one call this much must be left to begin sending the bytes. */
const LEAST_FOR_BYTES_MS = 1_000;
/** Files brought to the platform that are not shown yet, by marker. */
type Waiting = Map<string, string>;

export function uploading(services: SenderServices, look: Look) {
  const { client, clock, pace } = services;
  const once = onceOnly(services, look);
  const waiting: Waiting = new Map();

  /** The file's id, once its bytes are there. Nobody sees it yet, so nothing about this can be unclear. */
  async function bring({ name, bytes }: Upload, began: Instant): Promise<Sent<string>> {
    const asked = await tried(() =>
      client.files.getUploadURLExternal({ filename: name, length: bytes.byteLength }),
    );
    if (asked.kind !== 'ok') return harmless(asked);
    const { upload_url: address, file_id: id } = asked.value;
    const left = CALL_TIMEOUT_MS - (clock.now() - began);
    if (address === undefined || id === undefined || left < LEAST_FOR_BYTES_MS)
      return { kind: 'retry', why: 'Slack was too slow to take the file, or named no place for it.' };
    const sent = await posted(address, bytes, 'application/octet-stream', left, 'file_not_found');
    return sent.kind === 'ok' ? { kind: 'ok', value: id } : harmless(sent);
  }

  async function show(file: Upload, id: string): Promise<Sent<string>> {
    const { channel, threadTs, title, blocks } = file;
    const where =
      threadTs === undefined ? { channel_id: channel } : { channel_id: channel, thread_ts: threadTs };
    const said = await tried(() =>
      client.files.completeUploadExternal({ files: [{ id, title }], blocks: [...blocks], ...where }),
    );
    return said.kind === 'ok' ? { kind: 'ok', value: id } : said;
  }

  return {
    /** A file in a conversation. Ok with its id, or null when an earlier try is found to stand. */
    async upload(file: Upload): Promise<Sent<string | null>> {
      const { channel, marker } = file;
      const sent = await once(file, async (began): Promise<Sent<string>> => {
        const there = waiting.get(marker);
        if (there !== undefined) return await show(file, there);
        const brought = await bring(file, began);
        if (brought.kind !== 'ok') return brought;
        waiting.set(marker, brought.value);
        const now = clock.now();
        if (now - began > MOST_BEFORE_POST_MS)
          return { kind: 'later', afterMs: pace.nextAt(channel, now) - now };
        return await show(file, brought.value);
      });
      // One that waits for its turn, or was not taken, is shown by the next call; all else begins anew.
      if (sent.kind !== 'later' && sent.kind !== 'retry') waiting.delete(marker);
      return sent.kind === 'stands' ? { kind: 'ok', value: null } : sent;
    },
  };
}

function harmless(failed: Failed | { readonly kind: 'later'; readonly afterMs: number }): Sent<never> {
  return failed.kind === 'unclear'
    ? { kind: 'retry', why: `${failed.why} The file was not shown yet.` }
    : failed;
}
