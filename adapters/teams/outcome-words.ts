/**
 * What somebody has to do about a refusal, by the platform's code; no full stop, the code follows. Codes:
 * learn.microsoft.com/microsoftteams/platform/bots/how-to/conversations/conversation-messages, "Status codes from bot
 * conversational APIs"; those marked so below are from memory.
 */
const ours =
  'Teams does not take the message as Potbell built it. Pass it on by voice and report this as a fault of Potbell';
const conversationGone =
  'Teams no longer has this conversation: add the app again, or write to Potbell there once so that it learns the new one';
const keyRefused =
  'Teams does not let Potbell in: check the app id, the tenant and the secret, and whether the secret has run out';

export const refusals: Readonly<Record<string, string>> = {
  BotNotInConversationRoster:
    'The app is not in this team or chat: add it there, or have the person add it, and tell them by voice until then',
  ConversationBlockedByUser:
    'The person has blocked the app in Teams: tell them by voice, and ask them to allow it again',
  BotDisabledByAdmin: 'The app is switched off in Teams: ask who runs Teams to allow it again',
  MessageWritesBlocked:
    'The person has blocked the app in Teams, or it may not write here: tell them by voice, and ask who runs Teams',
  ConversationNotFound: conversationGone,
  ActivityNotFoundInConversation: 'The message is no longer there in Teams: nothing is left to change',
  MessageSizeTooBig:
    'The message is longer than Teams takes. Pass it on by voice and report this as a fault of Potbell',
  BadSyntax: ours,
  BadArgument: ours,
  Unauthorized: keyRefused,
  // From memory, no source: the words of the token endpoint are those of RFC 6749 section 5.2.
  Forbidden: 'Teams does not let Potbell do this here: ask who runs Teams what the app may do',
  MemberNotFoundInConversation:
    'The person is not in the crew’s team: add them there, or correct their Teams id in the site pack',
  invalid_client: keyRefused,
  unauthorized_client: keyRefused,
  // Our own names, for what Teams is not even asked.
  NotHeardFrom:
    'Teams has not told Potbell yet where to write: add the app to the team, and write to Potbell there once',
};
