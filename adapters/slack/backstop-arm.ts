import type { Backstop } from '../../src/chat/backstop.ts';
import { keep, look, lostId, type Round, secondsOf, tryAgainAt } from './backstop-round.ts';
import { freshRow, type Row } from './backstop-rows.ts';
import { againAt, type Result, whyOf } from './backstop-sender.ts';
import { escapeText } from './render-text.ts';

/** `crowded`: the platform takes no more around that time, and nobody was told yet. */
export type Armed = 'armed' | 'waiting' | 'crowded' | 'refused';

/** Sets one notice, or finds that it is set. The intent is written before the platform is asked, the id after. */
export async function arm(round: Round, backstop: Backstop): Promise<Armed> {
  const before = round.rows.get(backstop.ref);
  if (before && isSet(round, before, backstop)) return 'armed';
  const known = before ?? freshRow(backstop);
  const found = lostId(round, backstop);
  if (found !== null) return set(round, { ...renewed(known, backstop), id: found });
  const mayBeThere = before?.state === 'wanted' && (before.unclear || round.first);
  if (mayBeThere && round.blind) {
    await tell(round, before, 'waiting', before.why || 'no answer');
    return 'waiting';
  }
  const intent = await keep(round, renewed(known, backstop));
  const answer = await ask(round, backstop);
  if (answer.kind !== 'unclear') return settle(round, intent, answer);
  await keep(round, { ...intent, unclear: true, why: answer.why });
  if (!(await look(round))) return settle(round, intent, answer);
  const taken = lostId(round, backstop);
  if (taken !== null) return set(round, { ...intent, id: taken });
  return settle(round, intent, await ask(round, backstop));
}

function isSet(round: Round, row: Row, backstop: Backstop): boolean {
  // Posted a moment ago by the platform's clock: setting it anew would say it twice.
  if (row.state === 'fired') return true;
  if (row.state !== 'armed' || row.text !== backstop.text) return false;
  // Taken out by somebody else, or with the app: it has to be set anew.
  return round.listed === null || round.listed.some(({ id }) => id === row.id);
}

/** The row of a notice about to be set: what stands there under an older wording is taken back afterwards. */
function renewed(row: Row, backstop: Backstop): Row {
  const stale = row.id !== null ? [...row.stale, row.id] : row.stale;
  const { told, posted } = row;
  return { ...freshRow(backstop), stale, told, posted };
}

function ask({ services: { sender, channel } }: Round, { postAt, text }: Backstop) {
  return sender.schedule({ channel, postAt: secondsOf(postAt), text: escapeText(text) });
}

async function set(round: Round, row: Row): Promise<Armed> {
  await keep(round, { ...row, state: 'armed', unclear: false, why: '', told: '' });
  return 'armed';
}

async function settle(round: Round, row: Row, answer: Result<{ readonly id: string }>): Promise<Armed> {
  const { clock } = round.services;
  if (answer.kind === 'ok') return set(round, { ...row, id: answer.value.id });
  const why = whyOf(answer);
  tryAgainAt(round, againAt(answer, clock.now()));
  if (answer.kind !== 'gone') {
    const kept = await keep(round, { ...row, why, unclear: answer.kind === 'unclear' });
    // A wait that the platform names is no failure yet, unless it is long or comes again.
    const wait = 'afterMs' in answer ? answer.afterMs : undefined;
    if (wait !== undefined && wait <= 60_000 && row.told === '')
      await keep(round, { ...kept, told: 'later' });
    else await tell(round, kept, 'waiting', why);
    return 'waiting';
  }
  if (answer.code === 'restricted_too_many') {
    await keep(round, { ...row, why });
    return 'crowded';
  }
  await refuse(round, row, why);
  return 'refused';
}

/** A notice that cannot be set: people hear it once for each reason. It is tried again at the next commit. */
export async function refuse(round: Round, row: Row, why: string): Promise<void> {
  await tell(round, await keep(round, { ...row, state: 'refused', why }), 'refused', why);
}

async function tell(round: Round, row: Row, kind: 'waiting' | 'refused', why: string): Promise<void> {
  const { services } = round;
  const told = kind === 'refused' ? `refused: ${why}` : 'waiting';
  services.log.error({ ref: row.ref, why, kind }, 'a backstop is not set');
  if (row.told === told) return;
  const rig = row.rigs.map(({ name }) => name).join(', ');
  const by = row.rigs[0]?.by ?? '';
  await services.onTrouble(services.texts().say(`backstop.trouble-${kind}`, { ref: row.ref, rig, by, why }));
  // After it was said: said twice is better than not at all.
  await keep(round, { ...row, told });
}
