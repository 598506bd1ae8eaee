import { strToU8, zipSync } from 'fflate';
import { ACCENT, colorIcon, outlineIcon } from './icons.ts';

export interface AppOf {
  readonly siteName: string;
  /** The app's id in Microsoft Entra, which is the bot's as well. */
  readonly appId: string;
  /** https address of the site's board, where people find who runs it. */
  readonly url: string;
  /** Of Potbell: Teams takes a changed app only under another version. */
  readonly version: string;
}

/** Limits of the schema, version 1.29 (github.com/OfficeDev/microsoft-teams-app-schema), in characters. */
export const manifestLimits = {
  shortName: 30,
  fullName: 100,
  shortDescription: 80,
  fullDescription: 4000,
  developer: 32,
  commandTitle: 32,
  commandDescription: 128,
  commandsInList: 12,
} as const;

const scopes = ['personal', 'team', 'groupChat'] as const;

/** Words that are shown while somebody writes to Potbell; they are also understood without. */
const commands = [
  { title: 'help', description: 'What Potbell understands. Phones stay out of the spray area.' },
  { title: 'stop', description: 'Stop work. Say it aloud first.' },
  { title: 'emergency', description: 'The emergency card of this site: whom to call, where to meet.' },
] as const;

/** The app as Teams takes it. Nothing in it is secret. */
export function manifest({ siteName, appId, url, version }: AppOf) {
  const name = `Potbell ${siteName.replace(/\s+/g, ' ').trim()}`.trim();
  return {
    $schema: 'https://developer.microsoft.com/json-schemas/teams/v1.29/MicrosoftTeams.schema.json',
    manifestVersion: '1.29',
    version,
    id: appId,
    developer: { name: 'Potbell', websiteUrl: url, privacyUrl: url, termsOfUseUrl: url },
    name: { short: cut(name, manifestLimits.shortName), full: cut(name, manifestLimits.fullName) },
    description: {
      short: 'Prestart briefings, pot-life bells and flush confirmations of a spray crew.',
      full:
        'Potbell leads a protective-coatings spray crew through its day: the prestart briefing and who has signed it, ' +
        'bells before paint sets in the pot and the hose, and the flush step by step. It reminds and records. ' +
        'The foreman, the permit, the data sheets, local law and codes come first.',
    },
    icons: { color: 'color.png', outline: 'outline.png' },
    accentColor: ACCENT,
    bots: [
      {
        botId: appId,
        scopes: [...scopes],
        supportsFiles: true,
        isNotificationOnly: false,
        commandLists: [{ scopes: [...scopes], commands: commands.map((one) => ({ ...one })) }],
      },
    ],
    permissions: ['identity', 'messageTeamMembers'],
    validDomains: [],
  };
}

/** The package to upload: the manifest and its two icons, nothing beside or below. The same bytes for the same app. */
export function appPackage(app: AppOf): Uint8Array {
  const files = {
    'manifest.json': strToU8(`${JSON.stringify(manifest(app), null, 2)}\n`),
    'color.png': colorIcon(),
    'outline.png': outlineIcon(),
  };
  // A zip has a time for each file, from 1980 on, in local time.
  return zipSync(files, { mtime: new Date(1980, 0, 1), level: 9 });
}

/** Cut between words, or inside one that alone is too long; never inside a letter of two units. */
function cut(whole: string, most: number): string {
  if (whole.length <= most) return whole;
  let kept = '';
  for (const letter of whole) {
    if (kept.length + letter.length > most) break;
    kept += letter;
  }
  const words = kept.slice(0, kept.lastIndexOf(' '));
  return (words.length > 'Potbell'.length ? words : kept).replace(/[\s,;:.–-]+$/, '');
}
