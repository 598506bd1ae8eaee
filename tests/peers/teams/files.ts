/**
 * Files from a bot to one person: it asks with a consent card, the client makes a place in the person's own storage and
 * tells the bot, the bot puts the bytes there and shows the file. learn.microsoft.com/microsoftteams/platform/bots/
 * how-to/bots-filesv4; the request with the bytes: learn.microsoft.com/onedrive/developer/rest-api/api/
 * driveitem_createuploadsession. The address of the place is the right to write there: whoever sends their token along
 * gives it away, which is refused here. That a second "accept" gets a place of its own is from memory.
 */
import { type Dict, dict, dicts, isDict, text } from '../slack/json.ts';
import type { Delivery } from './deliver.ts';
import { Refused } from './refusal.ts';
import { CONSENT, conversationOf, INFO, membersOf, messageOf, personOf, type World } from './state.ts';
import type { ConversationState, FileState, Outcome } from './types.ts';
import { base } from './wire.ts';

/** Throws Refused for a file card that no client would show. */
export function checkFileCards(world: World, { kind }: ConversationState, activity: Dict): void {
  const attachments = dicts(activity.attachments);
  const cards = attachments.filter(({ contentType }) => contentType === CONSENT || contentType === INFO);
  if (cards.length === 0) return;
  const no = (words: string) => new Refused('BadArgument', `The file card cannot be shown: ${words}.`);
  if (kind !== 'personal') throw no('files go into personal chats only');
  if (attachments.length > 1) throw no('it stands alone in its message');
  for (const { contentType, name, contentUrl, content } of cards) {
    if (text(name) === '') throw no('it has no name');
    if (!isDict(content)) throw no('it has no content');
    if (contentType === CONSENT) {
      const { description, sizeInBytes, acceptContext, declineContext } = content;
      if (text(description) === '') throw no('it has no description');
      if (!Number.isInteger(sizeInBytes) || Number(sizeInBytes) < 1) throw no('sizeInBytes is no size');
      if (!isDict(acceptContext) || !isDict(declineContext)) throw no('a context is missing');
      continue;
    }
    const file = world.files.find(({ uniqueId }) => uniqueId === content.uniqueId);
    if (file?.bytes == null) throw no('there is no such file');
    if (file.contentUrl !== contentUrl || file.name !== name || file.fileType !== content.fileType)
      throw no('it is not what was told of the file');
  }
}

export type Files = {
  /** Throws when there is no such question. `uploadUrl` in place of the true one. */
  answersFile(
    userId: string,
    where: { conversation: string; activityId: string },
    action: 'accept' | 'decline',
    options?: { uploadUrl?: string; context?: unknown },
  ): Promise<Outcome>;
  /** What is in the person's own storage, or has a place there (`bytes` is null). */
  files(userId: string): FileState[];
};

export function startFiles(world: World, delivery: Delivery, origin: () => string): Files {
  function placeFor(user: string, name: string): FileState {
    const at = world.files.length + 1;
    const uniqueId = `00000000-0000-4000-9000-${String(at).padStart(12, '0')}`;
    const fileType = /\.([^.]+)$/.exec(name)?.[1] ?? '';
    const file = { user, name, uniqueId, fileType, contentUrl: `${origin()}/files/${at}`, bytes: null };
    world.files.push(file);
    return file;
  }

  return {
    async answersFile(userId, { conversation, activityId }, action, options = {}) {
      const where = conversationOf(world, conversation);
      const message = messageOf(where, activityId);
      if (message === undefined || !membersOf(world, where).includes(personOf(world, userId).id))
        throw new Error(`${userId} sees no message ${activityId} in ${conversation}.`);
      const [card] = dicts(message.activity.attachments);
      if (card?.contentType !== CONSENT) throw new Error(`Message ${activityId} asks for no file.`);
      const { acceptContext, declineContext } = dict(card.content);
      const given = action === 'accept' ? acceptContext : declineContext;
      const value: Dict = { type: 'fileUpload', action, context: options.context ?? given };
      if (action === 'accept') {
        const { user: _, bytes: __, ...told } = placeFor(userId, text(card.name));
        const uploadUrl = options.uploadUrl ?? `${origin()}/uploads/${world.files.length}`;
        value.uploadInfo = { ...told, uploadUrl, etag: '1' };
      }
      const outcome = await delivery.deliver({
        ...base(world, userId, where, null),
        type: 'invoke',
        name: 'fileConsent/invoke',
        replyToId: message.id,
        value,
      });
      if (typeof outcome.status === 'string' || outcome.status === 200) return outcome;
      return { ...outcome, problem: `The bot answered ${outcome.status}.` };
    },
    files: (userId) => world.files.filter(({ user }) => user === userId).map((one) => ({ ...one })),
  };
}

/** PUT of all bytes in one request. */
export function storeBytes(
  world: World,
  path: string,
  headers: { readonly range: string; readonly authorization: string },
  bytes: Uint8Array,
): { status: number; body: Dict } {
  const failed = (status: number, message: string) => ({ status, body: { error: { message } } });
  const file = world.files[Number(/^\/uploads\/(\d+)$/.exec(path)?.[1] ?? 0) - 1];
  if (file === undefined) return failed(404, 'There is no such upload.');
  if (headers.authorization !== '')
    return failed(401, 'A token has no place here: the address is the right to write.');
  const range = `bytes 0-${bytes.length - 1}/${bytes.length}`;
  if (headers.range !== range) return failed(416, `Content-Range is "${headers.range}", not "${range}".`);
  if (file.bytes !== null) return failed(409, 'The upload is over.');
  file.bytes = bytes;
  return { status: 201, body: { id: file.uniqueId, name: file.name, size: bytes.length } };
}
