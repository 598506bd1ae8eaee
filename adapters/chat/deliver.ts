import { LATE_AFTER_MS } from '../../src/flow/ringing.ts';
import { note } from '../../src/message/build.ts';
import type { Message } from '../../src/message/message.ts';
import { HOUR, MINUTE } from '../../src/model/time.ts';
import type { ClaimedDelivery, DeliveryResult, Surface } from '../../src/ports.ts';
import { at } from '../../src/views/context.ts';
import { markedRepeat } from '../host/marked-repeat.ts';
import { createAway } from './away.ts';
import { createDirect } from './direct.ts';
import { createOlderRings } from './older-rings.ts';
import type { Sent } from './outcome.ts';
import { AFTER_OLDER_MS, createPlacing } from './placing.ts';
import type { AnyPart, Platform } from './platform.ts';
import type { Put, Said } from './said.ts';
import type { ChatServices } from './services.ts';
import { createStandings, isOlder, orderOf, partsBesides } from './standing.ts';
import { isSuperseded } from './superseded.ts';

type SurfaceServices = Pick<
  ChatServices,
  'surface' | 'memberOf' | 'memory' | 'log' | 'clock' | 'pack' | 'texts' | 'shift' | 'following' | 'again'
>;

/** Until the same message, which is being said just now, stands. */
const SAME_KEY_MS = 500;
/** What could not be said for this long belongs to a day that is over: people are told by the dead letter. */
const MOST_LATE_MS = 12 * HOUR;

/** No clear answer came: it may have been shown or not. Thrown, so that the outbox marks its next try. */
class Unclear extends Error {
  override readonly name = 'Unclear';
}

/**
 * The crew's channel and each linked person's direct conversation. The day has one thread in the channel, under the first
 * message of the shift; bells are shown in the channel besides. A message whose key stands there already is changed in
 * place, unless it is a bell: an edit makes no sound. Nothing older is put over something newer.
 */
export function chatSurface<Part extends AnyPart>(services: SurfaceServices, platform: Platform<Part>) {
  const { log, clock } = services;
  const stands = createStandings(services);
  const { say, change } = createPlacing(services, platform, stands);
  const direct = createDirect(services, platform);
  const away = createAway(clock);
  const older = createOlderRings(services, platform, stands, textsTo);
  // What the process before had no time for.
  older.look();
  /** One message is said by one try at a time: a second one would not see where the first is putting it. */
  const busy = new Set<string>();

  async function deliver(delivery: ClaimedDelivery): Promise<DeliveryResult> {
    if (delivery.urgency !== 'bell') return delivered(delivery);
    const result = await older.whileRinging(delivery, () => delivered(delivery));
    older.look();
    return result;
  }

  async function delivered(delivery: ClaimedDelivery): Promise<DeliveryResult> {
    const result = await tried(delivery);
    switch (result.kind) {
      case 'sent':
        away.back();
        log.info({ delivery: delivery.id }, `said in ${platform.title}`);
        return result;
      case 'failed':
        away.back();
        await stands.giveUp(delivery);
        return result;
      case 'later':
      case 'superseded':
        return result;
      // A platform away is no fault of the message: it keeps its place however long that lasts.
      case 'retry':
        return tooOld(delivery)
          ? givenUp(delivery, result.why)
          : { kind: 'later', afterMs: result.afterMs ?? away.wait(result.why) };
    }
  }

  async function tried(delivery: ClaimedDelivery): Promise<DeliveryResult> {
    try {
      return await put({ ...delivery, message: await latenessIn(delivery) });
    } catch (error) {
      if (!(error instanceof Unclear)) throw error;
      const afterMs = away.wait(error.message);
      // The first time the outbox must learn that it may stand already; from then on it is looked for first.
      if (!delivery.possibleRepeat) throw error;
      return tooOld(delivery) ? givenUp(delivery, error.message) : { kind: 'later', afterMs };
    }
  }

  const tooOld = ({ queuedAt }: ClaimedDelivery) => clock.now() - queuedAt > MOST_LATE_MS;

  async function givenUp(delivery: ClaimedDelivery, why: string): Promise<DeliveryResult> {
    await stands.giveUp(delivery);
    return { kind: 'failed', why };
  }

  async function put(said: Said): Promise<DeliveryResult> {
    const channel = await channelFor(said);
    if (typeof channel !== 'string') return channel;
    // Before the slot is taken: who waits for another must not be in its way.
    const half = (await stands.half(said, channel))?.half;
    if (half !== undefined && half.by !== said.id && isOlder(orderOf(said), half.order))
      return { kind: 'later', afterMs: AFTER_OLDER_MS };
    const slot = `${said.shift} ${channel} ${said.key}`;
    if (busy.has(slot)) return { kind: 'later', afterMs: SAME_KEY_MS };
    busy.add(slot);
    try {
      return await putThere(said, channel);
    } finally {
      busy.delete(slot);
    }
  }

  async function putThere(said: Said, channel: string): Promise<DeliveryResult> {
    const standing = await stands.read(said, channel);
    if (standing !== null && isOlder(orderOf(said), standing.order)) {
      log.info({ delivery: said.id }, 'newer words stand already; these are not said any more');
      await stands.giveUp(said);
      return { kind: 'superseded' };
    }
    // Only the first ring calls the whole channel: people mute what calls them every few minutes. Louder levels get their own.
    const isAnew = standing === null || said.urgency === 'bell';
    const parts = rendered(isAnew ? marked(said) : said, standing === null);
    const half = (await stands.half(said, channel))?.half;
    const begun = half?.by === said.id ? half : null;
    // Never what does not stand yet: it could be all that people get to see of it.
    if (standing !== null && begun === null && (await isSuperseded(services, said)))
      return { kind: 'superseded' };
    // One that is half said has done so, and comes first.
    if (standing !== null && half === undefined) await older.note(said, standing);
    const sent =
      standing !== null && begun !== null && said.urgency === 'quiet'
        ? await say(said, channel, parts, partsBesides(standing, begun))
        : standing !== null && said.urgency === 'quiet'
          ? await change(said, channel, parts, standing)
          : await say(said, channel, parts);
    return sent.kind === 'ok' ? { kind: 'sent' } : outcome(sent);
  }

  async function channelFor({ audience }: Said): Promise<string | DeliveryResult> {
    const pack = services.pack();
    if (audience.kind === 'crew')
      return (
        platform.crewChannel(pack) ?? {
          kind: 'failed',
          why: `the site has no ${platform.title} channel for its crew`,
        }
      );
    const member = services.memberOf(pack, audience.person);
    if (member === null)
      return { kind: 'failed', why: `${audience.person} has no ${platform.title} member id in people.yaml` };
    const opened = await direct.open(member);
    return opened.kind === 'ok' ? opened.value : outcome(opened);
  }

  /** An update takes the place of what stands, and with it the remark that it may have been said before. */
  function marked(said: Said): Said {
    return said.possibleRepeat ? { ...said, message: markedRepeat(said.message, textsTo(said)) } : said;
  }

  function textsTo({ audience }: Pick<Said, 'audience'>) {
    const { people, site } = services.pack();
    const person = audience.kind === 'person' ? people.find(({ id }) => id === audience.person) : undefined;
    return services.texts(person?.language ?? site.language);
  }

  function rendered(said: Said, isFirst: boolean): readonly Part[] {
    const { audience, urgency } = said;
    const calls = audience.kind === 'crew' && urgency === 'bell' && isFirst;
    return platform.parts(said, textsTo(said), calls);
  }

  /** A bell that reaches people late says so: they must not count from now. */
  async function latenessIn(delivery: ClaimedDelivery): Promise<Message> {
    const { urgency, queuedAt, message } = delivery;
    const late = clock.now() - queuedAt;
    const shift = urgency === 'bell' && late > LATE_AFTER_MS ? await services.shift(delivery.shift) : null;
    if (shift === null) return message;
    const texts = textsTo(delivery);
    const minutes = Math.round(late / MINUTE);
    const said = texts.say('late.rang', { minutes, time: at({ shift }, queuedAt) });
    const [first, ...rest] = message.blocks;
    return { ...message, blocks: [...(first ? [first] : []), note('danger', said), ...rest] };
  }

  const surface: Surface & { put: Put; away(): string | null; settled(): Promise<void> } = {
    put,
    name: services.surface,
    marksRepeats: true,
    away: () => away.why(),
    settled: () => older.settled(),
    reaches({ kind, ...audience }) {
      const pack = services.pack();
      if (kind === 'crew') return platform.crewChannel(pack) !== null;
      return 'person' in audience && services.memberOf(pack, String(audience.person)) !== null;
    },
    deliver,
  };
  return surface;

  /** @throws Unclear when it may have been shown or not */
  function outcome(sent: Exclude<Sent<unknown>, { kind: 'ok' }>): DeliveryResult {
    switch (sent.kind) {
      case 'later':
        return { kind: 'later', afterMs: sent.afterMs };
      case 'retry':
        return {
          kind: 'retry',
          why: sent.why,
          ...(sent.afterMs !== undefined && { afterMs: sent.afterMs }),
        };
      case 'gone':
        return { kind: platform.meaning(sent.code) === 'shut-out' ? 'retry' : 'failed', why: sent.why };
      case 'unclear':
        throw new Unclear(sent.why);
    }
  }
}
