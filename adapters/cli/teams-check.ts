import { writeFileSync } from 'node:fs';
import { good } from '../chat/finding.ts';
import { checkTeams } from '../teams/check.ts';
import { guid } from '../teams/config.ts';
import { appPackage } from '../teams/manifest.ts';
import { teamsFromEnvironment } from './chat-environment.ts';
import { tellFindings } from './findings.ts';
import { loadSite, UsageProblem } from './site.ts';

interface SiteOption {
  readonly site?: string;
}

interface AppOptions extends SiteOption {
  readonly url: string;
  readonly out: string;
  /** Of Potbell. */
  readonly version: string;
}

/** Say in plain words whether Teams is set up for this site. Nothing is posted. */
export async function teamsCheck({ site }: SiteOption): Promise<void> {
  const { pack, dir } = loadSite(site);
  const config = teamsFromEnvironment();
  if (config === null)
    throw new UsageProblem(
      'Teams is not set up: no variable that begins with POTBELL_TEAMS_ is set. Potbell does not need it. docs/guides/teams.md goes through it.',
    );
  const findings = await checkTeams({ config, site: pack.site, people: pack.people });
  const way = `port ${config.port}`;
  tellFindings([good(`the configuration is complete (${way}). Site pack: ${dir}.`), ...findings]);
}

/** Write the app to upload to Teams. */
export function teamsManifest({ site, url, out, version }: AppOptions): void {
  if (!(URL.canParse(url) && new URL(url).protocol === 'https:'))
    throw new UsageProblem(`"${url}" is no https address. Teams takes no other for an app.`);
  const appId = process.env.POTBELL_TEAMS_APP_ID?.trim() ?? '';
  if (!guid.test(appId))
    throw new UsageProblem(
      'POTBELL_TEAMS_APP_ID is missing or no id. Copy the Application (client) ID from the app registration in Microsoft Entra.',
    );
  const siteName = loadSite(site).pack.site.name;
  const bytes = appPackage({ siteName, appId: appId.toLowerCase(), url, version });
  try {
    writeFileSync(out, bytes);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new UsageProblem(`The app could not be written to ${out}: ${why}. Give another place with --out.`);
  }
  process.stdout.write(
    `Written: ${out}. In Teams: Apps, Manage your apps, Upload an app; then add it to the crew's team.\n`,
  );
}
