import type { Finding } from '../chat/finding.ts';
import { UsageProblem } from './site.ts';

const labels: Readonly<Record<Finding['state'], string>> = {
  good: 'In order',
  note: 'Note',
  mend: 'To mend',
};

/** Print what was found. @throws UsageProblem with all of it when something is to be mended */
export function tellFindings(findings: readonly Finding[]): void {
  const lines = findings.map(({ state, text }) => `${labels[state]}: ${text}`);
  const wrong = findings.filter(({ state }) => state === 'mend').length;
  if (wrong > 0) throw new UsageProblem([...lines, `To mend: ${wrong}. Nothing was posted.`].join('\n'));
  process.stdout.write(`${[...lines, 'Nothing to mend. Nothing was posted.'].join('\n')}\n`);
}
