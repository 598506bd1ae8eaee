type Problems = string[];

/** What stands in the environment. A variable that is set to nothing counts as not set. */
export function givenIn<Name extends string>(
  env: Readonly<Record<string, string | undefined>>,
  names: readonly Name[],
): ReadonlyMap<Name, string> {
  const values = names.map((name) => [name, env[name]?.trim() ?? ''] as const);
  return new Map(values.filter(([, value]) => value !== ''));
}

/** Null for a text that is no port; why stands in `problems` then. */
export function readPort(name: string, text: string, problems: Problems): number | null {
  if (/^\d+$/.test(text) && Number(text) <= 65_535) return Number(text);
  problems.push(`${name} is no port. Found "${text}". Write a number from 0 to 65535; 0 takes any free one.`);
  return null;
}

/**
 * An address of the platform other than its own, with a slash at its end; null for none or one that is not taken, and
 * why stands in `problems` then. `refusal` says what is wrong with an address that could be one, or null.
 */
export function readApiUrl(
  {
    name,
    text,
    title,
    such,
  }: Record<'name' | 'title' | 'such', string> & { readonly text: string | undefined },
  refusal: (url: URL, isLoopback: boolean) => string | null,
  problems: Problems,
): string | null {
  if (text === undefined) return null;
  const mend = `It is for tests; take ${name} out to use ${title} itself.`;
  const url = URL.canParse(text) ? new URL(text) : null;
  if (url === null || url.username !== '' || url.password !== '' || url.search !== '' || url.hash !== '') {
    problems.push(`${name} is no address such as ${such}. ${mend}`);
    return null;
  }
  const refused = refusal(url, /^(localhost|127(\.\d+){3}|\[::1\])$/.test(url.hostname));
  if (refused !== null) {
    problems.push(`${name} is ${refused}. Found "${url.origin}". ${mend}`);
    return null;
  }
  return url.href.endsWith('/') ? url.href : `${url.href}/`;
}
