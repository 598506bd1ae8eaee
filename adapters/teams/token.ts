import { ConfigurationServiceClientCredentialFactory } from 'botbuilder';
import { ServiceClientCredentialsFactory } from 'botframework-connector';
import type { TeamsConfig } from './config.ts';

/** See `CALL_TIMEOUT_MS`. */
export const TOKEN_TIMEOUT_MS = 2_500;

/** No token could be had, so nothing was sent. `code` is the endpoint's name for it, such as "invalid_client". */
export class NoToken extends Error {
  override readonly name = 'NoToken';
  readonly code: string | null;

  constructor(code: string | null, options?: ErrorOptions) {
    super('No token for Teams could be had.', options);
    this.code = code;
  }
}

/**
 * Where the bot's own tokens come from: the platform's library, or a loopback for tests, which that library takes no
 * token from. Whatever goes wrong there, or takes longer than `timeoutMs`, is a `NoToken`.
 */
export function tokensFor(
  config: TeamsConfig,
  timeoutMs: number = TOKEN_TIMEOUT_MS,
): ServiceClientCredentialsFactory {
  const { appId, appSecret, tenantId, apiUrl } = config;
  if (apiUrl !== null) return new LimitedTokens(appId, loopbackTokens(config, apiUrl), timeoutMs);
  const own = new ConfigurationServiceClientCredentialFactory({
    MicrosoftAppId: appId,
    MicrosoftAppPassword: appSecret,
    MicrosoftAppType: 'SingleTenant',
    MicrosoftAppTenantId: tenantId,
  });
  return new LimitedTokens(appId, (...asked) => own.createCredentials(...asked), timeoutMs);
}

type Create = (
  appId: string,
  audience: string,
  loginEndpoint: string,
  validateAuthority: boolean,
) => ReturnType<ServiceClientCredentialsFactory['createCredentials']>;

/** The library wants a subclass. */
class LimitedTokens extends ServiceClientCredentialsFactory {
  readonly #appId: string;
  readonly #create: Create;
  readonly #timeoutMs: number;

  constructor(appId: string, create: Create, timeoutMs: number) {
    super();
    this.#appId = appId;
    this.#create = create;
    this.#timeoutMs = timeoutMs;
  }

  override async isValidAppId(appId: string): Promise<boolean> {
    return appId === this.#appId;
  }

  /** True would let every request in, forged or not. */
  override async isAuthenticationDisabled(): Promise<boolean> {
    return false;
  }

  override async createCredentials(appId: string, audience = '', login: string, validate: boolean) {
    const own = await this.#create(appId, audience, login, validate);
    return {
      signRequest: (request: Parameters<typeof own.signRequest>[0]) =>
        inTime(own.signRequest(request), this.#timeoutMs),
    };
  }
}

async function inTime<T>(work: Promise<T>, timeoutMs: number): Promise<T> {
  let stop: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_, reject) => {
    stop = setTimeout(() => reject(new NoToken('timeout')), timeoutMs);
  });
  try {
    return await Promise.race([work, late]);
  } catch (error) {
    throw error instanceof NoToken ? error : new NoToken(codeOf(error), { cause: error });
  } finally {
    clearTimeout(stop);
  }
}

/** The library's errors have `errorCode`, Node's `code`, the latter under a `cause` or two. */
function codeOf(error: unknown): string | null {
  if (!(error instanceof Error)) return null;
  const code = 'errorCode' in error ? error.errorCode : 'code' in error ? error.code : undefined;
  if (typeof code === 'string' && /^\w{1,60}$/.test(code)) return code;
  return codeOf(error.cause);
}

/** RFC 6749 section 4.4, against a Teams on this machine. Asked anew each time: it is for tests. */
function loopbackTokens({ appId, appSecret, tenantId }: TeamsConfig, apiUrl: string): Create {
  return async (_appId, audience) => ({
    async signRequest(request) {
      const response = await fetch(`${apiUrl}${tenantId}/oauth2/v2.0/token`, {
        method: 'POST',
        body: new URLSearchParams({
          grant_type: 'client_credentials',
          client_id: appId,
          client_secret: appSecret,
          scope: `${audience}/.default`,
        }),
      });
      const body: unknown = await response.json();
      const read = (name: string): string | null => {
        const value = typeof body === 'object' && body !== null ? Reflect.get(body, name) : null;
        return typeof value === 'string' ? value : null;
      };
      const token = read('access_token');
      if (!response.ok || token === null) throw new NoToken(read('error'));
      request.headers.set('authorization', `Bearer ${token}`);
      return request;
    },
  });
}
