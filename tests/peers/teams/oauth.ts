/**
 * The bot's own token: client credentials, RFC 6749 section 4.4. The scope and the audience of the connector:
 * learn.microsoft.com/azure/bot-service/rest-api/bot-framework-rest-connector-authentication. Tokens live an hour of
 * the peer's clock.
 */
import { errors, jwtVerify, SignJWT } from 'jose';
import type { PeerClock } from '../slack/clock.ts';
import type { Dict } from '../slack/json.ts';
import type { IssuerKeys } from './keys.ts';
import { Refused } from './refusal.ts';
import { ISSUER } from './tokens.ts';

export const SCOPE = `${ISSUER}/.default`;
const LIVES = 3600;

export type OAuth = {
  /** The answer to a form posted to the token endpoint. */
  grant(form: URLSearchParams): Promise<{ status: number; body: Dict }>;
  /** Throws Refused 401 unless the header holds a live token of this bot. */
  check(header: string): Promise<void>;
  /** All tokens given so far stop working. */
  revoke(): void;
};

export function startOAuth(
  clock: PeerClock,
  keys: IssuerKeys,
  bot: { appId: string; password: string; tenantId: string },
): OAuth {
  let generation = 1;
  const refuse = (error: string, description: string) => ({
    status: error === 'invalid_client' ? 401 : 400,
    body: { error, error_description: description },
  });
  return {
    async grant(form) {
      if (form.get('grant_type') !== 'client_credentials')
        return refuse('unsupported_grant_type', 'grant_type must be client_credentials');
      if (form.get('client_id') !== bot.appId || form.get('client_secret') !== bot.password)
        return refuse('invalid_client', 'client_id or client_secret is wrong');
      if (form.get('scope') !== SCOPE) return refuse('invalid_scope', `scope must be ${SCOPE}`);
      const now = Math.floor(clock.now() / 1000);
      const token = await new SignJWT({ appid: bot.appId, tid: bot.tenantId, generation })
        .setProtectedHeader({ alg: 'RS256', typ: 'JWT' })
        .setAudience(ISSUER)
        .setIssuedAt(now)
        .setExpirationTime(now + LIVES)
        .sign(keys.ownPrivate);
      const body = { token_type: 'Bearer', expires_in: LIVES, ext_expires_in: LIVES, access_token: token };
      return { status: 200, body };
    },
    async check(header) {
      const [scheme, token = ''] = header.split(' ');
      if (scheme !== 'Bearer' || token === '') throw new Refused('Unauthorized', 'No bearer token.');
      try {
        const currentDate = new Date(clock.now());
        const options = { audience: ISSUER, algorithms: ['RS256'], currentDate };
        const { payload } = await jwtVerify(token, keys.ownPublic, options);
        if (payload.appid !== bot.appId || payload.generation !== generation)
          throw new Refused('Unauthorized', 'The token is not one of this bot, or was revoked.');
      } catch (error) {
        if (error instanceof errors.JOSEError) throw new Refused('Unauthorized', error.message);
        throw error;
      }
    },
    revoke() {
      generation += 1;
    },
  };
}
