import { createServer } from 'node:net';
import { describe, expect, test } from 'vitest';
import { failedConnection } from '../../adapters/chat/connection.ts';
import { onceOnlyHttp, TeamsRefused } from '../../adapters/teams/http.ts';
import { failedCall, refused } from '../../adapters/teams/outcome.ts';
import { refusals } from '../../adapters/teams/outcome-words.ts';
import { NoToken, tokensFor } from '../../adapters/teams/token.ts';
import type { ErrorCode } from '../peers/teams/peer.ts';
import { BEN, DOCK } from '../peers/teams/world.ts';
import { a, withSender } from './sender-helpers.ts';

const answered = (status: number, code: string | null = null, retryAfter: number | null = null) =>
  failedCall(new TeamsRefused(status, code, retryAfter));
/** As Node says it: nodejs.org/api/errors.html#nodejs-error-codes, with the call that failed. */
const system = (code: string, syscall: string) =>
  Object.assign(new Error(`${syscall} ${code}`), { code, syscall });
const fetching = (cause: unknown) => new TypeError('fetch failed', { cause });

// learn.microsoft.com/microsoftteams/platform/bots/how-to/conversations/conversation-messages, status codes.
describe('what the connector answered', () => {
  test.each([
    [412, 'retry'],
    [429, 'retry'],
    [500, 'unclear'],
    [502, 'unclear'],
    [503, 'unclear'],
    [504, 'unclear'],
    [408, 'unclear'],
    [401, 'gone'],
    [403, 'gone'],
    [413, 'gone'],
    [404, 'retry'],
    [407, 'retry'],
  ] as const)('HTTP %i without a name for it is %s', (status, kind) => {
    expect(answered(status)).toMatchObject({ kind });
  });

  test.each([
    [403, 'BotNotInConversationRoster', /tell them by voice/],
    [403, 'ConversationBlockedByUser', /blocked the app/],
    [403, 'BotDisabledByAdmin', /ask who runs Teams/],
    [403, 'MessageWritesBlocked', /tell them by voice/],
    [404, 'ConversationNotFound', /add the app again/],
    [404, 'ActivityNotFoundInConversation', /nothing is left to change/],
    [400, 'BadArgument', /Pass it on by voice/],
    [413, 'MessageSizeTooBig', /Pass it on by voice/],
    [401, 'Unauthorized', /secret has run out/],
  ] as const)('%i %s is for good, and says what to do', (status, code, what) => {
    const failed = answered(status, code);
    expect(failed).toMatchObject({ kind: 'gone', code, why: expect.stringMatching(what) });
    expect(failed.why.endsWith(`(${code}).`)).toBe(true);
  });

  test('a wait comes in ms, when one is named', () => {
    expect(answered(429, 'TooManyRequests', 7)).toMatchObject({ kind: 'retry', afterMs: 7000 });
    expect(answered(429)).not.toHaveProperty('afterMs');
  });

  test('a refusal nobody has heard of is for good and named', () => {
    for (const code of ['BrandNewRefusal', 'constructor'])
      expect(answered(400, code)).toMatchObject({
        kind: 'gone',
        code,
        why: expect.stringContaining(`(${code}).`),
      });
  });
});

describe('what broke', () => {
  test.each([
    ['refused', system('ECONNREFUSED', 'connect')],
    ['no name', system('ENOTFOUND', 'getaddrinfo')],
    ['the pool gave up connecting', Object.assign(new Error('x'), { code: 'UND_ERR_CONNECT_TIMEOUT' })],
    [
      'every address',
      new AggregateError([system('ECONNREFUSED', 'connect'), system('ENETUNREACH', 'connect')]),
    ],
  ])('never sent, %s: try again', (_, cause) => {
    expect(failedCall(fetching(cause))).toMatchObject({
      kind: 'retry',
      why: expect.stringContaining('Check the network'),
    });
  });

  test('a certificate that does not hold', () => {
    const failed = failedConnection(
      fetching(Object.assign(new Error('x'), { code: 'CERT_HAS_EXPIRED' })),
      'Teams',
    );
    expect(failed).toMatchObject({ kind: 'retry', why: expect.stringMatching(/CERT_HAS_EXPIRED.*date/) });
  });

  test.each([
    ['reset', fetching(system('ECONNRESET', 'read'))],
    ['in time no answer', new DOMException('The operation was aborted due to timeout', 'TimeoutError')],
    ['one address only', new AggregateError([system('ECONNREFUSED', 'connect'), system('EPIPE', 'write')])],
    ['nothing known', undefined],
    ['a text', 'text'],
  ])('perhaps sent, %s: unclear', (_, thrown) => {
    expect(failedCall(thrown)).toMatchObject({ kind: 'unclear' });
  });

  test('without a token nothing was sent; a secret that is wrong is for good', () => {
    expect(failedCall(new NoToken('timeout'))).toMatchObject({
      kind: 'retry',
      why: expect.stringContaining('timeout'),
    });
    expect(failedCall(new NoToken(null))).toMatchObject({ kind: 'retry' });
    expect(failedCall(new NoToken('invalid_client'))).toMatchObject({ kind: 'gone', code: 'invalid_client' });
  });
});

test('every refusal has one sentence of its own that ends in its code', () => {
  for (const [code, words] of Object.entries(refusals)) {
    expect(words, code).toMatch(/^[A-Z].*[^.\s]$/);
    expect(refused(code)).toEqual({ kind: 'gone', code, why: `${words} (${code}).` });
  }
});

/** The same through the real client, botframework-connector 4.23.3, which by itself posts up to four times. */
describe('through the real client', () => {
  const named: readonly ErrorCode[] = [
    'BotDisabledByAdmin',
    'ConversationNotFound',
    'BadArgument',
    'Forbidden',
  ];
  test.each(named)('%s is tried once', (code) =>
    withSender(async ({ teams, sender, calls }) => {
      await teams.say(BEN, DOCK, 'hello');
      teams.fault('*', { kind: 'error', code });
      expect(await sender.post(a('d1'))).toMatchObject({ kind: 'gone', code });
      expect(calls()).toBe(1);
    }),
  );

  test.each([
    ['412', { kind: 'error', code: 'PreconditionFailed' }, 'retry'],
    ['429 without a wait', { kind: '429' }, 'retry'],
    ['500', { kind: 'status', status: 500 }, 'unclear'],
    ['503', { kind: 'status', status: 503 }, 'unclear'],
    ['504', { kind: 'status', status: 504 }, 'unclear'],
    ['a drop', { kind: 'drop' }, 'unclear'],
    ['no answer', { kind: 'hang' }, 'unclear'],
  ] as const)('%s is tried once', (_, fault, kind) =>
    withSender(async ({ teams, sender, calls, standing }) => {
      await teams.say(BEN, DOCK, 'hello');
      teams.fault('*', fault);
      expect(await sender.post(a('d1'))).toMatchObject({ kind });
      expect([calls(), teams.faultsLeft(), standing()]).toEqual([1, 0, []]);
    }),
  );

  test('a connection that is refused was never sent', async () => {
    const server = createServer();
    await new Promise<void>((resolve) => {
      server.listen(0, '127.0.0.1', resolve);
    });
    const address = server.address();
    const port = typeof address === 'object' && address !== null ? address.port : 0;
    await new Promise((resolve) => {
      server.close(resolve);
    });
    const headers = { headersArray: () => [] };
    const request = { url: `http://127.0.0.1:${port}/`, method: 'GET', headers, body: undefined };
    const thrown: unknown = await onceOnlyHttp(1_000)
      .sendRequest(request as never)
      .catch((error: unknown) => error);
    expect(failedCall(thrown)).toMatchObject({ kind: 'retry', why: expect.stringContaining('ECONNREFUSED') });
  });

  test('a token endpoint that says no, or says nothing, is told apart; no secret is in the words', () =>
    withSender(async ({ teams, restarted, config }) => {
      await teams.say(BEN, DOCK, 'hello');
      const wrong = restarted({ tokens: tokensFor({ ...config, appSecret: 'another-secret' }) });
      const refusal = await wrong.post(a('d1'));
      expect(refusal).toMatchObject({ kind: 'gone', code: 'invalid_client' });
      expect(JSON.stringify(refusal)).not.toContain('another-secret');
      teams.fault('token', { kind: 'hang' });
      expect(await restarted({ tokens: tokensFor(config, 50) }).post(a('d1'))).toMatchObject({
        kind: 'retry',
        why: expect.stringContaining('timeout'),
      });
      expect(teams.callsOf('createConversation')).toEqual([]);
    }));

  test('a token that was taken back is refused once', () =>
    withSender(async ({ teams, sender, calls }) => {
      await teams.say(BEN, DOCK, 'hello');
      teams.fault('*', { kind: 'error', code: 'Unauthorized' });
      expect(await sender.post(a('d1'))).toMatchObject({ kind: 'gone', code: 'Unauthorized' });
      expect(calls()).toBe(1);
    }));
});

test('in production the platform’s own library is asked for tokens, and none but our own app is let in', async () => {
  const config = {
    appId: '00000000-0000-4000-8000-0000000000b0',
    appSecret: 'not-a-secret',
    tenantId: '00000000-0000-4000-8000-0000000000ff',
    port: 0,
    apiUrl: null,
  };
  const tokens = tokensFor(config);
  expect([await tokens.isAuthenticationDisabled(), await tokens.isValidAppId(config.appId)]).toEqual([
    false,
    true,
  ]);
  expect(await tokens.isValidAppId('00000000-0000-4000-8000-00000000beef')).toBe(false);
  const made = await tokens.createCredentials(
    config.appId,
    'https://api.botframework.com',
    'https://login.invalid/',
    true,
  );
  expect(typeof made.signRequest).toBe('function');
});
