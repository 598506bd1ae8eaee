import { good } from '../chat/finding.ts';
import { checkSlack } from '../slack/check.ts';
import { manifestYaml } from '../slack/manifest.ts';
import { slackFromEnvironment } from './chat-environment.ts';
import { tellFindings } from './findings.ts';
import { loadSite, UsageProblem } from './site.ts';

interface SiteOption {
  readonly site?: string;
}

/** Say in plain words whether Slack is set up for this site. Nothing is posted. */
export async function slackCheck({ site }: SiteOption): Promise<void> {
  const { pack, dir } = loadSite(site);
  const config = slackFromEnvironment();
  if (config === null)
    throw new UsageProblem(
      'Slack is not set up: no variable that begins with POTBELL_SLACK_ is set. Potbell does not need it. docs/guides/slack.md goes through it.',
    );
  const findings = await checkSlack({ config, site: pack.site, people: pack.people });
  const way = config.way.kind === 'socket' ? 'Socket Mode' : `HTTP on port ${config.way.port}`;
  tellFindings([good(`the configuration is complete (${way}). Site pack: ${dir}.`), ...findings]);
}

/** The app to paste into Slack. */
export function slackManifest({ site, url }: SiteOption & { readonly url?: string }): void {
  if (url !== undefined && !(URL.canParse(url) && new URL(url).protocol === 'https:'))
    throw new UsageProblem(`"${url}" is no https address. Slack sends its requests to no other.`);
  process.stdout.write(manifestYaml(loadSite(site).pack.site.name, url ?? null));
}
