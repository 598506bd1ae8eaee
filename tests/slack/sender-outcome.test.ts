import { webApi } from '@slack/bolt';
import { describe, expect, test } from 'vitest';
import { failedConnection } from '../../adapters/chat/connection.ts';
import { failedCall, failedStatus, refused } from '../../adapters/slack/outcome.ts';
import { refusals } from '../../adapters/slack/outcome-words.ts';
import { a, withSender } from './sender-helpers.ts';

const platform = (error: string) => new webApi.WebAPIPlatformError({ ok: false, error });
/** As Node says it: nodejs.org/api/errors.html#nodejs-error-codes, with the call that failed. */
const system = (code: string, syscall: string) =>
  Object.assign(new Error(`${syscall} ${code}`), { code, syscall });
const fetching = (cause: unknown) => new webApi.WebAPIRequestError(new TypeError('fetch failed', { cause }));

describe('what a call threw', () => {
  /** docs.slack.dev/reference/methods/chat.postMessage, errors. */
  test.each([
    ['channel_not_found', /add the app to the channel/],
    ['not_in_channel', /add the app to the channel/],
    ['is_archived', /restore it in Slack/],
    ['account_inactive', /install the app .* new token/],
    ['invalid_auth', /install the app .* new token/],
    ['token_revoked', /install the app .* new token/],
    ['missing_scope', /manifest and install/],
    ['msg_too_long', /longer than Slack takes/],
    ['invalid_blocks', /Pass it on by voice/],
    ['user_disabled', /tell them by voice/],
  ])('"%s" is for good, and says what to do', (code, what) => {
    const failed = failedCall(platform(code));
    expect(failed).toMatchObject({ kind: 'gone', code, why: expect.stringMatching(what) });
    expect(failed.why.endsWith(`(${code}).`)).toBe(true);
  });

  test('a refusal nobody has heard of is for good and named, also when it is called like a part of every object', () => {
    for (const code of ['brand_new_refusal', 'constructor']) {
      const why = `Slack refuses this for a reason that Potbell has no words for. Look it up in the list of Slack’s errors`;
      expect(refused(code)).toEqual({ kind: 'gone', code, why: `${why} (${code}).` });
    }
  });

  /** Same source: "It's possible some aspect of the operation succeeded before the error was raised." */
  test.each(['fatal_error', 'internal_error'])('"%s" may have been shown', (code) => {
    expect(failedCall(platform(code))).toMatchObject({ kind: 'unclear' });
  });

  test.each(['ratelimited', 'rate_limited', 'service_unavailable'])('"%s" was not shown', (code) => {
    expect(failedCall(platform(code))).toMatchObject({ kind: 'retry' });
  });

  test('a page of some other server is unclear, and not a word of it is passed on', () => {
    const failed = failedCall(platform('<html><body>Guest network, please sign in</body></html>'));
    expect(failed).toMatchObject({ kind: 'unclear', why: expect.stringContaining('proxy') });
    expect(failed.why).not.toMatch(/html|Guest/);
  });

  test('a limit comes with its wait in ms, when it names one', () => {
    expect(failedCall(new webApi.WebAPIRateLimitedError(7))).toMatchObject({ kind: 'retry', afterMs: 7000 });
    expect(failedStatus(429, Number.NaN)).toEqual({ kind: 'retry', why: expect.any(String) });
    expect(failedStatus(429, null)).toEqual({ kind: 'retry', why: expect.any(String) });
  });

  test.each([
    [500, 'unclear'],
    [502, 'unclear'],
    [503, 'unclear'],
    [504, 'unclear'],
    [408, 'unclear'],
    [404, 'retry'],
    [407, 'retry'],
    [413, 'gone'],
  ] as const)('HTTP %i is %s', (status, kind) => {
    expect(failedCall(new webApi.WebAPIHTTPError(status, '', {}, ''))).toMatchObject({ kind });
  });

  test.each([
    ['refused', system('ECONNREFUSED', 'connect')],
    ['no route', system('EHOSTUNREACH', 'connect')],
    ['no answer to the connection', system('ETIMEDOUT', 'connect')],
    ['no name', system('ENOTFOUND', 'getaddrinfo')],
    ['no answer about the name', system('EAI_AGAIN', 'getaddrinfo')],
    ['the pool gave up connecting', Object.assign(new Error('x'), { code: 'UND_ERR_CONNECT_TIMEOUT' })],
    [
      'every address',
      new AggregateError([system('ECONNREFUSED', 'connect'), system('ENETUNREACH', 'connect')]),
    ],
  ])('never sent, %s: try again', (_, cause) => {
    const failed = failedCall(fetching(cause));
    expect(failed).toMatchObject({ kind: 'retry', why: expect.stringContaining('Check the network') });
    expect(failed).not.toHaveProperty('afterMs');
  });

  test('a certificate that does not hold: nothing was sent, and the words say where to look', () => {
    const failed = failedCall(fetching(Object.assign(new Error('x'), { code: 'CERT_HAS_EXPIRED' })));
    expect(failed).toMatchObject({ kind: 'retry', why: expect.stringMatching(/CERT_HAS_EXPIRED.*date/) });
  });

  test.each([
    ['reset', system('ECONNRESET', 'read')],
    ['closed by the other side', Object.assign(new Error('other side closed'), { code: 'UND_ERR_SOCKET' })],
    ['in time no answer', new DOMException('The operation was aborted due to timeout', 'TimeoutError')],
    ['one address only', new AggregateError([system('ECONNREFUSED', 'connect'), system('EPIPE', 'write')])],
  ])('perhaps sent, %s: unclear', (_, cause) => {
    expect(failedCall(fetching(cause))).toMatchObject({ kind: 'unclear' });
    // The client leaves what goes wrong while the answer is read as it is.
    expect(failedConnection(cause, 'Slack')).toMatchObject({ kind: 'unclear' });
  });

  test.each([undefined, null, 'text', new Error('?'), {}])('anything else is unclear: %j', (thrown) => {
    expect(failedCall(thrown)).toMatchObject({ kind: 'unclear' });
  });
});

test('every refusal has one sentence of its own that ends in its code', () => {
  for (const [code, words] of Object.entries(refusals)) {
    expect(words, code).toMatch(/^[A-Z].*[^.\s]$/);
    expect(refused(code)).toEqual({ kind: 'gone', code, why: `${words} (${code}).` });
  }
});

/** The same through the real client, @slack/web-api 8.2. */
describe('through the real client', () => {
  test('a 429 names its wait, and the client itself neither waits nor tries again', () =>
    withSender(async ({ slack, sender }) => {
      slack.fault('chat.postMessage', { kind: '429', retryAfter: 7 });
      expect(await sender.post(a('d1'))).toMatchObject({ kind: 'retry', afterMs: 7000 });
      expect(slack.callsOf('chat.postMessage')).toHaveLength(1);
    }));

  test('a status, a drop and a refusal are tried once', () =>
    withSender(async ({ slack, sender }) => {
      slack.fault('chat.postMessage', { kind: 'status', status: 503 });
      expect(await sender.post(a('d1'))).toMatchObject({ kind: 'unclear' });
      slack.clock.advance(1000);
      slack.fault('chat.postMessage', { kind: 'drop' });
      expect(await sender.post(a('d1'))).toMatchObject({ kind: 'unclear' });
      slack.clock.advance(1000);
      slack.archive('C01');
      expect(await sender.post(a('d1'))).toMatchObject({ kind: 'gone', code: 'is_archived' });
      expect(slack.callsOf('chat.postMessage')).toHaveLength(3);
    }));

  test('a platform that is away refuses the connection', () =>
    withSender(async ({ slack, sender }) => {
      await slack.down(true);
      const failed = await sender.post(a('d1'));
      expect(failed).toMatchObject({ kind: 'retry', why: expect.stringContaining('ECONNREFUSED') });
    }));

  test('a channel it was never in, a token taken away', () =>
    withSender(async ({ slack, sender }) => {
      expect(await sender.post(a('d1', 'C02'))).toMatchObject({ kind: 'gone', code: 'not_in_channel' });
      expect(await sender.post(a('d1', 'C99'))).toMatchObject({ kind: 'gone', code: 'channel_not_found' });
      slack.badToken(true);
      expect(await sender.post(a('d1'))).toMatchObject({ kind: 'gone', code: 'invalid_auth' });
    }));
});
