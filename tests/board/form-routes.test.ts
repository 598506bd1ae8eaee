import { describe, expect, test } from 'vitest';
import { everyField, fakeBoard, refused, SHIFT } from './fakes.ts';
import { leadsTo, visitor } from './visitor.ts';

const path = '/form/pot-temperature?rig=rig-1&_back=%2Fbriefing';
const fields = { _command: 'press-0001', _shift: SHIFT, _back: '/briefing', litres: '12', paintC: '18' };

async function withAda() {
  const fake = fakeBoard();
  const ada = visitor(fake);
  await ada.logIn('ada');
  return { fake, ada };
}

describe('opening a form', () => {
  test('asks who it is first and comes back to the form', async () => {
    const screen = visitor(fakeBoard());
    const login = leadsTo(await screen.get(path));
    const next = new URLSearchParams(login.split('?')[1]).get('next') ?? '';
    expect(next).toBe(path);
    expect(leadsTo(await screen.logIn('ada', { next }))).toBe(path);
    const page = await screen.page(path);
    expect(page).toContain('<h1>Log a batch</h1>');
    expect(page).toContain('<form class="sheet"');
  });

  test('for stop-work needs no log-in', async () => {
    const answer = await visitor(fakeBoard()).get('/form/stop-work');
    expect(answer.status).toBe(200);
  });

  test('that does not exist is answered clearly', async () => {
    const { ada } = await withAda();
    const answer = await ada.get('/form/nonsense');
    expect(answer.status).toBe(404);
    expect(await answer.text()).toContain('There is no such page');
  });

  test('that cannot be opened now says why', async () => {
    const fake = fakeBoard({
      buildForm: () => ({ ok: false, shown: refused('There is no open flush on rig 1.') }),
    });
    const ada = visitor(fake);
    await ada.logIn('ada');
    const answer = await ada.get(path);
    expect(answer.status).toBe(409);
    expect(await answer.text()).toContain('There is no open flush on rig 1.');
  });

  test('does not reload by itself: nothing typed may be lost', async () => {
    const { ada } = await withAda();
    const page = await ada.page(path);
    expect(page).not.toContain('http-equiv="refresh"');
    expect(page).toContain('data-fragment="/fragment/still?');
  });
});

describe('sending a form', () => {
  test('reads, checks and takes it to the one door, then goes back to where it was opened', async () => {
    const { fake, ada } = await withAda();
    expect(leadsTo(await ada.post(path, fields))).toBe('/briefing');
    expect(fake.requests.map(({ command, shift, actor }) => ({ command, shift, actor }))).toEqual([
      {
        command: { type: 'pot-temperature', rig: 'rig-1', c: 18 },
        shift: SHIFT,
        actor: { kind: 'person', person: 'ada', surface: 'board' },
      },
    ]);
    expect(await ada.page('/briefing')).toContain('Noted: pot-temperature');
  });

  test('twice is one command', async () => {
    const { fake, ada } = await withAda();
    await ada.post(path, fields);
    await ada.post(path, fields);
    expect(new Set(fake.requests.map(({ commandId }) => commandId)).size).toBe(1);
  });

  test('again from a page brought back, with other values, is another command', async () => {
    const { fake, ada } = await withAda();
    await ada.post(path, fields);
    await ada.post(path, { ...fields, paintC: '24' });
    expect(new Set(fake.requests.map(({ commandId }) => commandId)).size).toBe(2);
  });

  test('with a field that cannot be taken shows it again with what was typed', async () => {
    const { fake, ada } = await withAda();
    const answer = await ada.post(path, { ...fields, litres: 'twelve', note: 'kept' });
    expect(answer.status).toBe(422);
    const page = await answer.text();
    expect(page).toContain('Write litres as a number, for example 12.5.');
    expect(page).toMatch(/id="f-litres"[^>]* value="twelve"/);
    expect(page).toContain('kept</textarea>');
    expect(fake.requests).toEqual([]);
  });

  test('with a value out of range is caught by the command’s own check, beside its field when that is known', async () => {
    const { fake, ada } = await withAda();
    const answer = await ada.post(path, { ...fields, paintC: '280' });
    expect(answer.status).toBe(422);
    expect(await answer.text()).toContain('c: is this °C? −30 to 80 can be right here');
    expect(fake.requests).toEqual([]);

    const named = fakeBoard({
      buildForm: (ref) => ({
        ok: true,
        form: {
          ...everyField,
          id: ref.id,
          about: ref.about,
          fields: [{ kind: 'number', name: 'c', label: 'Paint', unit: '°C', step: 1, required: true }],
        },
      }),
    });
    const mira = visitor(named);
    await mira.logIn('mira');
    const page = await (await mira.post(path, { ...fields, paintC: '280', c: '280' })).text();
    expect(page).toContain('<a href="#f-c">Paint: is this °C? −30 to 80 can be right here</a>');
  });

  test('refused by the flow shows why over the form, with what was typed', async () => {
    const { fake, ada } = await withAda();
    fake.answer = () => ({ ok: false, shown: refused('Rig 1 is tagged out.') });
    const answer = await ada.post(path, fields);
    expect(answer.status).toBe(409);
    const page = await answer.text();
    expect(page).toContain('Rig 1 is tagged out.');
    expect(page).toMatch(/id="f-litres"[^>]* value="12"/);
  });

  test('after the log-in ended loses nothing: it waits for the PIN and goes on', async () => {
    const fake = fakeBoard();
    const ada = visitor(fake);
    const login = leadsTo(await ada.post(path, fields));
    const query = new URLSearchParams(login.split('?')[1]);
    expect(fake.requests).toEqual([]);
    expect(
      leadsTo(await ada.logIn('ada', { held: query.get('held') ?? '', next: query.get('next') ?? '' })),
    ).toBe('/briefing');
    expect(fake.requests.map(({ command }) => command)).toEqual([
      { type: 'pot-temperature', rig: 'rig-1', c: 18 },
    ]);
  });

  test('from a page of a shift that is not there is an old page', async () => {
    const { fake, ada } = await withAda();
    const answer = await ada.post(path, { ...fields, _shift: 'quay:1999-01-01' });
    expect(answer.status).toBe(400);
    expect(fake.requests).toEqual([]);
  });

  test('for a posted day goes to the shift of its date', async () => {
    const entry = {
      date: '2026-03-10',
      start: '07:00',
      end: '15:30',
      surroundings: 'open-air',
      weather: { airC: 12, rhPct: 60 },
      jobs: [
        {
          area: 'Tank 4',
          coating: 'grey',
          coat: 'primer',
          dftUm: 75,
          areaM2: 40,
          rig: 'rig-1',
          sprayers: ['tomas'],
          mixers: ['yusra'],
        },
      ],
    } as const;
    const fake = fakeBoard({
      readForm: () => ({ ok: true, command: { type: 'post-day', entry: structuredClone(entry) as never } }),
    });
    fake.shift = null;
    const ada = visitor(fake);
    await ada.logIn('ada');
    await ada.post('/form/post-day', { _command: 'press-0001', _shift: '' });
    expect(fake.requests[0]?.shift).toBe('quay:2026-03-10');
  });

  test('for stop-work is taken without a log-in', async () => {
    const fake = fakeBoard({
      readForm: (_ref, values) => ({ ok: true, command: { type: 'stop-work', text: String(values.note) } }),
    });
    await visitor(fake).post('/form/stop-work', { _command: 'press-0001', note: 'wind' });
    expect(fake.requests.map(({ command, actor }) => ({ command, actor }))).toEqual([
      { command: { type: 'stop-work', text: 'wind' }, actor: { kind: 'unknown', surface: 'board' } },
    ]);
  });
});
