/** Uploading: files.getUploadURLExternal, a POST of the bytes, files.completeUploadExternal. */
import { dicts, text } from '../json.ts';
import { postedEvent } from '../payloads.ts';
import { addMessage } from '../state.ts';
import type { FileState } from '../types.ts';
import { withIds } from '../wire.ts';
import { threadIn } from './chat.ts';
import { blocksIn, conversation, json, type Method, mayPost, need, Refused } from './method.ts';

const getUrl: Method = ({ space, origin }, args) => {
  const name = need(args, 'filename');
  const length = Number(args.length);
  if (!Number.isInteger(length) || length <= 0) throw new Refused('invalid_arguments');
  const id = space.ids.id('F');
  space.files.set(id, { id, name, title: name, length, bytes: null, done: false });
  return { upload_url: `${origin()}/upload/v1/${id}`, file_id: id };
};

const complete: Method = (context, args) => {
  const { space } = context;
  const wanted = dicts(json(args, 'files', 'invalid_arguments'));
  if (wanted.length === 0) throw new Refused('invalid_arguments');
  const files = wanted.map((one) => uploaded(space.files.get(text(one.id)), text(one.title)));
  const channelId = text(args.channel_id) || text(args.channels);
  const shown = files.map(({ id, name, title }) => ({ id, name, title }));
  if (channelId !== '') {
    const channel = conversation(context, channelId, false);
    mayPost(channel);
    const message = addMessage(space, channel, {
      user: space.bot.userId,
      botId: space.bot.botId,
      subtype: 'file_share',
      text: text(args.initial_comment),
      // With a comment the blocks are left aside.
      blocks: text(args.initial_comment) === '' ? withIds(space, blocksIn(args) ?? []) : [],
      threadTs: threadIn(channel, args),
      files: shown,
    });
    context.event(postedEvent(channel, message));
  }
  for (const file of files) file.done = true;
  return { files: shown };
};

function uploaded(file: FileState | undefined, title: string): FileState {
  if (file === undefined || file.done || file.bytes === null) throw new Refused('file_not_found');
  if (title !== '') file.title = title;
  return file;
}

export const FILES: { readonly [method: string]: Method } = {
  'files.getUploadURLExternal': getUrl,
  'files.completeUploadExternal': complete,
};
