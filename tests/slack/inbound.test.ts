import { describe, expect, it } from 'vitest';
import { commandIdFor } from '../../adapters/chat/marks.ts';
import { readLine, readPress, unescaped } from '../../adapters/slack/inbound.ts';
import { encodeAction } from '../../src/message/action.ts';
import { commandSchema } from '../../src/model/command.ts';

const action = { kind: 'show', page: 'briefing' } as const;
const payload = {
  user: { id: 'U0DUARTE00' },
  trigger_id: '1.2.3',
  response_url: 'https://hooks.invalid/1',
  channel: { id: 'C0CREW0001' },
  message: { ts: '10.1', thread_ts: '9.1' },
};
const button = { type: 'button', action_id: 'show:0', action_ts: '11.5', value: encodeAction(action) };

describe('a press', () => {
  it('is read with where it was and who it was', () => {
    expect(readPress(payload, button)).toEqual({
      member: 'U0DUARTE00',
      action,
      place: { kind: 'message', channel: 'C0CREW0001', ts: '10.1', threadTs: '9.1' },
      trigger: '1.2.3',
      responseUrl: 'https://hooks.invalid/1',
      pressId: expect.stringMatching(/^[0-9a-f]{16}$/),
    });
  });

  it('on a Home or in a sheet has no message', () => {
    const { channel: _channel, message: _message, ...rest } = payload;
    expect(readPress({ ...rest, view: { id: 'V1', type: 'home' } }, button)?.place).toEqual({ kind: 'home' });
    expect(readPress({ ...rest, view: { id: 'V1', type: 'modal' } }, button)?.place).toEqual({
      kind: 'modal',
      view: 'V1',
    });
  });

  it.each([
    ['cut', button.value.slice(0, -4)],
    ['forged', '{"kind":"do","command":{"type":"sign","revision":-1}}'],
    ["somebody else's", 'yes'],
    ['empty', ''],
  ])('with a value that is %s has no action', (_what, value) => {
    expect(readPress(payload, { ...button, value })?.action).toBeNull();
  });

  it('is the same press when it is delivered again, and another when it is pressed again', () => {
    const id = (change: object) => readPress({ ...payload }, { ...button, ...change })?.pressId;
    expect(id({})).toBe(id({}));
    expect(id({ action_ts: '11.6' })).not.toBe(id({}));
    expect(readPress({ ...payload, user: { id: 'U0RUI00000' } }, button)?.pressId).not.toBe(id({}));
  });

  it('choosing in a form is none', () => {
    expect(readPress(payload, { ...button, type: 'static_select' })).toBeNull();
  });
});

describe('the id of a command', () => {
  it('covers what and who, so that nothing else passes for a repeat', () => {
    const pause = commandSchema.parse({ type: 'pause', rig: 'rig-1' });
    const other = commandSchema.parse({ type: 'pause', rig: 'rig-2' });
    const ids = [
      commandIdFor('slack', 'p', 'U1', pause),
      commandIdFor('slack', 'p', 'U1', other),
      commandIdFor('slack', 'p', 'U2', pause),
      commandIdFor('slack', 'q', 'U1', pause),
    ];
    expect(new Set(ids).size).toBe(4);
    expect(commandIdFor('slack', 'p', 'U1', pause)).toBe(ids[0]);
    expect(ids.every((id) => id.startsWith('slack:'))).toBe(true);
  });
});

describe('a line to the bot', () => {
  const event = { user: 'U1', text: '<@U0BOT> batch 10 L &lt;28 C&gt;', channel: 'D1', ts: '1.1' };

  it('is read without the mention and as it was typed', () => {
    expect(readLine(event, 'U0BOT')).toEqual({ member: 'U1', text: 'batch 10 L <28 C>' });
  });

  it.each([
    ['another bot', { bot_id: 'B1' }],
    ['the bot itself', { user: 'U0BOT' }],
    ['an edit', { subtype: 'message_changed' }],
    ['a deletion', { subtype: 'message_deleted' }],
    ['somebody joining', { subtype: 'channel_join' }],
    ['nobody', { user: undefined }],
  ])('%s is not read', (_what, change) => {
    expect(readLine({ ...event, ...change }, 'U0BOT')).toBeNull();
  });

  it('a picture with words is read', () => {
    expect(readLine({ ...event, subtype: 'file_share' }, 'U0BOT')?.member).toBe('U1');
  });

  it('an escape that was typed stays one', () => {
    expect(unescaped('a &amp;lt; b')).toBe('a &lt; b');
  });
});
