import { ConfigurationBotFrameworkAuthentication } from 'botbuilder';
import {
  AuthenticationConstants,
  ClaimsIdentity,
  type ConnectorClient,
  type ServiceClientCredentialsFactory,
} from 'botframework-connector';
import { z } from 'zod';
import type { Log } from '../host/log.ts';
import type { TeamsConfig } from './config.ts';
import { type HttpClient, onceOnlyHttp } from './http.ts';
import { withoutConsole } from './quiet.ts';
import { tokensFor } from './token.ts';

/**
 * Who signs what comes from Teams. learn.microsoft.com/azure/bot-service/rest-api/
 * bot-framework-rest-connector-authentication, "Authenticate requests from the Bot Connector service to your bot".
 */
const ISSUER = 'https://api.botframework.com';
const CHANNEL = 'msteams';

const headSchema = z.looseObject({
  type: z.string(),
  channelId: z.literal(CHANNEL),
  serviceUrl: z.string(),
  conversation: z.looseObject({ tenantId: z.string().optional() }),
  channelData: z.looseObject({ tenant: z.looseObject({ id: z.string().optional() }).optional() }).optional(),
});

export type Verified = Readonly<Record<string, unknown>> & { readonly serviceUrl: string };

export type Checked =
  | { readonly kind: 'verified'; readonly activity: Verified }
  /** No valid token of Teams for this bot: 401. */
  | { readonly kind: 'forged' }
  /** Genuine, but of another organisation or another kind of chat: 403. */
  | { readonly kind: 'foreign' };

export interface TeamsAuth {
  /** Never throws: what cannot be checked is forged. `header` is the Authorization of the request. */
  check(activity: Readonly<Record<string, unknown>>, header: string): Promise<Checked>;
  /** A client that makes each call once; `serviceUrl` is from a verified activity only, the bot's token goes there. */
  connector(serviceUrl: string): Promise<ConnectorClient>;
}

export interface AuthServices {
  readonly config: TeamsConfig;
  readonly log: Log;
  readonly tokens?: ServiceClientCredentialsFactory;
  readonly http?: HttpClient;
}

/**
 * Tells genuine requests of Teams from forged ones by the platform's own library, as its CloudAdapter does; that adapter
 * itself is not used, since it answers several forgeries with 500 and prints them. The keys of Teams are kept a day.
 */
export function createTeamsAuth({
  config,
  log,
  tokens = tokensFor(config),
  http = onceOnlyHttp(),
}: AuthServices): TeamsAuth {
  const library = new ConfigurationBotFrameworkAuthentication(
    settingsFor(config),
    tokens,
    undefined,
    undefined,
    { httpClient: http },
  );
  const own = new ClaimsIdentity(
    [{ type: AuthenticationConstants.AudienceClaim, value: config.appId }],
    true,
  );
  const clients = new Map<string, Promise<ConnectorClient>>();
  let refusals = 0;

  /** Anybody can send these: the log counts them, and does not grow with each. */
  function refuse(kind: 'forged' | 'foreign', reason: string): Checked {
    refusals += 1;
    if (refusals <= 10 || refusals % 1000 === 0)
      log.warn(
        { part: 'teams', refusals, kind, reason },
        'a request that is not from our Teams was turned away',
      );
    return { kind };
  }

  return {
    async check(given, header) {
      const head = headSchema.safeParse(given);
      if (!head.success) return refuse('forged', 'not an activity of Teams');
      try {
        const { claimsIdentity } = await withoutConsole(() =>
          // Only the two that the check is about; the library's type wants a whole activity.
          library.authenticateRequest(activityFor(head.data), header),
        );
        if (!claimsIdentity.isAuthenticated) return refuse('forged', 'no identity');
        // The library also takes what another bot or an emulator signed.
        if (claimsIdentity.getClaimValue(AuthenticationConstants.IssuerClaim) !== ISSUER)
          return refuse('forged', 'issuer');
      } catch (error) {
        // Its text can hold pieces of the token, and its `name` is "Error" in the library's own.
        return refuse('forged', error instanceof Error ? error.constructor.name : 'unknown');
      }
      const tenants = [head.data.conversation.tenantId, head.data.channelData?.tenant?.id];
      if (tenants.some((one) => one !== undefined && one.toLowerCase() !== config.tenantId))
        return refuse('foreign', 'tenant');
      if (!mayGetToken(head.data.serviceUrl, config)) return refuse('foreign', 'service URL');
      return { kind: 'verified', activity: { ...given, serviceUrl: head.data.serviceUrl } };
    },

    connector(serviceUrl) {
      const known = clients.get(serviceUrl);
      if (known !== undefined) return known;
      const made = library.createConnectorFactory(own).create(serviceUrl, ISSUER);
      clients.set(serviceUrl, made);
      made.catch(() => clients.delete(serviceUrl));
      return made;
    },
  };
}

function activityFor({ type, channelId, serviceUrl }: z.infer<typeof headSchema>) {
  type Asked = Parameters<ConfigurationBotFrameworkAuthentication['authenticateRequest']>[0];
  const asked: Partial<Asked> = { type, channelId, serviceUrl };
  return asked as Asked;
}

/** In the clear only on this machine, in tests. */
function mayGetToken(serviceUrl: string, { apiUrl }: TeamsConfig): boolean {
  if (!URL.canParse(serviceUrl)) return false;
  const { protocol, origin } = new URL(serviceUrl);
  return apiUrl === null ? protocol === 'https:' : origin === new URL(apiUrl).origin;
}

function settingsFor({ appId, tenantId, apiUrl }: TeamsConfig) {
  const own = { MicrosoftAppId: appId, MicrosoftAppType: 'SingleTenant', MicrosoftAppTenantId: tenantId };
  if (apiUrl === null) return own;
  // All of them, or the library asks the real platform for the rest.
  return {
    ...own,
    ToBotFromChannelTokenIssuer: ISSUER,
    ToBotFromChannelOpenIdMetadataUrl: `${apiUrl}openid/${appId}`,
    ToBotFromEmulatorOpenIdMetadataUrl: `${apiUrl}openid/emulator-${appId}`,
    ToChannelFromBotLoginUrl: `${apiUrl}${tenantId}`,
    ToChannelFromBotOAuthScope: ISSUER,
    OAuthUrl: `${apiUrl}oauth`,
    CallerId: 'urn:botframework:azure',
  };
}
