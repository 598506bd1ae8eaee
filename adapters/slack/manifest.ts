import { stringify } from 'yaml';

export interface ScopeUse {
  readonly scope: string;
  /** What would not work without it. */
  readonly why: string;
}

export interface EventUse {
  readonly event: string;
  /** The scope that Slack wants for it; null for none. */
  readonly scope: string | null;
  readonly why: string;
}

/** All that Potbell may do in a workspace. A scope that nothing needs is one that a stolen token could use. */
export const scopes: readonly ScopeUse[] = [
  {
    scope: 'app_mentions:read',
    why: 'read a line that somebody writes to it in the crew channel with its name',
  },
  {
    scope: 'channels:history',
    why: 'see its own scheduled backstop appear in a public crew channel, and find a message again after a break in the line',
  },
  { scope: 'channels:read', why: 'check that a public crew channel exists and that the bot is in it' },
  { scope: 'chat:write', why: 'post briefings and bells, correct them, schedule and take back backstops' },
  { scope: 'commands', why: '/potbell' },
  { scope: 'files:write', why: 'hand over the record of a shift as a file' },
  { scope: 'groups:history', why: 'the same as channels:history in a private crew channel' },
  { scope: 'groups:read', why: 'the same as channels:read in a private crew channel' },
  { scope: 'im:history', why: 'read what somebody writes to it directly' },
  { scope: 'im:write', why: 'open the direct conversation in which a bell rings for one person' },
  { scope: 'users:read', why: 'check that each member id in people.yaml is a person who is still there' },
];

/**
 * What Slack tells Potbell. `message.channels` and `message.groups` bring all that is written in channels the bot is in;
 * they are here for one thing: no other way says that a scheduled backstop was posted although it had been taken back
 * (Slack confirms a deletion in the last five minutes and posts all the same), and then its text has to be corrected.
 */
export const events: readonly EventUse[] = [
  { event: 'app_home_opened', scope: null, why: 'show a person their day when they open the app' },
  { event: 'app_mention', scope: 'app_mentions:read', why: 'a line to Potbell in the crew channel' },
  { event: 'message.channels', scope: 'channels:history', why: 'its own backstop appears, public channel' },
  { event: 'message.groups', scope: 'groups:history', why: 'its own backstop appears, private channel' },
  { event: 'message.im', scope: 'im:history', why: 'a line to Potbell in the direct conversation' },
];

/** Longest name of an app: docs.slack.dev/reference/app-manifest. */
const longestName = 35;

/**
 * The app as Slack's "From a manifest" takes it. Socket Mode unless `requestUrl` (https, where the site's proxy takes
 * Slack's requests) is given. Nothing in it is secret.
 */
export function manifest(siteName: string, requestUrl: string | null = null) {
  const request = requestUrl === null ? {} : { request_url: requestUrl };
  return {
    display_information: {
      name: appName(siteName),
      description: 'Prestart briefings, pot-life clocks, bells and flush confirmations of a spray crew.',
    },
    features: {
      app_home: {
        home_tab_enabled: true,
        messages_tab_enabled: true,
        messages_tab_read_only_enabled: false,
      },
      // A green dot that is always there would say that Potbell runs when it does not.
      bot_user: { display_name: 'potbell', always_online: false },
      slash_commands: [
        {
          command: '/potbell',
          description: 'Report to Potbell, or ask it. Phones stay out of the spray area.',
          usage_hint: 'help | stop | emergency',
          should_escape: false,
          ...(requestUrl === null ? {} : { url: requestUrl }),
        },
      ],
    },
    oauth_config: { scopes: { bot: scopes.map(({ scope }) => scope) } },
    settings: {
      event_subscriptions: { ...request, bot_events: events.map(({ event }) => event) },
      interactivity: { is_enabled: true, ...request },
      org_deploy_enabled: false,
      socket_mode_enabled: requestUrl === null,
      token_rotation_enabled: false,
    },
  };
}

/** The same as YAML to paste, with the reason of each scope and event beside it. */
export function manifestYaml(siteName: string, requestUrl: string | null = null): string {
  const reasons = new Map<string, string>([
    ...scopes.map(({ scope, why }) => [scope, why] as const),
    ...events.map(({ event, why }) => [event, why] as const),
  ]);
  return stringify(manifest(siteName, requestUrl), { lineWidth: 0 }).replace(
    /^ *- (\S+)$/gm,
    (line, name: string) => {
      const why = reasons.get(name);
      return why === undefined ? line : `${line} # ${why}`;
    },
  );
}

/** "Potbell" and the site. A name that is too long is cut between words, or inside one that alone is too long. */
function appName(siteName: string): string {
  const whole = `Potbell ${siteName.replace(/\s+/g, ' ').trim()}`.trim();
  if (whole.length <= longestName) return whole;
  let cut = '';
  for (const letter of whole) {
    if (cut.length + letter.length > longestName) break;
    cut += letter;
  }
  const words = cut.slice(0, cut.lastIndexOf(' '));
  return (words.length > 'Potbell'.length ? words : cut).replace(/[\s,;:.–-]+$/, '');
}
