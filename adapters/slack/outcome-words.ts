/**
 * What somebody has to do about a refusal, by the platform's code; no full stop, the code follows.
 * Codes: docs.slack.dev/reference/methods, errors of chat.*, conversations.*, views.*, files.*.
 */
const noAccess =
  'Slack no longer lets Potbell in: install the app in the workspace again and give Potbell the new token';
const notAllowed = 'The workspace does not let Potbell write here: ask who runs the workspace';
const messageGone = 'The message is no longer there in Slack: nothing is left to change';
const pressAgain = 'Slack waited too long for the form: press the button again';
const ours =
  'Slack does not take the message as Potbell built it. Pass it on by voice and report this as a fault of Potbell';
const tooLong =
  'The message is longer than Slack takes. Pass it on by voice and report this as a fault of Potbell';
const noSuchPerson =
  'Slack has no such person in this workspace: connect the person with their Slack account again';
const scheduledTime = 'Slack does not take a message for that time: it must be ahead, and at most 120 days';

export const refusals: Readonly<Record<string, string>> = {
  channel_not_found:
    'Slack finds no such channel, or Potbell is not in it: add the app to the channel, or choose another',
  not_in_channel: 'Potbell is not in this channel: add the app to the channel, or choose another',
  is_archived: 'The channel is archived: restore it in Slack, or choose another',
  is_inactive: 'The channel is no longer in use: restore it in Slack, or choose another',
  thread_not_found: messageGone,
  message_not_found: messageGone,
  cant_update_message: 'Slack lets Potbell change only its own messages: report this as a fault of Potbell',
  cant_delete_message: 'Slack lets Potbell delete only its own messages: report this as a fault of Potbell',
  edit_window_closed: 'The workspace does not allow changes to older messages: ask who runs the workspace',
  account_inactive: noAccess,
  invalid_auth: noAccess,
  not_authed: noAccess,
  token_expired: noAccess,
  token_revoked: noAccess,
  no_permission: notAllowed,
  restricted_action: notAllowed,
  restricted_action_read_only_channel: notAllowed,
  restricted_action_thread_only_channel: notAllowed,
  access_denied: notAllowed,
  org_login_required: notAllowed,
  ekm_access_denied: notAllowed,
  missing_scope:
    'Slack did not give Potbell a permission that this needs: add it to the app’s manifest and install the app again',
  user_not_found: noSuchPerson,
  users_not_found: noSuchPerson,
  user_disabled:
    'The person’s Slack account is switched off: tell them by voice, and take them off the crew or connect them again',
  cannot_dm_bot:
    'This account is a program and not a person: connect the person with their own Slack account',
  msg_too_long: tooLong,
  msg_blocks_too_long: tooLong,
  view_too_large: tooLong,
  invalid_blocks: ours,
  invalid_blocks_format: ours,
  invalid_arguments: ours,
  no_text: ours,
  block_mismatch: ours,
  expired_trigger_id: pressAgain,
  exchanged_trigger_id: pressAgain,
  invalid_trigger_id: pressAgain,
  expired_url: 'Slack takes no more answers to this press (5, for half an hour): press the button again',
  used_url: 'Slack takes no more answers to this press (5, for half an hour): press the button again',
  hash_conflict: 'The form has changed since: show it anew',
  not_found: 'The form is no longer open: press the button again',
  push_limit_reached: 'Too many forms are open one over the other: close them and press the button again',
  time_in_past: scheduledTime,
  time_too_far: scheduledTime,
  restricted_too_many:
    'Slack holds as many messages for these minutes as it takes: set the reminder with somebody on site',
  invalid_scheduled_message_id:
    'The message set for later is posted already, or will be within a minute: it cannot be taken back',
  file_not_found: 'The file did not arrive at Slack: send it again',
  file_uploads_disabled: notAllowed,
  storage_limit_reached: 'The workspace has no room left for files: ask who runs the workspace',
};
