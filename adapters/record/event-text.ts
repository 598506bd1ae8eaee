import { nameOf } from '../../src/flow/decision.ts';
import { tooSoon } from '../../src/flow/flush-pace.ts';
import { rigName } from '../../src/flow/rig-update.ts';
import { rigChecks } from '../../src/model/checks.ts';
import type { EventOf, EventType } from '../../src/model/event.ts';
import type { Texts } from '../../src/texts/texts.ts';
import { saidOf } from '../../src/views/announce.ts';
import { bellMessage, rungBell } from '../../src/views/bell.ts';
import { at, type View } from '../../src/views/context.ts';
import { dayChanges } from '../../src/views/day-changed.ts';
import { stepName } from '../../src/views/flush.ts';
import type { Told } from './walk.ts';
import { questionText } from './words.ts';

type Tell<T extends EventType> = (body: EventOf<T>, view: View, told: Told) => string;

/** Every event in a line of plain words: what happened, to what, in whose words. */
const tell: { readonly [T in EventType]: Tell<T> } = {
  'day-posted': ({ day }, { texts }) => {
    const jobs = day.entry.jobs.map(
      ({ area, coating }) => `${area} (${day.coatings[coating]?.name ?? coating})`,
    );
    return texts.say('paper.event.day-posted', { jobs: jobs.join('; ') });
  },
  'day-changed': ({ day }, { texts }, { before }) => {
    const changes = before ? dayChanges(texts, before.day, day) : [];
    return texts.say('paper.event.day-changed', { changes: changes.join('; ') });
  },
  'carried-over': ({ carriedIn }, { texts }) =>
    texts.say('paper.event.carried-over', { date: carriedIn.fromDate }),
  'briefing-issued': ({ revision }, { shift, texts }) =>
    revision > 1
      ? texts.say('brief.summary-changed', { revision, count: shift.briefing.changed.length })
      : texts.say('brief.summary', { date: shift.date, revision, count: shift.briefing.cautions.length }),
  'person-arrived': ({ person }, { texts }) => texts.say('arrive.summary', { person: person.name }),
  'question-answered': ({ person, question, right, witnessedBy }, { shift, texts }) => {
    const words = { person: nameOf(shift, person), question: questionText(texts, question) };
    const text = right
      ? texts.say('paper.event.question-right', words)
      : texts.say('paper.event.question-wrong', words);
    if (witnessedBy === null) return text;
    return `${text}, ${texts.say('paper.event.witnessed', { witness: nameOf(shift, witnessedBy) })}`;
  },
  signed: ({ person, revision, witnessedBy }, { shift, texts }) => {
    const name = nameOf(shift, person);
    if (witnessedBy === null) return texts.say('sign.signed-summary', { person: name, revision });
    const witness = nameOf(shift, witnessedBy);
    return texts.say('sign.signed-witnessed-summary', { person: name, revision, witness });
  },
  'concern-raised': (_body, view, told) => said(told, view),
  'concern-resolved': (_body, view, told) => said(told, view),
  'rig-checked': ({ rig, results, note }, { shift, texts }) => {
    const defects = rigChecks
      .filter((check) => results[check] === 'defect')
      .map((check) => texts.say(`check.${check}`));
    const name = rigName(shift, rig);
    const text =
      defects.length === 0
        ? texts.say('paper.event.rig-checked-ok', { rig: name })
        : texts.say('paper.event.rig-checked-defect', { rig: name, checks: defects.join('; ') });
    return withNote(text, note);
  },
  'rig-tagged': (_body, view, told) => said(told, view),
  'tag-cleared': (_body, view, told) => said(told, view),
  'reading-taken': (_body, view, told) => said(told, view),
  'reading-voided': (_body, view, told) => said(told, view),
  'mix-temperature-mended': (_body, view, told) => said(told, view),
  'batch-voided': (_body, view, told) => said(told, view),
  'batch-mixed': (_body, view, told) => said(told, view),
  'temperature-noted': (_body, view, told) => said(told, view),
  paused: ({ why }, view, told) => withNote(said(told, view), why),
  resumed: (_body, view, told) => said(told, view),
  'pot-emptied': (_body, view, told) => said(told, view),
  'line-renewed': (_body, view, told) => said(told, view),
  'fan-tested': (_body, view, told) => said(told, view),
  'flush-started': ({ rig, by }, { shift, texts }) =>
    texts.say('flush.started', { rig: rigName(shift, rig), person: nameOf(shift, by) }),
  'step-confirmed': ({ rig, step, litres, note }, view, { before, at: confirmedAt }) => {
    const { texts } = view;
    const text = texts.say('paper.event.step-done', {
      rig: rigName(view.shift, rig),
      step: stepName(view, rig, step),
    });
    const amount = litres === null ? '' : `, ${texts.say('paper.event.litres', { litres })}`;
    const flush = before?.rigs[rig]?.flush;
    const soon = flush ? tooSoon(view.shift.day, rig, flush, step, confirmedAt) : null;
    const pace = soon ? `, ${texts.say('flush.too-soon', { ...soon })}` : '';
    return withNote(`${text}${amount}${pace}`, note);
  },
  'step-skipped': ({ rig, step, reason }, view) =>
    view.texts.say('flush.skip', { rig: rigName(view.shift, rig), step: stepName(view, rig, step), reason }),
  'flush-abandoned': (_body, view, told) => said(told, view),
  'flush-finished': (_body, view, told) => said(told, view),
  'work-stopped': (_body, view, told) => said(told, view),
  'stop-cleared': (_body, view, told) => said(told, view),
  'bell-rang': (body, view, told) => {
    const { summary } = bellMessage(view, rungBell(body, told.at));
    if (!body.late) return summary;
    const minutes = Math.round((told.at - body.scheduledFor) / 60_000);
    return `${summary} ${view.texts.say('late.rang', { minutes, time: at(view, body.scheduledFor) })}`;
  },
  'bell-answered': ({ bell }, view) =>
    view.texts.say('paper.event.bell-answered', { bell: bellText(view, bell) }),
  'message-undelivered': ({ to, surface, why }, { shift, texts }) =>
    texts.say('undelivered.summary', { to: nameOf(shift, to), surface, why }),
  'shift-closed': ({ by, reason }, { shift, texts }) =>
    by === null
      ? texts.say('paper.event.handed-over', { date: shift.date, to: reason })
      : withNote(texts.say('close.summary', { date: shift.date, person: nameOf(shift, by) }), reason),
};

/** What happened in one journal line, in the language of `texts`. */
export function eventText(told: Told, texts: Texts): string {
  const view: View = { shift: told.after, texts, now: told.at };
  return (tell[told.body.type] as Tell<EventType>)(told.body as never, view, told);
}

/** The words that were said to the crew when it happened. Not for what shows cautions: their words may be gone by now. */
function said({ before, after, event }: Told, { texts }: View): string {
  const all = saidOf(before, after, [event], () => texts);
  const toAll = all.find(({ audience }) => audience.kind === 'crew') ?? all[0];
  return toAll?.message.summary ?? event.body.type;
}

/** A bell by what it is about; its key is for programs. */
function bellText({ shift, texts }: View, bell: string): string {
  const state = shift.bells[bell];
  if (!state) return bell;
  const about = [
    ...(state.rig === null ? [] : [rigName(shift, state.rig)]),
    ...(state.person === null ? [] : [nameOf(shift, state.person)]),
  ];
  return [texts.say(`next.${state.kind as 'dead'}`), ...about].join(', ');
}

function withNote(text: string, note: string): string {
  return note === '' ? text : `${text} (${note})`;
}
