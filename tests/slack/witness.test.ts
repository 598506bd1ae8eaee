import { expect, it } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { openQuestion } from '../../src/flow/sign-off.ts';
import { crewOnSlack, read } from './crew.ts';
import { dayOf, mustOnBoard, today } from './faults.ts';

const texts = loadTexts().textsFor('en');

it('whose phone lies at home is read to by the foreman, who signs as a witness', async () => {
  const crew = await crewOnSlack();
  const ines = crew.member('ines');
  const sheet = () => crew.slack.modals(ines).at(-1);
  const pressed = (where: 'home' | 'modal', label: string) => crew.slack.pressIn(ines, where, { label });
  await mustOnBoard(crew, 'ines', { type: 'post-day', entry: dayOf(crew) });
  await crew.passTo('07:00');
  await crew.slack.openHome(ines);
  await crew.slack.until(() => read(crew.slack.home(ines)?.view).includes(texts.say('today.people-sign')));
  await pressed('home', texts.say('today.people-sign'));
  await crew.slack.until(() => read(sheet()?.view).includes('Nuno'));

  const open = openQuestion(await today(crew), 'nuno');
  const witnessed = JSON.stringify({
    kind: 'open',
    form: { id: 'read-back', about: { person: 'nuno', witness: 'yes' } },
  });
  await crew.slack.pressIn(ines, 'modal', { value: witnessed });
  await crew.slack.until(() => JSON.stringify(sheet()?.view).includes('"submit"'));
  const right = `${open?.order.indexOf(0)}|${open?.caution}/${open?.question}|1`;
  expect(await crew.slack.submit(ines, { choice: right })).toMatchObject({ acked: true });
  await pressed('modal', texts.say('sign.sign'));
  await crew.slack.until(() => !JSON.stringify(sheet()?.view).includes('witnessFor'));
  expect((await today(crew)).people.nuno?.signOffs[0]).toMatchObject({ witnessedBy: 'ines' });
  expect(crew.faults).toEqual([]);
  await crew.close();
});
