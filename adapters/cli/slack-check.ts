import { checkSlack, type Finding } from '../slack/check.ts';
import { readSlackConfig } from '../slack/config.ts';
import { manifestYaml } from '../slack/manifest.ts';
import { loadSite, UsageProblem } from './site.ts';

interface SiteOption {
  readonly site?: string;
}

const labels: Readonly<Record<Finding['state'], string>> = {
  good: 'In order',
  note: 'Note',
  mend: 'To mend',
};

/** Say in plain words whether Slack is set up for this site. Nothing is posted. */
export async function slackCheck({ site }: SiteOption): Promise<void> {
  const { pack, dir } = loadSite(site);
  const read = readSlackConfig(process.env);
  if (read.kind === 'none')
    throw new UsageProblem(
      'Slack is not set up: no variable that begins with POTBELL_SLACK_ is set. Potbell does not need it. docs/guides/slack.md goes through it.',
    );
  if (read.kind === 'bad')
    throw new UsageProblem(`Slack is not set up rightly:\n${read.problems.join('\n')}`);
  const { config } = read;
  const findings = await checkSlack({ config, site: pack.site, people: pack.people });
  const way = config.way.kind === 'socket' ? 'Socket Mode' : `HTTP on port ${config.way.port}`;
  const lines = [
    `${labels.good}: the configuration is complete (${way}). Site pack: ${dir}.`,
    ...findings.map(({ state, text }) => `${labels[state]}: ${text}`),
  ];
  const wrong = findings.filter(({ state }) => state === 'mend').length;
  if (wrong > 0) throw new UsageProblem([...lines, `To mend: ${wrong}. Nothing was posted.`].join('\n'));
  process.stdout.write(`${[...lines, 'Nothing to mend. Nothing was posted.'].join('\n')}\n`);
}

/** The app to paste into Slack. */
export function slackManifest({ site, url }: SiteOption & { readonly url?: string }): void {
  if (url !== undefined && !(URL.canParse(url) && new URL(url).protocol === 'https:'))
    throw new UsageProblem(`"${url}" is no https address. Slack sends its requests to no other.`);
  process.stdout.write(manifestYaml(loadSite(site).pack.site.name, url ?? null));
}
