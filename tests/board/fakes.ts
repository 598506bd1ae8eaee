import { createBoard } from '../../adapters/board/board.ts';
import type { BoardServices } from '../../adapters/board/services.ts';
import { defaultBoardWords } from '../../adapters/board/words.ts';
import { createPinAttempts } from '../../adapters/host/pin-attempts.ts';
import type { Form } from '../../src/message/form.ts';
import type { Message } from '../../src/message/message.ts';
import type { Shift } from '../../src/model/shift.ts';
import type { SitePack } from '../../src/model/site.ts';
import type { ClaimedDelivery, Outcome, Request, StoredDelivery } from '../../src/ports.ts';
import type { Texts } from '../../src/texts/texts.ts';
import type { Panel } from '../../src/views/pages.ts';
import { richPanels } from './rich-page.ts';

/** 2026-03-09 06:40 in the invented site's zone (UTC in March). */
export const START = Date.UTC(2026, 2, 9, 6, 40);
export const SHIFT = 'quay:2026-03-09';

export const pack = {
  site: {
    id: 'quay',
    name: 'North Quay Tanks',
    timeZone: 'Europe/Lisbon',
    language: 'en',
    units: 'metric',
    prestart: '06:45',
    emergency: {
      call: '112',
      address: 'Gate 3, North Quay',
      hospital: 'Invented General, hand surgery',
      firstAider: 'mira',
      assembly: 'Green post by gate 3',
      eyewash: 'Shed wall, left of the door',
    },
    demo: true,
  },
  people: [
    { id: 'ada', name: 'Ada Fenwright', roles: ['foreman'], language: 'en', hasPhone: true },
    { id: 'mira', name: 'Mira Okonjo', roles: ['safety'], language: 'en', hasPhone: true },
    { id: 'tomas', name: 'Tomas <b>Vell</b>', roles: ['sprayer'], language: 'en', hasPhone: true },
    { id: 'yusra', name: 'Yusra Halden', roles: ['mixer'], language: 'ar', hasPhone: false },
  ],
} as unknown as SitePack;

export const pins: Readonly<Record<string, string>> = {
  ada: '4711',
  mira: '2580',
  tomas: '1357',
  yusra: '8024',
};

export const shift = { id: SHIFT, date: '2026-03-09', status: 'open', stop: null } as unknown as Shift;

const texts = (language: string): Texts => ({
  language,
  direction: language === 'ar' ? 'rtl' : 'ltr',
  locale: language === 'en' ? 'en-GB' : language,
  checked: 'all',
  say: ((id: string) => id) as Texts['say'],
  caution: () => {
    throw new Error('the board asks for no caution');
  },
});

export const noted = (summary: string): Message => ({ summary, tone: 'good', blocks: [] });
export const refused = (summary: string): Message => ({ summary, tone: 'attention', blocks: [] });

export const everyField: Form = {
  id: 'mix-batch',
  about: { rig: 'rig-1' },
  title: 'Log a batch',
  intro: [{ kind: 'note', tone: 'attention', line: ['Stir the base before the hardener goes in.'] }],
  fields: [
    { kind: 'group', name: 'g1', label: 'The mix' },
    {
      kind: 'number',
      name: 'litres',
      label: 'Litres, A + B',
      unit: 'L',
      step: 0.5,
      required: true,
      hint: 'Before thinner.',
    },
    {
      kind: 'number',
      name: 'paintC',
      label: 'Paint temperature',
      unit: '°C',
      step: 1,
      required: true,
      value: 18,
    },
    {
      kind: 'choice',
      name: 'pot',
      label: 'Pot',
      required: true,
      value: 'fresh',
      options: [
        { value: 'fresh', label: 'Fresh pot' },
        { value: 'on-top', label: 'On top of the last' },
      ],
    },
    {
      kind: 'choice',
      name: 'coating',
      label: 'Coating',
      required: true,
      options: Array.from({ length: 14 }, (_, at) => ({ value: `c${at}`, label: `Coating ${at}` })),
    },
    { kind: 'group', name: 'g2', label: 'When and who' },
    { kind: 'date', name: 'date', label: 'Day', required: true, value: '2026-03-09' },
    { kind: 'time', name: 'mixed', label: 'Mixed at', required: false, hint: 'When it is logged late.' },
    {
      kind: 'choices',
      name: 'who',
      label: 'Who helped',
      required: false,
      value: ['tomas'],
      options: [
        { value: 'tomas', label: 'Tomas' },
        { value: 'yusra', label: 'Yusra' },
      ],
    },
    { kind: 'text', name: 'place', label: 'Place', long: false, required: false },
    { kind: 'text', name: 'note', label: 'Note', long: true, required: false },
  ],
  submit: 'Log the batch',
  tone: 'main',
};

export interface Fake {
  readonly board: ReturnType<typeof createBoard>;
  readonly requests: Request[];
  readonly logged: { readonly level: string; readonly details: object; readonly message: string }[];
  readonly pinChecks: string[];
  readonly services: BoardServices;
  now: number;
  panels: readonly Panel[];
  bells: readonly Panel[];
  said: readonly StoredDelivery[];
  shift: Shift | null;
  /** What the door answers when the press is not a repeat. */
  answer: (request: Request) => Outcome;
}

/** A board on services that only remember. */
export function fakeBoard(changes: Partial<BoardServices> = {}): Fake {
  const seen = new Map<string, Outcome>();
  const log = (level: string) => (details: object, message: string) =>
    fake.logged.push({ level, details, message });
  let ids = 0;
  const services: BoardServices = {
    async handle(request) {
      fake.requests.push(request);
      const before = seen.get(request.commandId);
      if (before?.ok) return { ...before, repeated: true, shown: noted('Already noted') };
      const outcome = fake.answer(request);
      seen.set(request.commandId, outcome);
      return outcome;
    },
    store: {
      shift: async (id) => (id === fake.shift?.id ? fake.shift : null),
      deliveries: async () => fake.said,
      shifts: async () => [{ id: SHIFT, date: '2026-03-09', status: 'open', head: '', nextBell: null }],
    },
    clock: { now: () => fake.now },
    texts,
    pack: () => pack,
    currentShift: async () => fake.shift,
    previousShift: async () => null,
    shiftIdFor: (date) => `quay:${date}`,
    pages: (page) =>
      page === 'today' ? [...fake.bells, ...fake.panels] : page === 'notices' ? fake.bells : fake.panels,
    buildForm: (ref) => ({ ok: true, form: { ...everyField, id: ref.id, about: ref.about } }),
    readForm: (ref, values) =>
      Number.isFinite(Number(values.litres || 'x'))
        ? {
            ok: true,
            command: { type: 'pot-temperature', rig: ref.about.rig ?? 'rig-1', c: Number(values.paintC) },
          }
        : {
            ok: false,
            problems: [{ field: 'litres', message: 'Write litres as a number, for example 12.5.' }],
          },
    attempts: createPinAttempts({ now: () => fake.now }),
    checkPin: async (person, pin) => {
      fake.pinChecks.push(`${person} ${pin}`);
      return pins[person] === pin;
    },
    recordFile: async (id, format) =>
      id === SHIFT
        ? {
            body: `record ${format}`,
            contentType: format === 'html' ? 'text/html; charset=utf-8' : 'text/plain',
            fileName: `../record "${format}".${format}`,
          }
        : null,
    health: async () => ({ ok: true, problems: [] }),
    newId() {
      ids += 1;
      return `id-${String(ids).padStart(8, '0')}`;
    },
    log: { info: log('info'), warn: log('warn'), error: log('error') },
    words: defaultBoardWords,
    ...changes,
  };
  const fake: Fake = {
    board: createBoard(services),
    requests: [],
    logged: [],
    pinChecks: [],
    services,
    now: START,
    panels: richPanels(START),
    bells: [],
    said: [],
    shift,
    answer: (request) => ({
      ok: true,
      shift,
      events: [],
      repeated: false,
      shown: noted(`Noted: ${request.command.type}`),
    }),
  };
  return fake;
}

export function bellPanel(summary: string): Panel {
  return {
    id: 'bell-start-flush-rig-1',
    tone: 'danger',
    title: 'Bells',
    message: {
      summary,
      tone: 'danger',
      blocks: [
        { kind: 'paragraph', line: [{ kind: 'strong', text: summary }] },
        {
          kind: 'buttons',
          buttons: [
            {
              label: 'I have it',
              tone: 'main',
              action: { kind: 'do', command: { type: 'answer-bell', bell: 'start-flush:rig-1' } },
            },
          ],
        },
      ],
    },
  };
}

export function bellDelivery(summary: string, at = START): ClaimedDelivery {
  return {
    id: `${SHIFT}:9:0:board`,
    shift: SHIFT,
    surface: 'board',
    queuedAt: at,
    key: 'bell:start-flush:rig-1',
    audience: { kind: 'crew' },
    urgency: 'bell',
    message: { summary, tone: 'danger', blocks: [] },
    attempt: 1,
    possibleRepeat: false,
  };
}
