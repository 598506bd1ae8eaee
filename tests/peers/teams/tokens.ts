/**
 * Tokens from the platform to the bot, good and forged. What a bot has to check: learn.microsoft.com/azure/
 * bot-service/rest-api/bot-framework-rest-connector-authentication, "Authenticate requests from the Bot Connector
 * service to your bot". Botbuilder 4.23.3 reads the claim `serviceurl` in lower case and allows 5 minutes either way.
 */
import { SignJWT } from 'jose';
import { ELSEWHERE_KID, GOOD_KID, type IssuerKeys } from './keys.ts';
import type { Forgery } from './types.ts';

export const ISSUER = 'https://api.botframework.com';
const TEN_MINUTES = 600;

export type Minter = (forgery: Forgery | null, serviceUrl: string, nowMs: number) => Promise<string | null>;

/** Gives what goes into the Authorization header, or null for none. */
export function startMinter(keys: IssuerKeys, appId: string): Minter {
  return async (forgery, serviceUrl, nowMs) => {
    const now = Math.floor(nowMs / 1000);
    const claims = (changed: { [name: string]: unknown } = {}) => ({
      serviceurl: serviceUrl,
      iss: ISSUER,
      aud: appId,
      iat: now,
      nbf: now,
      exp: now + TEN_MINUTES,
      ...changed,
    });
    const signed = async (changed = {}, key = keys.good, kid = GOOD_KID): Promise<string> =>
      `Bearer ${await new SignJWT(claims(changed)).setProtectedHeader({ alg: 'RS256', typ: 'JWT', kid }).sign(key)}`;

    switch (forgery) {
      case null:
        return signed();
      case 'unsigned':
        return null;
      case 'not-bearer':
        return (await signed()).replace('Bearer', 'Basic');
      case 'garbage':
        return 'Bearer not.a.token';
      case 'alg-none':
        return `Bearer ${part({ alg: 'none', typ: 'JWT', kid: GOOD_KID })}.${part(claims())}.`;
      case 'HS256': {
        // The public key taken for a shared secret: the oldest way to fool a check that does not fix the algorithm.
        const header = { alg: 'HS256', typ: 'JWT', kid: GOOD_KID };
        return `Bearer ${await new SignJWT(claims()).setProtectedHeader(header).sign(new TextEncoder().encode(keys.spki))}`;
      }
      case 'wrong-key':
        return signed({}, keys.stranger);
      case 'unknown-key':
        return signed({}, keys.stranger, 'k-stranger');
      case 'expired':
        return signed({ iat: now - 2 * TEN_MINUTES, nbf: now - 2 * TEN_MINUTES, exp: now - TEN_MINUTES });
      case 'not-yet-valid':
        return signed({ nbf: now + TEN_MINUTES, exp: now + 2 * TEN_MINUTES });
      case 'wrong-audience':
        return signed({ aud: '00000000-0000-0000-0000-00000000beef' });
      case 'wrong-issuer':
        return signed({ iss: 'https://issuer.invalid' });
      case 'wrong-service-url':
        return signed({ serviceurl: 'http://127.0.0.1:9/elsewhere/' });
      case 'no-service-url':
        return signed({ serviceurl: undefined });
      case 'missing-endorsement':
        return signed({}, keys.elsewhere, ELSEWHERE_KID);
    }
  };
}

function part(value: object): string {
  return Buffer.from(JSON.stringify(value)).toString('base64url');
}
