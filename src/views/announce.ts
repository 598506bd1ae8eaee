import { needsToSign } from '../briefing/build.ts';
import { rigClocks } from '../flow/clocks.ts';
import { foremen, nameOf, safetyContacts } from '../flow/decision.ts';
import { rigName } from '../flow/rig-update.ts';
import { message, note, paragraph } from '../message/build.ts';
import type { Message, Tone } from '../message/message.ts';
import type { EventBody, EventOf, EventType, JournalEvent } from '../model/event.ts';
import type { PersonId } from '../model/id.ts';
import type { BellLevel, Shift } from '../model/shift.ts';
import type { Audience, Outgoing } from '../ports.ts';
import type { TextsFor } from '../texts/texts.ts';
import { batchMessage, clockWords } from './batch.ts';
import { bellMessage, rungBell } from './bell.ts';
import { briefingMessage } from './briefing.ts';
import { conditionsMessage } from './conditions.ts';
import { at, type View } from './context.ts';
import { flushMessage, stepName } from './flush.ts';
import { tagText } from './holds.ts';
import { recordSummary } from './record.ts';
import { signOffMessage } from './sign-off.ts';
import { stopMessage } from './stop.ts';

/** What an event gives rise to: words for an audience, before anybody's language is known. */
interface Say {
  readonly key: string;
  readonly to: Audience;
  readonly urgency?: Outgoing['urgency'];
  readonly words: (view: View) => Message;
}

interface Happened {
  readonly before: Shift | null;
  readonly after: Shift;
  readonly event: JournalEvent;
}

type Announce<T extends EventType> = (body: EventOf<T>, happened: Happened) => readonly Say[];

const crew: Audience = { kind: 'crew' };
const nobody = () => [];
const toForeman = (shift: Shift, say: Omit<Say, 'to'>): readonly Say[] =>
  foremen(shift).map((person) => ({ ...say, to: { kind: 'person', person } }));

/** One line to the crew, its summary. */
function line(key: string, tone: Tone, words: (view: View) => string): Say {
  return {
    key,
    to: crew,
    words: (view) => {
      const text = words(view);
      return message(text, tone, tone === 'plain' ? paragraph(text) : note(tone, text));
    },
  };
}

/** Every event, so that the compiler asks what a new one says. `nobody` is an answer, silence by omission is not. */
const announce: { readonly [T in EventType]: Announce<T> } = {
  'day-posted': nobody,
  'day-changed': nobody,
  // The briefing that follows at once has it, as cautions.
  'carried-over': nobody,
  'briefing-issued': (_body, { after }) => [
    { key: `briefing:${after.id}`, to: crew, words: briefingMessage },
    ...toSign(after).map((person) => signOffTo(person)),
  ],
  'person-arrived': ({ person }, { after }) => [
    line(`arrived:${person.id}`, 'plain', ({ texts }) =>
      texts.say('arrive.summary', { person: person.name }),
    ),
    ...(after.issuedAt === null ? [] : [signOffTo(person.id)]),
  ],
  // The person sees the reason, and the next button, in the answer to the press itself.
  'question-answered': nobody,
  signed: ({ person, revision, witnessedBy }) => [
    line(`signed:${person}`, 'good', ({ shift, texts }) => {
      const name = nameOf(shift, person);
      if (witnessedBy === null) return texts.say('sign.signed-summary', { person: name, revision });
      return texts.say('sign.signed-witnessed-summary', {
        person: name,
        revision,
        witness: nameOf(shift, witnessedBy),
      });
    }),
  ],
  'concern-raised': ({ concern, by, text }) => [
    {
      key: concern,
      to: crew,
      urgency: 'bell',
      words: ({ shift, texts }) => {
        const summary = texts.say('concern.raised', { person: nameOf(shift, by), text });
        return message(
          summary,
          'attention',
          note('attention', summary),
          paragraph(texts.say('concern.holds')),
        );
      },
    },
  ],
  'concern-resolved': ({ concern, by, text }) => [
    line(`${concern}:resolved`, 'good', ({ shift, texts }) =>
      texts.say('concern.resolved', { person: nameOf(shift, by), text }),
    ),
  ],
  'rig-checked': nobody,
  'rig-tagged': ({ rig }) => [
    {
      key: `tag:${rig}`,
      to: crew,
      urgency: 'bell',
      words: (view) => {
        const { shift, texts } = view;
        const text = tagText(view, rig);
        const line =
          shift.rigs[rig]?.tag?.cause === 'not-flushed' ? [paragraph(texts.say('tag.not-flushed'))] : [];
        return message(text, 'danger', note('danger', text), ...line, paragraph(texts.say('tag.do')));
      },
    },
  ],
  'tag-cleared': ({ rig, by, text }) => [
    line(`tag:${rig}`, 'good', ({ shift, texts }) =>
      texts.say('tag.cleared', { rig: rigName(shift, rig), person: nameOf(shift, by), text }),
    ),
  ],
  'reading-taken': (_body, { event }) => [
    { key: `reading:${event.seq}`, to: crew, words: conditionsMessage },
  ],
  'batch-mixed': ({ batch }) => [
    { key: `batch:${batch.id}`, to: crew, words: (view) => batchMessage(view, batch) },
  ],
  'temperature-noted': (body, happened) => [
    line(`temperature:${happened.event.seq}`, 'attention', (view) =>
      temperatureText(view, body, happened.before),
    ),
  ],
  paused: ({ rig }, { after, event }) => [
    {
      key: `pause:${rig}`,
      to: crew,
      words: (view) => {
        const clock = rigClocks(after, rig)[0];
        const name = rigName(after, rig);
        const summary = !clock
          ? view.texts.say('pause.no-clock', { rig: name })
          : event.at >= clock.times.useBy
            ? view.texts.say('pause.past', { rig: name, ...clockWords(view, clock) })
            : view.texts.say('pause.summary', { rig: name, useBy: at(view, clock.times.useBy) });
        const sun = after.day.entry.weather.sun ? [note('attention', view.texts.say('pause.sun'))] : [];
        return message(summary, 'attention', paragraph(summary), ...sun);
      },
    },
  ],
  resumed: ({ rig }, { after, event }) => [
    line(`pause:${rig}`, isPast(after, rig, event.at) ? 'danger' : 'plain', (view) => {
      const clock = rigClocks(after, rig)[0];
      const name = rigName(after, rig);
      if (clock && event.at >= clock.times.useBy)
        return view.texts.say('pause.past', { rig: name, ...clockWords(view, clock) });
      if (!clock) return view.texts.say('pause.resumed-no-clock', { rig: name });
      return view.texts.say('pause.resumed', { rig: name, useBy: at(view, clock.times.useBy) });
    }),
  ],
  'pot-emptied': ({ rig }, { after, event }) => [
    line(`pot-empty:${event.seq}`, 'plain', (view) => {
      const clock = rigClocks(after, rig)[0];
      const name = rigName(after, rig);
      if (!clock) return view.texts.say('pot.empty-no-clock', { rig: name });
      const { useBy, startFlushBy } = clockWords(view, clock);
      return view.texts.say('pot.empty', { rig: name, useBy, startFlushBy });
    }),
  ],
  'line-renewed': ({ rig }, { after, event }) => [
    line(`renewed:${event.seq}`, 'plain', (view) => {
      const clock = rigClocks(after, rig)[0];
      const batch = after.rigs[rig]?.line?.batch ?? '';
      return view.texts.say('pot.renewed', {
        rig: rigName(after, rig),
        batch,
        useBy: clock ? clockWords(view, clock).useBy : '–',
      });
    }),
  ],
  'flush-started': ({ rig, flush }, { after }) => flushSays(after, rig, flush),
  'step-confirmed': ({ rig, flush, step }, { after }) => [
    ...flushSays(after, rig, flush),
    ...(step === 'primary-flush'
      ? [
          line(`${flush}:clean`, 'good', ({ texts }) =>
            texts.say('flush.line-clean', { rig: rigName(after, rig) }),
          ),
        ]
      : []),
  ],
  'step-skipped': ({ rig, flush, step, reason }, { after }) => [
    ...flushSays(after, rig, flush),
    line(`${flush}:${step}`, 'attention', (view) =>
      view.texts.say('flush.skip', { rig: rigName(after, rig), step: stepName(view, rig, step), reason }),
    ),
  ],
  'flush-finished': ({ rig, flush }, { after, event }) => [
    line(`${flush}:finished`, 'good', (view) => {
      const done = after.rigs[rig]?.flushes.find(({ id }) => id === flush);
      const skipped = Object.values(done?.steps ?? {}).filter(({ kind }) => kind === 'skipped').length;
      return view.texts.say('flush.finished', {
        rig: rigName(after, rig),
        time: at(view, event.at),
        skipped,
      });
    }),
  ],
  'work-stopped': ({ text }, { event }) => [
    {
      key: `stop-work:${event.seq}`,
      to: crew,
      urgency: 'bell',
      words: (view) => stopMessage(view, { at: event.at, by: event.by, text }),
    },
  ],
  'stop-cleared': ({ by, text }, { event }) => [
    {
      key: `stop-work:${event.seq}`,
      to: crew,
      urgency: 'bell',
      words: ({ shift, texts }) => {
        const summary = texts.say('stop.cleared', { person: nameOf(shift, by), text });
        return message(summary, 'good', note('good', summary), paragraph(texts.say('stop.check')));
      },
    },
  ],
  'bell-rang': (body, { after, event }) => {
    const words = (view: View) => bellMessage(view, rungBell(body, event.at));
    const key = `bell:${body.bell}:${body.dueAt}`;
    return audiences(after, body.level, body.person).map((to) => ({ key, to, urgency: 'bell', words }));
  },
  'bell-answered': nobody,
  'message-undelivered': ({ to, surface, why }, { after, event }) =>
    toForeman(after, {
      key: `undelivered:${event.seq}`,
      urgency: 'bell',
      words: ({ texts }) => {
        const summary = texts.say('undelivered.summary', { to, surface, why });
        return message(summary, 'danger', note('danger', summary));
      },
    }),
  'shift-closed': () => [{ key: 'closed', to: crew, words: recordSummary }],
};

/** Louder levels still reach the quieter ones: the safety contact being told does not excuse the crew. */
function audiences(shift: Shift, level: BellLevel, person: PersonId | null): readonly Audience[] {
  const first: readonly Audience[] = person === null ? [crew] : [{ kind: 'person', person }, crew];
  if (level === 'crew') return first;
  const people = level === 'foreman' ? foremen(shift) : [...foremen(shift), ...safetyContacts(shift)];
  return [
    ...first,
    ...[...new Set(people)]
      .filter((id) => id !== person)
      .map((id) => ({ kind: 'person', person: id }) as const),
  ];
}

function isPast(shift: Shift, rig: string, now: number): boolean {
  return rigClocks(shift, rig).some((clock) => now >= clock.times.useBy);
}

function toSign(shift: Shift): readonly PersonId[] {
  return shift.day.crew.filter(
    (id) => needsToSign(shift.briefing, shift.people[id]?.signed ?? {}).length > 0,
  );
}

function signOffTo(person: PersonId): Say {
  return {
    key: `sign-off:${person}`,
    to: { kind: 'person', person },
    words: (view) => signOffMessage(view, person),
  };
}

function flushSays(after: Shift, rig: string, id: string): readonly Say[] {
  const state = after.rigs[rig];
  const flush = state?.flush ?? state?.flushes.find((one) => one.id === id);
  return flush ? [{ key: `flush:${id}`, to: crew, words: (view) => flushMessage(view, rig, flush) }] : [];
}

function temperatureText(view: View, body: EventOf<'temperature-noted'>, before: Shift | null): string {
  const { shift, texts } = view;
  const rig = rigName(shift, body.rig);
  const now = rigClocks(shift, body.rig)[0];
  const was = before ? rigClocks(before, body.rig)[0] : undefined;
  const where = body.where === 'pot' ? 'pot' : 'hose';
  if (!now || !was) return texts.say('temp.no-clock', { rig, c: body.c });
  const words = clockWords(view, now);
  const { useBy } = words;
  const earlier = at(view, was.times.useBy);
  if (body.basis === 'felt-warm')
    return texts.say('temp.warm', {
      rig,
      c: body.c,
      before: earlier,
      moved: useBy === earlier ? 'no' : 'yes',
      ...words,
    });
  if (now.times.useBy === was.times.useBy && now.times.deadAt === was.times.deadAt)
    return texts.say('temp.summary-same', { rig, where, c: body.c, useBy });
  return texts.say('temp.summary', {
    rig,
    where,
    c: body.c,
    before: earlier,
    moved: useBy === earlier ? 'no' : 'yes',
    ...words,
  });
}

/**
 * The messages that follow from a committed step, in order, in each reader's language. Words are chosen here, once, so
 * what is stored is what people were shown.
 */
export function announcements(
  before: Shift | null,
  after: Shift,
  events: readonly JournalEvent[],
  textsFor: TextsFor,
): readonly (Outgoing & { readonly seq: number })[] {
  return events.flatMap((event) => {
    const says = (announce[event.body.type] as Announce<EventType>)(event.body as EventBody as never, {
      before,
      after,
      event,
    });
    return says.map(({ key, to, urgency, words }) => {
      const language =
        to.kind === 'crew'
          ? after.day.site.language
          : (after.day.people[to.person]?.language ?? after.day.site.language);
      const view: View = { shift: after, texts: textsFor(language), now: event.at };
      return { key, audience: to, urgency: urgency ?? 'quiet', message: words(view), seq: event.seq };
    });
  });
}
