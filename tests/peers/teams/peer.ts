/**
 * A strict Teams on the loopback, for tests: a bot built with botbuilder 4.23.3 runs against it unchanged. It has
 * its own clock, which stands still until `clock.advance`; so an activity that the bot never answers stays open until
 * the clock has gone on by 15 s. Tokens to the bot alone use the machine's clock (see `signClock`). `bot.ts` shows how
 * to put a CloudAdapter up against it; `until` waits without timers. One bot, one tenant.
 */
import { type PeerClock, startClock } from '../slack/clock.ts';
import { copy } from '../slack/json.ts';
import { until } from '../slack/until.ts';
import { type Delivery, startDelivery } from './deliver.ts';
import { type Dialogs, startDialogs } from './dialogs.ts';
import { startDoor } from './door.ts';
import { startFaults } from './faults.ts';
import { type Files, startFiles } from './files.ts';
import { type Installs, startInstalls } from './installs.ts';
import { issuerKeys } from './keys.ts';
import { SCOPE, startOAuth } from './oauth.ts';
import { type Person, startPerson } from './person.ts';
import { startRates } from './rate.ts';
import { type Bot, conversationOf, personalId, personOf, startWorld } from './state.ts';
import { ISSUER, startMinter } from './tokens.ts';
import type { Call, Fault, FaultTarget, MessageState, Operation, PeerOptions } from './types.ts';
import { startWeb } from './web.ts';

export type * from './types.ts';

export type TeamsPeer = Person &
  Files &
  Installs &
  Omit<Dialogs, 'open'> &
  Pick<Delivery, 'httpTo' | 'forgeNext' | 'duplicate' | 'replayLast' | 'deliveries' | 'settled'> & {
    readonly bot: Bot;
    readonly clock: PeerClock;
    readonly calls: readonly Call[];
    /** What ConfigurationBotFrameworkAuthentication needs; a fresh metadata URL, as botbuilder keeps keys by it. */
    readonly settings: { readonly [name: string]: string };
    readonly tokenUrl: string;
    readonly scope: string;
    serviceUrl(): string;
    /** The platform moves: a new service URL, such as 'amer', and the old one answers 404. */
    moveService(region: string): void;
    callsOf(operation: Operation): Call[];
    /** What stands in the conversation now, in order; deleted messages too. */
    messages(conversationId: string): MessageState[];
    /** The id of the person's own chat with the bot. */
    chat(userId: string): string;
    /** The short words a person was shown after a press or a dialog. */
    notes(userId: string): string[];
    fault(target: FaultTarget, fault: Fault, times?: number): void;
    faultsLeft(): number;
    noFaults(): void;
    block(userId: string, blocked: boolean): void;
    revokeTokens(): void;
    down(shut: boolean): Promise<void>;
    until(check: () => boolean): Promise<void>;
    close(): Promise<void>;
  };

let peers = 0;

export async function startTeamsPeer(options: PeerOptions): Promise<TeamsPeer> {
  const clock = startClock(options.startAt, options.live);
  const world = startWorld(options, clock);
  const keys = await issuerKeys();
  const faults = startFaults();
  const oauth = startOAuth(clock, keys, world.bot);
  const rates = options.limits === false ? null : startRates(clock);
  let region = 'emea';
  const origin = (): string => `http://127.0.0.1:${door.port()}`;
  const serviceUrl = (): string => `${origin()}/${region}/`;
  const web = startWeb({ world, keys, oauth, rates, faults, origin, region: () => `/${region}` });
  const door = startDoor(web);
  await door.open();
  peers += 1;
  const { appId, tenantId } = world.bot;
  // Botbuilder compares the times in a token with the machine's clock, so that clock signs unless told otherwise.
  const signClock = options.signClock ?? (() => Date.now());
  const delivery = startDelivery(world, startMinter(keys, appId), serviceUrl, signClock);
  const { open, ...dialogs } = startDialogs(world, delivery);
  const settings = {
    MicrosoftAppId: appId,
    MicrosoftAppType: 'SingleTenant',
    MicrosoftAppTenantId: tenantId,
    ToBotFromChannelTokenIssuer: ISSUER,
    ToBotFromChannelOpenIdMetadataUrl: `${origin()}/openid/${peers}`,
    ToBotFromEmulatorOpenIdMetadataUrl: `${origin()}/openid/emulator-${peers}`,
    ToChannelFromBotLoginUrl: `${origin()}/${tenantId}`,
    ToChannelFromBotOAuthScope: ISSUER,
    OAuthUrl: `${origin()}/oauth`,
    CallerId: 'urn:botframework:azure',
  };

  return {
    ...startPerson(world, delivery, { open }),
    ...startInstalls(world, delivery),
    ...startFiles(world, delivery, origin),
    ...dialogs,
    ...delivery,
    bot: world.bot,
    clock,
    calls: world.calls,
    settings,
    tokenUrl: `${origin()}/${tenantId}/oauth2/v2.0/token`,
    scope: SCOPE,
    serviceUrl,
    moveService(to) {
      region = to;
    },
    callsOf: (operation) => world.calls.filter((one) => one.operation === operation),
    messages: (conversationId) => copy(conversationOf(world, conversationId).messages),
    chat: (userId) => personalId(personOf(world, userId).id),
    notes: (userId) => world.notes.filter((one) => one.user === userId).map((one) => one.text),
    fault: faults.add,
    faultsLeft: faults.left,
    noFaults: faults.clear,
    block(userId, blocked) {
      const { id } = personOf(world, userId);
      if (blocked) world.blocked.add(id);
      else world.blocked.delete(id);
    },
    revokeTokens: oauth.revoke,
    down: (shut) => (shut ? door.shut() : door.open()),
    until,
    async close() {
      clock.stop();
      await door.shut();
    },
  };
}
