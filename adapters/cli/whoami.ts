import { loadSite, UsageProblem } from './site.ts';

/** Who is in the site pack: everybody, or the person with this id or name. */
export function whoami(person: string | undefined, { site }: { readonly site?: string }): void {
  const { pack, pins, demoPins } = loadSite(site);
  const wanted = person?.toLowerCase();
  const found = pack.people.filter(
    ({ id, name }) => wanted === undefined || id === wanted || name.toLowerCase() === wanted,
  );
  if (found.length === 0)
    throw new UsageProblem(
      `"${person}" is not in the site pack. The foreman adds a person to people.yaml: a short id, the name, the roles.`,
    );
  for (const { id, name, roles, language } of found) {
    const pin = (pins[id] ?? demoPins[id]) ? 'has a PIN' : `no PIN yet: potbell pin ${id}`;
    process.stdout.write(
      `${id.padEnd(14)} ${name.padEnd(16)} ${roles.join(', ')}; language ${language}; ${pin}\n`,
    );
  }
}
