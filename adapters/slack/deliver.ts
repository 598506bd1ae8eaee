import { z } from 'zod';
import type { ClaimedDelivery, DeliveryResult, Surface } from '../../src/ports.ts';
import { hashed } from './inbound.ts';
import { optionsFor } from './look.ts';
import type { Sent } from './outcome.ts';
import { memberOf } from './people.ts';
import { renderMessage, type SlackPart } from './render.ts';
import type { Sender } from './sender.ts';
import { SLACK, type SlackServices } from './services.ts';

/** Where the parts of a message stand, first the one in the channel. */
const standingSchema = z.strictObject({
  channel: z.string(),
  parts: z.array(z.strictObject({ ts: z.string(), thread: z.boolean() })),
});
type Standing = z.infer<typeof standingSchema>;

/** A message to be seen in one place, whatever made it. `id` is unique for ever. */
export type Said = Pick<
  ClaimedDelivery,
  'id' | 'shift' | 'key' | 'audience' | 'urgency' | 'message' | 'possibleRepeat'
>;

export type Put = (said: Said) => Promise<DeliveryResult>;

/**
 * The crew's channel and each linked person's direct conversation. The day has one thread in the channel, under the first
 * message of the shift; bells are shown in the channel besides. A message whose key stands there already is changed in
 * place, unless it is a bell: an edit makes no sound.
 */
export function slackSurface(
  services: SlackServices,
  out: Sender,
): Surface & { put(said: Said): Promise<DeliveryResult> } {
  const { memory, log } = services;

  return {
    put,
    name: SLACK,
    reaches({ kind, ...audience }) {
      const pack = services.pack();
      if (kind === 'crew') return pack.site.slack !== undefined;
      return 'person' in audience && memberOf(pack, String(audience.person)) !== null;
    },
    async deliver(delivery) {
      const result = await put(delivery);
      if (result.kind === 'sent') log.info({ delivery: delivery.id }, 'said in Slack');
      return result;
    },
  };

  async function put(said: Said): Promise<DeliveryResult> {
    const channel = await channelFor(said);
    if (typeof channel !== 'string') return channel;
    const parts = rendered(said);
    const standing = await read(standKey(said, channel));
    return standing && said.urgency === 'quiet'
      ? change(said, channel, parts, standing)
      : say(said, channel, parts);
  }

  async function channelFor({ audience }: Said): Promise<string | DeliveryResult> {
    const pack = services.pack();
    if (audience.kind === 'crew')
      return (
        pack.site.slack?.channel ?? { kind: 'failed', why: 'the site has no Slack channel for its crew' }
      );
    const member = memberOf(pack, audience.person);
    if (member === null)
      return { kind: 'failed', why: `${audience.person} has no Slack member id in people.yaml` };
    const known = await memory.get(SLACK, `dm:${member}`);
    if (known !== null) return known;
    const opened = await out.openDm(member);
    if (opened.kind !== 'ok') return outcome(opened);
    await memory.put(SLACK, `dm:${member}`, opened.value);
    return opened.value;
  }

  function rendered({ id, audience, message, urgency }: Said): readonly SlackPart[] {
    const pack = services.pack();
    const language =
      audience.kind === 'crew'
        ? pack.site.language
        : (pack.people.find((person) => person.id === audience.person)?.language ?? pack.site.language);
    const parts = renderMessage(
      message,
      optionsFor(services, services.texts(language), hashed([id]), 'button'),
    );
    return audience.kind === 'crew' && urgency === 'bell' ? parts.map(callingAll) : parts;
  }

  /** Post what has not been posted by an earlier try; what has is kept under the delivery until all of it stands. */
  async function say(delivery: Said, channel: string, parts: readonly SlackPart[]): Promise<DeliveryResult> {
    const underWay = `half:${delivery.id}`;
    const done = (await read(underWay)) ?? { channel, parts: [] };
    const root = await threadFor(delivery);
    for (const [index, part] of parts.entries()) {
      if (index < done.parts.length) continue;
      const under = part.thread ? (done.parts[0]?.ts ?? root) : root;
      const sent = await out.post({
        channel,
        text: part.text,
        blocks: part.blocks,
        marker: hashed([delivery.id]),
        lookFirst: delivery.possibleRepeat && index === done.parts.length,
        ...(under !== null && { threadTs: root ?? under }),
        ...(root !== null && index === 0 && delivery.urgency === 'bell' && { broadcast: true }),
      });
      if (sent.kind !== 'ok') return outcome(sent);
      done.parts.push({ ts: sent.value.ts, thread: part.thread });
      await memory.put(SLACK, underWay, JSON.stringify(done));
    }
    await settle(delivery, channel, done);
    return { kind: 'sent' };
  }

  async function settle(delivery: Said, channel: string, standing: Standing): Promise<void> {
    await memory.put(SLACK, standKey(delivery, channel), JSON.stringify(standing));
    const [first] = standing.parts;
    if (delivery.audience.kind === 'crew' && first && (await threadFor(delivery)) === null)
      await memory.put(SLACK, threadKey(delivery), first.ts);
    await memory.remove(SLACK, `half:${delivery.id}`);
  }

  /** Part by part in place; parts too many are taken away. More parts than there were are said anew. */
  async function change(
    delivery: Said,
    channel: string,
    parts: readonly SlackPart[],
    standing: Standing,
  ): Promise<DeliveryResult> {
    if (!parts.every((part, index) => standing.parts[index]?.thread === part.thread))
      return anew(delivery, channel, parts, standing);
    for (const [index, part] of parts.entries()) {
      const ts = standing.parts[index]?.ts ?? '';
      const sent = await out.update({ channel, ts, text: part.text, blocks: part.blocks });
      // Somebody deleted it, or it is too old to be changed: people must see the news all the same.
      if (sent.kind === 'gone' && lost.has(sent.code)) return anew(delivery, channel, parts, standing);
      if (sent.kind !== 'ok') return outcome(sent);
    }
    await takeAway(channel, standing.parts.slice(parts.length));
    const left = { channel, parts: standing.parts.slice(0, parts.length) };
    await memory.put(SLACK, standKey(delivery, channel), JSON.stringify(left));
    return { kind: 'sent' };
  }

  async function anew(
    delivery: Said,
    channel: string,
    parts: readonly SlackPart[],
    standing: Standing,
  ): Promise<DeliveryResult> {
    const said = await say(delivery, channel, parts);
    if (said.kind !== 'sent') return said;
    const root = await threadFor(delivery);
    // The day's thread hangs under it: it stays, as it was.
    await takeAway(
      channel,
      standing.parts.filter(({ ts }) => ts !== root),
    );
    return said;
  }

  async function takeAway(channel: string, parts: Standing['parts']): Promise<void> {
    for (const { ts } of [...parts].reverse()) {
      const removed = await out.delete({ channel, ts });
      if (removed.kind !== 'ok' && removed.kind !== 'gone')
        log.warn({ channel, ts, outcome: removed }, 'an outdated message could not be taken away');
    }
  }

  async function threadFor(delivery: Said): Promise<string | null> {
    return delivery.audience.kind === 'crew' ? memory.get(SLACK, threadKey(delivery)) : null;
  }

  async function read(key: string): Promise<Standing | null> {
    const text = await memory.get(SLACK, key);
    return text === null ? null : standingSchema.parse(JSON.parse(text));
  }
}

const lost = new Set(['message_not_found', 'cant_update_message', 'edit_window_closed', 'is_inactive']);

const threadKey = ({ shift }: Said) => `thread:${shift}`;
const standKey = ({ shift, key }: Said, channel: string) => `said:${shift}:${channel}:${key}`;

/** A mention sounds only in a block of text; every part begins with one, its summary. */
function callingAll(part: SlackPart, index: number): SlackPart {
  const [first, ...rest] = part.blocks;
  if (index > 0 || first?.type !== 'section' || first.text === undefined) return part;
  const text = `<!channel> ${first.text.text}`;
  return {
    ...part,
    text: `<!channel> ${part.text}`,
    blocks: [{ ...first, text: { ...first.text, text } }, ...rest],
  };
}

export function outcome(sent: Exclude<Sent<unknown>, { kind: 'ok' }>): DeliveryResult {
  switch (sent.kind) {
    case 'later':
      return { kind: 'later', afterMs: sent.afterMs };
    case 'retry':
      return { kind: 'retry', why: sent.why, ...(sent.afterMs !== undefined && { afterMs: sent.afterMs }) };
    case 'gone':
      return { kind: 'failed', why: sent.why };
    case 'unclear':
      // Thrown on purpose: the outbox marks what it tries again as a possible repeat.
      throw new Error(sent.why);
  }
}
