import { WebClient } from '@slack/web-api';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { events, manifest, manifestYaml, scopes } from '../../adapters/slack/manifest.ts';
import { filesUnder } from '../rules/files.ts';

const scopesListed = scopes.map(({ scope }) => scope);
const eventsListed = events.map(({ event }) => event);

/**
 * Scopes each method wants of a bot token, of which it needs all that are named here for the conversations Potbell uses
 * (public and private channels, direct conversations). Source: docs.slack.dev/reference/methods/METHOD, "Required scopes".
 * A method that is not here is not used.
 */
const methodScopes: Readonly<Record<string, readonly string[]>> = {
  'apps.connections.open': [],
  'auth.test': [],
  'bots.info': ['users:read'],
  'chat.delete': ['chat:write'],
  'chat.deleteScheduledMessage': ['chat:write'],
  'chat.postEphemeral': ['chat:write'],
  'chat.postMessage': ['chat:write'],
  'chat.scheduleMessage': ['chat:write'],
  'chat.scheduledMessages.list': [],
  'chat.update': ['chat:write'],
  'conversations.history': ['channels:history', 'groups:history', 'im:history'],
  'conversations.info': ['channels:read', 'groups:read'],
  'conversations.open': ['im:write'],
  'conversations.replies': ['channels:history', 'groups:history', 'im:history'],
  'files.completeUploadExternal': ['files:write'],
  'files.getUploadURLExternal': ['files:write'],
  'files.uploadV2': ['files:write'],
  'users.info': ['users:read'],
  'views.open': [],
  'views.publish': [],
  'views.push': [],
  'views.update': [],
};

/** Scopes of events. Source: docs.slack.dev/reference/events/EVENT, "Required scopes". */
const eventScopes: Readonly<Record<string, string | null>> = {
  app_home_opened: null,
  app_mention: 'app_mentions:read',
  'message.channels': 'channels:history',
  'message.groups': 'groups:history',
  'message.im': 'im:history',
};

/** Every method that the platform's own client knows, such as "chat.scheduledMessages.list". */
function methodsOf(node: object, path: readonly string[] = []): readonly string[] {
  return Object.entries(node).flatMap(([name, value]) => {
    if (typeof value === 'function') return [[...path, name].join('.')];
    return typeof value === 'object' && value !== null ? methodsOf(value, [...path, name]) : [];
  });
}
const { admin, apps, auth, bookmarks, bots, chat, conversations, dnd, emoji, files, pins } = new WebClient();
const { reactions, reminders, team, usergroups, users, views } = new WebClient();
const known = methodsOf({
  ...{ admin, apps, auth, bookmarks, bots, chat, conversations, dnd, emoji, files, pins },
  ...{ reactions, reminders, team, usergroups, users, views },
});

/** The methods a piece of source calls or names as text; addresses of their pages are no use of them. */
function methodsUsed(source: string): readonly string[] {
  const code = source.replace(/\/\*[\s\S]*?\*\//g, '').replace(/(^|\s)\/\/.*$/gm, '');
  const text = code.replaceAll(/\bmethods\/[\w.]+/g, '').replaceAll('filesUploadV2', 'files.uploadV2');
  return known.filter((method) => new RegExp(`\\b${method.replaceAll('.', '\\.')}\\b(?!\\.)`).test(text));
}

/** The event types a piece of source listens to. */
function eventsUsed(source: string): readonly string[] {
  const named = [...source.matchAll(/\.event\(\s*['"]([\w.]+)['"]/g)].map(([, name]) => name ?? '');
  return [...named, ...(/\bapp\.message\(/.test(source) ? ['message'] : [])];
}

const sources = filesUnder('adapters/slack', '.ts');

/** What docs.slack.dev/reference/app-manifest and schemas/manifest.schema.2.0.0.json of github.com/slackapi/manifest-schema say. */
const shape = z.strictObject({
  display_information: z.strictObject({
    name: z.string().min(1).max(35),
    description: z.string().min(1).max(140),
  }),
  features: z.strictObject({
    app_home: z.strictObject({
      home_tab_enabled: z.literal(true),
      messages_tab_enabled: z.literal(true),
      messages_tab_read_only_enabled: z.literal(false),
    }),
    bot_user: z.strictObject({
      display_name: z
        .string()
        .max(80)
        .regex(/^[a-z0-9._-]+$/),
      always_online: z.boolean(),
    }),
    slash_commands: z
      .array(
        z.strictObject({
          command: z
            .string()
            .min(2)
            .max(32)
            .regex(/^\/[a-z]+$/),
          description: z.string().min(1).max(2000),
          usage_hint: z.string().min(1).max(1000),
          should_escape: z.literal(false),
          url: z
            .string()
            .max(3000)
            .regex(/^https:\/\//)
            .optional(),
        }),
      )
      .length(1),
  }),
  oauth_config: z.strictObject({ scopes: z.strictObject({ bot: z.array(z.string()).max(255) }) }),
  settings: z.strictObject({
    event_subscriptions: z.strictObject({
      request_url: z.url().optional(),
      bot_events: z.array(z.string()).max(100),
    }),
    interactivity: z.strictObject({ is_enabled: z.literal(true), request_url: z.url().optional() }),
    org_deploy_enabled: z.literal(false),
    socket_mode_enabled: z.boolean(),
    token_rotation_enabled: z.literal(false),
  }),
});

describe('the manifest', () => {
  test('is what Slack takes, and its YAML says the same', () => {
    const made = shape.parse(parse(manifestYaml('North Jetty')));
    expect(made).toEqual(manifest('North Jetty'));
    expect(made.display_information.name).toBe('Potbell North Jetty');
    expect(made.features.slash_commands.map(({ command }) => command)).toEqual(['/potbell']);
    expect(made.settings.socket_mode_enabled).toBe(true);
  });

  test('over HTTP it names the address in each of the three places, and Socket Mode is off', () => {
    const url = 'https://site.example/slack/events';
    const { features, settings } = shape.parse(parse(manifestYaml('North Jetty', url)));
    expect(features.slash_commands[0]?.url).toBe(url);
    expect(settings.event_subscriptions.request_url).toBe(url);
    expect(settings.interactivity.request_url).toBe(url);
    expect(settings.socket_mode_enabled).toBe(false);
  });

  test('has the scopes and events of the list, each once, and no others', () => {
    const { oauth_config, settings } = shape.parse(parse(manifestYaml('North Jetty')));
    expect(oauth_config.scopes.bot).toEqual([...new Set(scopesListed)]);
    expect(settings.event_subscriptions.bot_events).toEqual([...new Set(eventsListed)]);
  });

  test('the reason of each scope and event stands beside it', () => {
    const lines = manifestYaml('North Jetty').split('\n');
    for (const [name, why] of [
      ...scopes.map(({ scope, why }) => [scope, why] as const),
      ...events.map(({ event, why }) => [event, why] as const),
    ])
      expect(lines.filter((line) => line.trim() === `- ${name} # ${why}`)).toHaveLength(1);
  });

  test.each([
    ['North Jetty', 'Potbell North Jetty'],
    ['North Jetty repaint, spans 2 to 14 and the old pump house', 'Potbell North Jetty repaint, spans'],
    ['Donaudampfschifffahrtsbrückenanstrich', 'Potbell Donaudampfschifffahrtsbrück'],
    ['  Pier\n3 ', 'Potbell Pier 3'],
    [': # "Pier" 3', 'Potbell : # "Pier" 3'],
    ['🎨'.repeat(40), `Potbell ${'🎨'.repeat(13)}`],
  ])('the site %j gives the name %j', (site, name) => {
    const made = shape.parse(parse(manifestYaml(site)));
    expect(made.display_information.name).toBe(name);
    expect(made.display_information.name).not.toMatch(/\p{Surrogate}/u);
  });
});

describe('the list of scopes and events', () => {
  // Pinned by hand: another right in somebody's workspace is asked for on purpose, and told to who installed it.
  test('is this one', () => {
    expect(scopesListed).toEqual([
      'app_mentions:read',
      'channels:history',
      'channels:read',
      'chat:write',
      'commands',
      'files:write',
      'groups:history',
      'groups:read',
      'im:history',
      'im:write',
      'users:read',
    ]);
    expect(eventsListed).toEqual(Object.keys(eventScopes).sort());
  });

  test('each event has the scope that Slack wants for it, and it is asked for', () => {
    for (const { event, scope } of events) {
      expect([event, scope]).toEqual([event, eventScopes[event]]);
      if (scope !== null) expect(scopesListed).toContain(scope);
    }
  });

  test('each scope is wanted by an event, by a method, or by the slash command', () => {
    const wanted = new Set([
      ...Object.values(methodScopes).flat(),
      ...Object.values(eventScopes),
      'commands',
    ]);
    expect(scopesListed.filter((scope) => !wanted.has(scope))).toEqual([]);
  });

  test.each(sources.map((file) => [file.path, file] as const))(
    'covers all that %s uses',
    (_path, { text }) => {
      // To mend: name the method here with its scopes, and the scopes and events in the list with their reason.
      const methods = methodsUsed(text);
      expect(methods.filter((method) => methodScopes[method] === undefined)).toEqual([]);
      expect(
        methods.flatMap((method) => methodScopes[method] ?? []).filter((one) => !scopesListed.includes(one)),
      ).toEqual([]);
      const heard = (name: string) =>
        eventsListed.some((event) => event === name || event.startsWith(`${name}.`));
      expect(eventsUsed(text).filter((name) => !heard(name))).toEqual([]);
    },
  );
});

describe('what finds uses in the sources', () => {
  test('finds calls, names as text and the upload; no page, no comment', () => {
    const source = `
      // chat.delete is never used
      await web.chat.postMessage({}); await this.#web.apiCall('views.open', {});
      await client.filesUploadV2({}); await web.chat.scheduledMessages.list();
      const page = 'docs.slack.dev/reference/methods/chat.update (msg_too_long)';`;
    expect([...methodsUsed(source)].sort()).toEqual([
      'chat.postMessage',
      'chat.scheduledMessages.list',
      'files.uploadV2',
      'views.open',
    ]);
  });

  test('finds what is listened to', () => {
    expect(
      eventsUsed(`app.event('reaction_added', hear); app.message(hear); app.event(\n  "team_join"`),
    ).toEqual(['reaction_added', 'team_join', 'message']);
  });

  test('finds what the check of Slack asks', () => {
    const check = sources.find(({ path }) => path === 'adapters/slack/check.ts');
    expect([...methodsUsed(check?.text ?? '')].sort()).toEqual([
      'apps.connections.open',
      'auth.test',
      'conversations.info',
      'users.info',
    ]);
  });
});
