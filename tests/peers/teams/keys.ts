/** The keys of the local issuer. Made once a process, as making RSA keys is slow; the tests of a process share them. */
import { type CryptoKey, exportJWK, exportSPKI, generateKeyPair, type JWK } from 'jose';

export type IssuerKeys = {
  /** Signs for Teams. */
  good: CryptoKey;
  /** Published too, but endorsed for another channel. */
  elsewhere: CryptoKey;
  /** Never published. */
  stranger: CryptoKey;
  /** Signs the bot's own tokens. */
  ownPrivate: CryptoKey;
  ownPublic: CryptoKey;
  /** The public half of `good` as text: the secret of an HS256 forgery. */
  spki: string;
  published: JWK[];
};

export const GOOD_KID = 'k-teams';
export const ELSEWHERE_KID = 'k-elsewhere';

async function make(): Promise<IssuerKeys> {
  const pair = () => generateKeyPair('RS256', { extractable: true });
  const [good, elsewhere, stranger, own] = await Promise.all([pair(), pair(), pair(), pair()]);
  const shown = async (key: CryptoKey, kid: string, endorsements: string[]): Promise<JWK> => {
    const jwk = await exportJWK(key);
    return Object.assign(jwk, { kid, use: 'sig', endorsements });
  };
  return {
    good: good.privateKey,
    elsewhere: elsewhere.privateKey,
    stranger: stranger.privateKey,
    ownPrivate: own.privateKey,
    ownPublic: own.publicKey,
    spki: await exportSPKI(good.publicKey),
    published: [
      await shown(good.publicKey, GOOD_KID, ['msteams']),
      await shown(elsewhere.publicKey, ELSEWHERE_KID, ['webchat']),
    ],
  };
}

let made: Promise<IssuerKeys> | undefined;

export function issuerKeys(): Promise<IssuerKeys> {
  made ??= make();
  return made;
}
