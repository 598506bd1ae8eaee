/**
 * Refusals of the connector. Statuses of the codes: learn.microsoft.com/microsoftteams/platform/bots/how-to/
 * conversations/conversation-messages (status codes from bot conversational APIs). BadSyntax, Forbidden,
 * MemberNotFoundInConversation, PreconditionFailed and TooManyRequests as words: from memory, no source.
 */
import type { Dict } from '../slack/json.ts';
import type { ErrorCode } from './types.ts';

const STATUS: { readonly [code in ErrorCode]: number } = {
  BadArgument: 400,
  BadSyntax: 400,
  Unauthorized: 401,
  BotDisabledByAdmin: 403,
  BotNotInConversationRoster: 403,
  ConversationBlockedByUser: 403,
  Forbidden: 403,
  MessageWritesBlocked: 403,
  ActivityNotFoundInConversation: 404,
  ConversationNotFound: 404,
  MemberNotFoundInConversation: 404,
  NotFound: 404,
  PreconditionFailed: 412,
  MessageSizeTooBig: 413,
  TooManyRequests: 429,
};

export class Refused extends Error {
  readonly status: number;
  readonly body: Dict;
  readonly retryAfter: number | null;
  constructor(code: ErrorCode, message: string, retryAfter: number | null = null) {
    super(`${code}: ${message}`);
    this.status = STATUS[code];
    this.body = { error: { code, message } };
    this.retryAfter = retryAfter;
  }
}
