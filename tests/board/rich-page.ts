import type { Block } from '../../src/message/message.ts';
import type { Panel } from '../../src/views/pages.ts';

const MIN = 60_000;

/** A page with every kind of block and tone, as a full shift might show it. */
export function richPanels(now: number): readonly Panel[] {
  return [
    {
      id: 'holds',
      tone: 'attention',
      title: 'Holds',
      message: {
        summary: '2 holds stand against spraying',
        tone: 'attention',
        blocks: [
          {
            kind: 'list',
            ordered: false,
            items: [
              ['Steel is 2.4 °C over the dew point; at least 3 °C is needed.'],
              [{ kind: 'person', id: 'yusra', name: 'Yusra Halden' }, ' has not signed.'],
            ],
          },
          {
            kind: 'buttons',
            buttons: [
              {
                label: 'Take a reading',
                tone: 'main',
                action: { kind: 'open', form: { id: 'take-reading', about: {} } },
              },
            ],
          },
        ],
      },
    },
    {
      id: 'rig-rig-1',
      tone: 'danger',
      title: 'Rig 1, yellow hose',
      message: {
        summary: 'Rig 1, yellow hose',
        tone: 'danger',
        blocks: [
          {
            kind: 'countdown',
            label: 'Start the flush by',
            to: now - 4 * MIN - 9_000,
            clock: '06:35',
            tone: 'danger',
          },
          {
            kind: 'countdown',
            label: 'Dead at',
            to: now + 72 * MIN + 20_000,
            clock: '07:52',
            tone: 'attention',
          },
          {
            kind: 'note',
            tone: 'danger',
            line: [
              'The line still holds ',
              { kind: 'strong', text: '225 bar' },
              ' after the air is off. Paint under the skin is a surgical emergency.',
            ],
          },
          {
            kind: 'facts',
            facts: [
              { label: 'Batch', value: ['B-03, 20 L'] },
              { label: 'Planned pressure', value: [{ kind: 'strong', text: '225 bar' }] },
              { label: 'Pot life used', value: ['81 %'] },
            ],
          },
          {
            kind: 'buttons',
            buttons: [
              {
                label: 'Start the flush',
                tone: 'main',
                action: { kind: 'do', command: { type: 'start-flush', rig: 'rig-1' } },
              },
              {
                label: 'Hose is warm',
                tone: 'plain',
                action: { kind: 'do', command: { type: 'hose-warm', rig: 'rig-1' } },
              },
              {
                label: 'Report a defect',
                tone: 'danger',
                action: { kind: 'open', form: { id: 'report-defect', about: { rig: 'rig-1' } } },
              },
            ],
          },
        ],
      },
    },
    {
      id: 'rig-rig-2',
      tone: 'plain',
      title: 'Flush of rig 2',
      message: {
        summary: 'Flush of rig 2, step 3 of 12',
        tone: 'plain',
        blocks: [
          {
            kind: 'checklist',
            items: [
              { state: 'done', line: ['Trigger locked'] },
              { state: 'skipped', line: ['Tip washed: washed at the bench'] },
              { state: 'next', line: ['Relieve the pressure into the earthed metal pail'] },
              { state: 'defect', line: ['Drain valve drips'] },
              { state: 'open', line: ['Primary flush, 6 L settled solvent'] },
            ],
          },
          { kind: 'divider' },
          {
            kind: 'more',
            label: 'Why in this order',
            blocks: [
              { kind: 'heading', text: 'Order' },
              { kind: 'paragraph', line: ['The line stays loaded after the air is off.'] },
            ],
          },
          {
            kind: 'buttons',
            buttons: [
              {
                label: 'Confirm the step',
                tone: 'main',
                action: { kind: 'open', form: { id: 'confirm-step', about: { rig: 'rig-2' } } },
              },
            ],
          },
        ],
      },
    },
    {
      id: 'people',
      tone: 'good',
      title: 'People',
      message: {
        summary: 'Everyone has signed revision 2',
        tone: 'good',
        blocks: [
          {
            kind: 'checklist',
            items: [
              { state: 'done', line: [{ kind: 'person', id: 'ada', name: 'Ada Fenwright' }, ': 06:31'] },
              {
                state: 'done',
                line: [{ kind: 'person', id: 'mira', name: 'Mira Okonjo' }, ': 06:33, witnessed'],
              },
            ],
          },
          {
            kind: 'buttons',
            buttons: [{ label: 'Read and sign', tone: 'main', action: { kind: 'show', page: 'sign-off' } }],
          },
        ],
      },
    },
    {
      id: 'conditions',
      tone: 'plain',
      title: 'Conditions',
      message: {
        summary: 'Dew point 9.1 °C, steel 11.5 °C',
        tone: 'plain',
        blocks: [
          {
            kind: 'facts',
            facts: [
              { label: 'Air', value: ['14.0 °C, 72 %'] },
              { label: 'Steel', value: ['11.5 °C'] },
              { label: 'Margin', value: ['2.4 °C'] },
            ],
          },
          { kind: 'note', tone: 'good', line: ['Read again by 10:40.'] },
          { kind: 'note', tone: 'attention', line: ['Falling since the last reading.'] },
          { kind: 'note', tone: 'plain', line: ['Taken at the shade side.'] },
        ],
      },
    },
    {
      id: 'next',
      tone: 'plain',
      title: 'What rings next',
      message: {
        summary: 'What rings next: 06:52 use by, rig 1',
        tone: 'plain',
        blocks: [
          {
            kind: 'list',
            ordered: true,
            items: [['06:52 use by, rig 1'], ['09:30 break'], ['10:40 take a reading']],
          },
          {
            kind: 'countdown',
            label: 'Recoat window ends',
            to: now + 75 * 60 * MIN,
            clock: '2026-03-12 09:40',
            tone: 'plain',
          },
        ],
      },
    },
    {
      id: 'plan',
      tone: 'plain',
      title: 'Plan for the day',
      message: {
        summary: 'Plan: rig 1 is flushed by 10:12',
        tone: 'plain',
        blocks: [
          { kind: 'note', tone: 'plain', line: ['A plan, not a permission.'] },
          timelineOf(now),
          { kind: 'heading', text: 'Rig 1, yellow hose' },
          {
            kind: 'list',
            ordered: false,
            items: [['1. Mix 07:40: 40 L, 2 full kits. Spray 08:10 to 08:55. Use by 09:43.']],
          },
        ],
      },
    },
  ];
}

type Timeline = Extract<Block, { kind: 'timeline' }>;
type Segment = Timeline['lanes'][number]['segments'][number];

/** Nine hours from half past seven on the page's clock, with every kind of segment on two rigs. */
export function timelineOf(now: number): Timeline {
  const minute = (clock: string) => {
    const [hours = 0, minutes = 0] = clock.split(':').map(Number);
    return now + (hours * 60 + minutes - 450) * MIN;
  };
  const segment = (kind: Segment['kind'], from: string, to: string, label = '', mark = ''): Segment => {
    const name = {
      mix: 'mix',
      stand: 'stand',
      spray: 'spray',
      break: 'break',
      flush: 'flush',
      hold: 'weather',
    }[kind];
    return { kind, from: minute(from), to: minute(to), name, clock: `${from}–${to}`, label, mark };
  };
  const breaks = [segment('break', '10:00', '10:20'), segment('break', '12:30', '13:15')];
  return {
    kind: 'timeline',
    label: 'Plan 07:30 to 16:30',
    listLabel: 'The plan as a list',
    list: 'here',
    from: minute('07:30'),
    to: minute('16:30'),
    marks: ['08', '09', '10', '11', '12', '13', '14', '15', '16'].map((hour) => ({
      at: minute(`${hour}:00`),
      label: `${hour}:00`,
    })),
    lanes: [
      {
        label: 'Rig 1, yellow hose',
        segments: [
          segment('hold', '07:30', '08:00'),
          segment('mix', '08:00', '08:10', 'batch 1, 40 L'),
          segment('stand', '08:10', '08:26', 'batch 1, 40 L'),
          segment('spray', '08:26', '09:12', 'batch 1, 40 L', '1'),
          segment('mix', '08:40', '08:50', 'batch 2, 20 L'),
          segment('stand', '08:50', '09:12', 'batch 2, 20 L'),
          segment('spray', '09:12', '09:35', 'batch 2, 20 L', '2'),
          segment('flush', '09:35', '09:49'),
          ...breaks,
        ],
      },
      {
        label: 'Rig 2',
        segments: [
          segment('mix', '13:15', '13:25', 'batch 1, 14 L'),
          segment('spray', '13:25', '14:40', 'batch 1, 14 L', '1'),
          segment('flush', '14:40', '14:52'),
          ...breaks,
        ],
      },
    ],
  };
}
