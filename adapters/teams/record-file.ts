import { wordToType } from '../../src/chat/words.ts';
import type { Message } from '../../src/message/message.ts';
import { insist } from '../chat/insist.ts';
import { words } from '../chat/messages.ts';
import { oldButton, unknownPerson } from '../chat/refused.ts';
import type { Showing } from '../chat/showing.ts';
import { type Visit, visitOf } from '../chat/visit.ts';
import { postDirectly } from './direct.ts';
import { consentCard, contextSchema, infoCard, type Upload } from './file-card.ts';
import type { FileStore } from './file-store.ts';
import type { FileAnswer } from './inbound.ts';
import type { Sender } from './sender.ts';
import { filedKey } from './sender-post.ts';
import { TEAMS, type TeamsServices } from './services.ts';

interface RecordFile {
  readonly body: string;
  readonly fileName: string;
}

const bytesOf = (body: string) => new TextEncoder().encode(body);

/** Asks in the person's own chat whether the record may go into their files. False when that could not be asked. */
export async function offerRecord(
  services: TeamsServices,
  out: Pick<Sender, 'post' | 'openPersonal'>,
  { member, shift, texts }: Visit,
  id: string,
  { body, fileName }: RecordFile,
): Promise<boolean> {
  if (shift === null) return false;
  const asks = texts.say('talk.record-ask', { file: fileName });
  const context = { shift: shift.id, format: 'html' } as const;
  const file = consentCard(fileName, asks, bytesOf(body).length, context);
  return postDirectly(services, out, { member }, id, [{ summary: asks, file }]);
}

/** What comes of the answer. The record is made anew: it holds what happened between the question and the answer. */
export function createRecordAnswers(
  services: TeamsServices,
  out: Pick<Sender, 'post' | 'delete'>,
  store: FileStore,
) {
  const { memory, log } = services;
  const underWay = new Set<string>();

  async function takeAway({ place }: FileAnswer): Promise<void> {
    const { conversation, messageId } = place;
    if (messageId === null) return;
    const gone = await insist(services, () => out.delete({ conversation, id: messageId, thread: null }));
    if (gone.kind !== 'ok')
      log.warn({ part: 'teams', outcome: gone }, 'an answered question about a file stays');
  }

  /** Null: it is shown. Else the same in words. */
  async function show(visit: Visit, to: Showing, { place }: FileAnswer, upload: Upload) {
    const summary = visit.texts.say('talk.record-filed', { file: upload.name });
    const { conversation } = place;
    const post = { conversation, marker: `${to.pressId}.file`, summary, file: infoCard(upload) };
    const sent = await insist(services, () => out.post(post));
    if (sent.kind === 'ok') return null;
    log.warn({ part: 'teams', outcome: sent }, 'a file is there, but could not be shown');
    return words('plain', summary);
  }

  /** Null: it is there. Else what the person is told. */
  async function bring(visit: Visit, upload: Upload, file: RecordFile): Promise<Message | null> {
    const known = store.takes(upload.uploadUrl) && store.takes(upload.contentUrl);
    const sent = known ? await store.put(upload.uploadUrl, bytesOf(file.body)) : notAStore;
    if (sent.kind === 'ok') return null;
    // The address itself is a right to write there: only its host is logged.
    const host = URL.canParse(upload.uploadUrl) ? new URL(upload.uploadUrl).host : null;
    log.warn({ part: 'teams', host, outcome: sent }, 'a record could not be put into the files of a person');
    const word = wordToType('record', visit.texts);
    return words('attention', visit.texts.say('talk.record-not-filed', { file: file.fileName, word }));
  }

  /** What the person is told, where the file itself does not say it. */
  async function workedOut(visit: Visit, to: Showing, answer: FileAnswer, shift: string) {
    const { upload } = answer;
    if (upload === null) {
      await takeAway(answer);
      return words('plain', visit.texts.say('talk.record-declined'));
    }
    const file = await services.recordFile(shift);
    if (file === null) return oldButton(visit);
    const told = await bring(visit, upload, file);
    if (told !== null) return told;
    await memory.put(TEAMS, filedKey(nameOf(answer)), '{}');
    const shown = await show(visit, to, answer, upload);
    await takeAway(answer);
    return shown;
  }

  return async function answered(to: Showing, answer: FileAnswer): Promise<void> {
    const visit = await visitOf(services, answer.member);
    if (visit.person === null) return to.tell(visit, unknownPerson(visit));
    const asked = contextSchema.safeParse(answer.context);
    if (!asked.success) return to.tell(visit, oldButton(visit));
    const name = nameOf(answer);
    // Pressed twice: the first press is still at it, or has done it.
    if (underWay.has(name)) return;
    underWay.add(name);
    let told: Message | null;
    try {
      if ((await memory.get(TEAMS, filedKey(name))) !== null) return;
      told = await workedOut(visit, to, answer, asked.data.shift);
    } finally {
      // Before it is told that it failed: whoever reads that may press again.
      underWay.delete(name);
    }
    if (told !== null) await to.tell(visit, told);
  };
}

const notAStore = {
  kind: 'gone',
  code: 'NotAStore',
  why: 'The address is of no store of files that is known.',
} as const;

/** One question, whoever answers it how often. */
const nameOf = ({ place, upload, pressKey }: FileAnswer): string =>
  `${place.conversation}:${place.messageId ?? upload?.uniqueId ?? pressKey}`;
