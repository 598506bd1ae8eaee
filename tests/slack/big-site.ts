import { loadSite } from '../../adapters/cli/site.ts';
import { slackSite } from './crew.ts';

/** The demo site with so many people that its platform's limits by the minute are met (docs.slack.dev, tiers). */
export function bigSite() {
  const site = loadSite();
  const [one] = site.pack.people;
  if (!one) throw new Error('the demo site has nobody');
  const more = Array.from({ length: 60 - site.pack.people.length }, (_, index) => ({
    ...one,
    id: `hand${index + 10}`,
    name: `Hand ${index + 10}`,
    roles: ['helper' as const],
  }));
  return slackSite({ ...site, pack: { ...site.pack, people: [...site.pack.people, ...more] } });
}
