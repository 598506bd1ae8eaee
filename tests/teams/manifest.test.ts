import { inflateSync } from 'node:zlib';
import { strFromU8, unzipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { guid } from '../../adapters/teams/config.ts';
import { colorIcon, outlineIcon } from '../../adapters/teams/icons.ts';
import { appPackage, manifest, manifestLimits } from '../../adapters/teams/manifest.ts';

const app = {
  siteName: 'Dock two',
  appId: '00000000-0000-4000-8000-0000000000b0',
  url: 'https://board.yard.test/',
  version: '0.1.0',
};

const text = (most: number) => z.string().min(1).max(most);
const https = z
  .string()
  .regex(/^https:\/\//)
  .max(2048);
const scopes = z
  .array(z.enum(['team', 'personal', 'groupChat', 'copilot']))
  .min(1)
  .max(4);

/**
 * What the schema takes of the parts we use: github.com/OfficeDev/microsoft-teams-app-schema, version 1.29, from notes
 * taken of it (limits of names, scopes, bots and commands) and from the stored version 1.7 (all else).
 */
const schema = z.strictObject({
  $schema: z.literal('https://developer.microsoft.com/json-schemas/teams/v1.29/MicrosoftTeams.schema.json'),
  manifestVersion: z.literal('1.29'),
  version: z
    .string()
    .regex(/^\d+\.\d+\.\d+$/)
    .max(256),
  id: z.string().regex(guid),
  developer: z.strictObject({ name: text(32), websiteUrl: https, privacyUrl: https, termsOfUseUrl: https }),
  name: z.strictObject({ short: text(30), full: text(100) }),
  description: z.strictObject({ short: text(80), full: text(4000) }),
  icons: z.strictObject({ color: text(2048), outline: text(2048) }),
  accentColor: z.string().regex(/^#[0-9a-fA-F]{6}$/),
  bots: z
    .array(
      z.strictObject({
        botId: z.string().regex(guid),
        scopes,
        supportsFiles: z.boolean(),
        isNotificationOnly: z.boolean(),
        commandLists: z
          .array(
            z.strictObject({
              scopes,
              commands: z.array(z.strictObject({ title: text(32), description: text(128) })).max(12),
            }),
          )
          .max(3),
      }),
    )
    .max(1),
  permissions: z.array(z.enum(['identity', 'messageTeamMembers'])),
  validDomains: z.array(z.string()).max(16),
});

describe('the app for Teams', () => {
  test.each([
    ['a short name', 'Dock two'],
    ['no name', ' '],
    ['a long name', `Dock ${'two '.repeat(50)}`],
    ['one long word', 'x'.repeat(200)],
    ['letters of two units', '🛠'.repeat(40)],
  ])('keeps to the schema with %s', (_, siteName) => {
    const made = manifest({ ...app, siteName });
    expect(schema.parse(made)).toEqual(made);
    expect(made.name.short).toMatch(/^Potbell/);
    expect(made.name.short).not.toMatch(/\p{Surrogate}/u);
  });

  test('says that the foreman and the permit come first, and nothing of a permission to spray', () => {
    const { description } = manifest(app);
    expect(description.full).toContain('The foreman, the permit');
    expect(JSON.stringify(manifest(app))).not.toMatch(/\bsafe\b|clear to/i);
  });

  test('is a zip of the manifest and its icons, nothing else, and always the same', () => {
    const bytes = appPackage(app);
    const files = unzipSync(bytes);
    expect(Object.keys(files).sort()).toEqual(['color.png', 'manifest.json', 'outline.png']);
    expect(JSON.parse(strFromU8(files['manifest.json'] ?? new Uint8Array()))).toEqual(manifest(app));
    expect(files['color.png']).toEqual(colorIcon());
    expect(Buffer.compare(bytes, appPackage(app))).toBe(0);
    expect(manifestLimits.shortName).toBe(30);
  });
});

/** W3C, Portable Network Graphics, third edition: signature, then IHDR with width, height, depth and colour type. */
function pixels(bytes: Uint8Array): { size: number; at: (x: number, y: number) => number[] } {
  const file = Buffer.from(bytes);
  expect(file.subarray(0, 8).toString('latin1')).toBe('\x89PNG\r\n\x1a\n');
  expect(file.subarray(12, 16).toString()).toBe('IHDR');
  const size = file.readUInt32BE(16);
  expect([file.readUInt32BE(20), file[24], file[25]]).toEqual([size, 8, 6]);
  const length = file.readUInt32BE(33);
  expect(file.subarray(37, 41).toString()).toBe('IDAT');
  const raw = inflateSync(file.subarray(41, 41 + length));
  return { size, at: (x, y) => [...raw.subarray(y * (1 + size * 4) + 1 + x * 4).subarray(0, 4)] };
}

// learn.microsoft.com/microsoftteams/platform/concepts/build-and-test/apps-package, "App icons".
describe('the icons', () => {
  test('the coloured one is 192 by 192 and covers all of it', () => {
    const { size, at } = pixels(colorIcon());
    expect([size, at(0, 0), at(96, 130)]).toEqual([192, [0x1f, 0x3d, 0x4d, 255], [255, 255, 255, 255]]);
  });

  test('the outline is 32 by 32, white on nothing', () => {
    const { size, at } = pixels(outlineIcon());
    expect([size, at(0, 0), at(16, 22)]).toEqual([32, [255, 255, 255, 0], [255, 255, 255, 255]]);
    for (let x = 0; x < 32; x += 1)
      for (let y = 0; y < 32; y += 1) expect(at(x, y).slice(0, 3)).toEqual([255, 255, 255]);
  });
});
