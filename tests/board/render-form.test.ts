import { describe, expect, test } from 'vitest';
import { type FormState, freshForm, renderForm } from '../../adapters/board/render-form.ts';
import { defaultBoardWords as words } from '../../adapters/board/words.ts';
import type { Field } from '../../src/message/form.ts';
import { everyField, refused, START } from './fakes.ts';

const context = {
  words,
  now: START,
  newId: () => 'id-00000001',
  shift: 'quay:2026-03-09',
  back: '/briefing',
  loggedIn: true,
};
const render = (state: Partial<FormState> = {}, fields: readonly Field[] = everyField.fields) =>
  String(renderForm({ ...everyField, fields }, { ...freshForm, ...state }, context));

describe('a fresh form', () => {
  const out = render();

  test('posts to its own address with what it is about, and carries the press id, the shift and the way back', () => {
    expect(out).toContain('action="/form/mix-batch?rig=rig-1&amp;_back=%2Fbriefing"');
    expect(out).toContain('name="_command" value="id-00000001"');
    expect(out).toContain('name="_shift" value="quay:2026-03-09"');
    expect(out).toContain('href="/briefing"');
  });

  test('has every kind of field, labelled', () => {
    expect(out).toContain('<h2 class="group">The mix</h2>');
    expect(out).toMatch(/<label for="f-litres">Litres, A \+ B<\/label>/);
    expect(out).toMatch(
      /id="f-litres" name="litres" type="text" inputmode="decimal"[^>]* required aria-describedby="f-litres-hint"/,
    );
    expect(out).toContain('<span class="unit" dir="ltr">°C</span>');
    expect(out).toMatch(/id="f-paintC"[^>]* value="18"/);
    expect(out).toMatch(/<fieldset class="field" id="f-pot"[^>]*><legend>Pot<\/legend>/);
    expect(out).toMatch(/type="radio" name="pot" value="fresh" checked/);
    expect(out).not.toMatch(/value="on-top" checked/);
    expect(out).toMatch(
      /<select id="f-coating" name="coating" required><option value="" selected>Choose<\/option>/,
    );
    expect(out).toMatch(/type="date" value="2026-03-09" required/);
    expect(out).toMatch(/id="f-mixed" name="mixed" type="time" value=""/);
    expect(out).toMatch(/type="checkbox" name="who" value="tomas" checked/);
    expect(out).toMatch(/<textarea id="f-note"/);
    expect(out).toContain('(optional)');
  });

  test('its intro stands before the form element, so that buttons in it stay forms of their own', () => {
    expect(out.indexOf('Stir the base')).toBeLessThan(out.indexOf('<form class="sheet"'));
  });

  test('shows no problem', () => {
    expect(out).not.toContain('aria-invalid');
    expect(out).not.toContain('role="alert"');
  });
});

describe('a folded group', () => {
  const lossOf = (value?: number): readonly Field[] => [
    { kind: 'group', name: 'job', label: 'Job 1' },
    { kind: 'text', name: 'area', label: 'Area', required: true, long: false, value: 'Hull' },
    { kind: 'group', name: 'more', label: 'If needed', folded: true },
    {
      kind: 'number',
      name: 'loss',
      label: 'Loss',
      required: false,
      unit: '%',
      step: 1,
      ...(value === undefined ? {} : { value }),
    },
    { kind: 'group', name: 'rest', label: 'The rest' },
    { kind: 'text', name: 'notes', label: 'Notes', required: false, long: true },
  ];

  test('keeps its fields and no others behind its label, and is shut while nothing stands in them', () => {
    const out = render({}, lossOf());
    const inside = /<details class="folded"><summary>If needed<\/summary>([\s\S]*?)<\/details>/.exec(
      out,
    )?.[1];
    expect(inside).toContain('name="loss"');
    expect(inside).not.toMatch(/name="(area|notes)"|The rest/);
    expect(out).toContain('<h2 class="group">The rest</h2>');
  });

  test('is open when it holds something, as proposed or as typed, or when something in it is to be mended', () => {
    const open = '<details class="folded" open>';
    const problems = [{ field: 'loss', message: 'At most 80.' }];
    expect(render({}, lossOf(40))).toContain(open);
    expect(render({ typed: { loss: '9' } }, lossOf())).toContain(open);
    expect(render({ typed: { loss: '' }, problems }, lossOf())).toContain(open);
    expect(render({ typed: { loss: '' } }, lossOf(40))).not.toContain(open);
  });
});

describe('after a problem', () => {
  const typed = { litres: '12,x', paintC: '', pot: 'on-top', who: [], note: '<b>"n"</b>', coating: 'c3' };
  const problems = [
    { field: 'litres', message: 'Write litres as a number.' },
    { field: 'gone', message: 'The day has ended.' },
  ];
  const out = render({ typed, problems });

  test('keeps all that was typed, also what cannot be taken and what was emptied or unticked', () => {
    expect(out).toMatch(/id="f-litres"[^>]* value="12,x"/);
    expect(out).toMatch(/id="f-paintC"[^>]* value=""/);
    expect(out).toMatch(/value="on-top" checked/);
    expect(out).not.toMatch(/value="fresh" checked/);
    expect(out).not.toMatch(/value="tomas" checked/);
    expect(out).toContain('<option value="c3" selected>');
    expect(out).toContain('&lt;b&gt;&quot;n&quot;&lt;/b&gt;</textarea>');
  });

  test('says it beside the field, tied to it, and in a list at the top that takes focus and leads there', () => {
    expect(out).toMatch(
      /id="f-litres"[^>]*aria-describedby="f-litres-hint f-litres-problem" aria-invalid="true"/,
    );
    expect(out).toMatch(/<p class="problem" id="f-litres-problem">[\s\S]*?Write litres as a number\./);
    expect(out).toMatch(/<div class="problems" role="alert" id="problems" tabindex="-1" autofocus>/);
    expect(out).toContain('<a href="#f-litres">Litres, A + B: Write litres as a number.</a>');
    expect(out).toContain('<li>The day has ended.</li>');
  });

  test('a problem with tiles is tied to their group', () => {
    const tiles = render({ problems: [{ field: 'pot', message: 'Choose one.' }] });
    expect(tiles).toMatch(
      /<fieldset class="field" id="f-pot" tabindex="-1" aria-describedby="f-pot-problem">/,
    );
  });
});

test('a refusal stands over the form and keeps what was typed', () => {
  const out = render({ typed: { litres: '20' }, refusal: refused('Rig 1 is tagged out.') });
  expect(out).toContain('role="alert" id="refusal"');
  expect(out).toContain('Rig 1 is tagged out.');
  expect(out).toMatch(/id="f-litres"[^>]* value="20"/);
});

test('hostile labels, hints, options and units are escaped', () => {
  const bad = '"><img onerror=x>';
  const out = render({}, [
    { kind: 'number', name: 'n', label: bad, hint: bad, unit: bad, step: 1, required: true },
    {
      kind: 'choices',
      name: 'c',
      label: bad,
      required: true,
      value: [],
      options: [{ value: bad, label: bad }],
    },
  ]);
  expect(out).not.toContain('<img');
});
