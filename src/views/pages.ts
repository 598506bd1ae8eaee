import { tasksOf } from '../briefing/task.ts';
import { foremen } from '../flow/decision.ts';
import { rigsInUse, unsigned } from '../flow/holds.ts';
import type { Page } from '../message/action.ts';
import type { PersonId } from '../model/id.ts';
import type { Shift } from '../model/shift.ts';
import type { SitePack } from '../model/site.ts';
import type { Instant } from '../model/time.ts';
import type { Texts } from '../texts/texts.ts';
import { bellMessage, bellsFor, rungOf } from './bell.ts';
import { briefingMessage, pressureList } from './briefing.ts';
import { coatsMessage } from './coats.ts';
import { conditionsMessage } from './conditions.ts';
import type { View } from './context.ts';
import { emergencyMessage } from './emergency.ts';
import { holdsMessage } from './holds.ts';
import { morePanels } from './more.ts';
import { type Panel, panel } from './panel.ts';
import { planPanel } from './plan.ts';
import { recordPanels } from './record-page.ts';
import { rigMessage } from './rig.ts';
import { signOffMessage } from './sign-off.ts';
import { stopMessage } from './stop.ts';
import {
  carriedMessage,
  concernsMessage,
  dayMessage,
  nextMessage,
  noShiftMessage,
  peopleMessage,
} from './today.ts';
import { whyPanels } from './why/index.ts';
import { witnessPanels } from './witness.ts';

export type { Panel };

export interface PageContext {
  readonly pack: SitePack;
  readonly shift: Shift | null;
  readonly now: Instant;
  readonly texts: Texts;
  /** Who is looking, when known. Buttons they may not press are left out; the flow checks again. */
  readonly viewer: PersonId | null;
}

/** What a page says now, in the order of importance. */
export function pagePanels(page: Page, context: PageContext): readonly Panel[] {
  const { texts, shift, pack, now, viewer } = context;
  if (page === 'emergency') {
    const pressures = shift ? pressureList({ shift, texts, now }) : '';
    return [
      panel(
        'emergency',
        texts.say('emergency.title'),
        emergencyMessage(
          pack.site.emergency,
          pack.people,
          pressures,
          texts,
          (person) => shift?.day.crew.includes(person) ?? true,
        ),
      ),
    ];
  }
  if (!shift)
    return [panel('no-shift', texts.say('today.no-shift'), noShiftMessage(texts, context.viewer !== null))];
  const view: View = { shift, texts, now };
  switch (page) {
    case 'today':
      return todayPanels(view, context.viewer);
    case 'briefing':
      return [
        panel(
          'briefing',
          texts.say('brief.title', { site: shift.day.site.name, date: shift.date }),
          briefingMessage(view, viewer === null ? [] : tasksOf(shift.day, viewer)),
        ),
      ];
    case 'sign-off':
      return signOffPanels(view, context.viewer);
    case 'record':
      return recordPanels(view);
    case 'notices':
      return bellPanels(view, viewer);
    case 'why':
      return whyPanels(view);
    case 'more':
      return morePanels(view, workPanels(view, viewer));
  }
}

const todayPanels = (view: View, viewer: PersonId | null): readonly Panel[] => [
  ...bellPanels(view, viewer),
  ...workPanels(view, viewer),
];

function workPanels(view: View, viewer: PersonId | null): readonly Panel[] {
  const { shift, texts } = view;
  const isForeman = viewer !== null && foremen(shift).includes(viewer);
  return [
    ...(shift.stop
      ? [panel('stop-work', texts.say('stop.title'), stopMessage(view, shift.stop, viewer))]
      : []),
    ...(shift.status === 'closed' ? [] : [panel('holds', texts.say('today.holds'), holdsMessage(view))]),
    ...rigsInUse(shift).map((rig) =>
      panel(`rig-${rig}`, shift.day.rigs[rig]?.name ?? rig, rigMessage(view, rig)),
    ),
    panel('people', texts.say('today.people'), peopleMessage(view)),
    panel('conditions', texts.say('reading.title'), conditionsMessage(view)),
    panel('next', texts.say('today.next'), nextMessage(view)),
    ...coatPanels(view),
    ...concernPanels(view),
    ...carriedPanels(view),
    ...(shift.status === 'closed' ? [] : [panel('plan', texts.say('plan.title'), planPanel(view))]),
    panel('day', texts.say('brief.jobs'), dayMessage(view, isForeman)),
  ];
}

/** Bells that wait for an answer lead every page. */
function bellPanels(view: View, viewer: PersonId | null): readonly Panel[] {
  return bellsFor(view, viewer).map(({ key, state, wanted }) => {
    const rung = rungOf(key, state, wanted);
    return panel(
      `bell-${key.replaceAll(':', '-')}`,
      view.texts.say('today.bells'),
      bellMessage(view, rung, viewer),
    );
  });
}

function signOffPanels(view: View, viewer: PersonId | null): readonly Panel[] {
  const { shift, texts } = view;
  const people = panel('people', texts.say('today.people'), peopleMessage(view));
  if (viewer === null) return [people];
  const own = panel('own-sign-off', texts.say('sign.title'), signOffMessage(view, viewer));
  if (!foremen(shift).includes(viewer)) return [own, people];
  // A phone can be wet, dead or at home: anybody's sign-off can be witnessed.
  const witnessed = witnessPanels(
    view,
    unsigned(shift).filter((id) => id !== viewer),
  );
  return [own, ...witnessed, people];
}

function concernPanels(view: View): readonly Panel[] {
  if (view.shift.concerns.length === 0) return [];
  return [panel('concerns', view.texts.say('today.concerns'), concernsMessage(view))];
}

function coatPanels(view: View): readonly Panel[] {
  const coats = coatsMessage(view);
  return coats ? [panel('coats', view.texts.say('coats.title'), coats)] : [];
}

function carriedPanels(view: View): readonly Panel[] {
  const carried = carriedMessage(view);
  return carried ? [panel('carried', view.texts.say('today.carried'), carried)] : [];
}
