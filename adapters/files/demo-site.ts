import { cpSync, existsSync, readdirSync, statSync } from 'node:fs';
import { join, relative } from 'node:path';
import { writeJsonSchemas } from './json-schemas.ts';
import { templatesFolder } from './package-root.ts';

/** The invented site pack that comes with Potbell. */
export function demoSiteFolder(): string {
  return join(templatesFolder(), 'demo-site');
}

export type CopiedSite =
  | { readonly ok: true; readonly written: readonly string[] }
  | { readonly ok: false; readonly problem: string };

/**
 * Copies the demo site into `target`, with the schemas for editors in `.schemas/`. Makes the folder if need be; refuses
 * one that has anything in it, so that nobody's site is written over. `written`: paths inside `target`.
 */
export function copyDemoSite(target: string): CopiedSite {
  if (existsSync(target)) {
    if (!statSync(target).isDirectory())
      return {
        ok: false,
        problem: `${target} is a file. Give the path of a new folder, for example ${target}-site.`,
      };
    const first = readdirSync(target)[0];
    if (first !== undefined)
      return {
        ok: false,
        problem: `${target} is not empty (it has ${first} in it). Give the path of a new or empty folder.`,
      };
  }
  const source = demoSiteFolder();
  cpSync(source, target, { recursive: true });
  writeJsonSchemas(join(target, '.schemas'));
  const written = readdirSync(target, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(target, join(entry.parentPath, entry.name)))
    .sort();
  return { ok: true, written };
}
