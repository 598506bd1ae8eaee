import { rigChecks } from '../../src/model/checks.ts';
import { sheets } from './sheets.ts';
import { DATE, STRANGER, type Stage } from './stage.ts';

/** Until everybody has signed: the day, the briefing, the answers in four languages, a concern. */
export async function morning(stage: Stage): Promise<void> {
  const { crew, watch, hands } = stage;
  await hands.home('ines');
  watch.home('ines', 'home-before', 'No day is posted yet. The foreman opens the app.');
  await hands.press('ines', 'home', 'Post the day');
  const hours = { date: DATE, start: '07:30', end: '16:30', breaks: '10:00-10:20, 12:30-13:15' };
  for (let step = 1; hands.asked('ines'); step += 1) {
    watch.modal('ines', `post-the-day-${step}`, 'Post the day, filled in from the example.');
    await hands.submit('ines', hands.asked('ines', 'date') ? hours : {});
    if (step > 20) throw new Error('Posting the day has more than 20 steps.');
  }
  watch.modal('ines', 'day-posted', 'The last step was sent.');
  await hands.close('ines');
  await crew.passTo('07:00');
  watch.channel('briefing', 'The briefing goes out to the crew.');
  watch.thread('briefing-thread', 'What stands in the thread under it.');
  for (const [person, language] of readers)
    watch.dm(person, `asked-${language}`, `The same morning, in the language "${language}".`);

  await sheets(stage, 'tomas', 'rig-1', ['read-back']);
  await hands.answer('livia', false);
  watch.dm('livia', 'answered-wrong-pt', 'A wrong answer to the read-back.');
  await hands.answer('livia', true);
  watch.dm('livia', 'answered-right-pt', 'A right answer to the next question.');
  await hands.sign('livia');
  watch.dm('livia', 'signed-pt', 'Signed.');
  await hands.typed('bento', 'concern');
  watch.modal('bento', 'concern-form', `Bento typed: ${watch.line('concern')}`);
  await hands.submit('bento', { text: 'The earth clamp of rig 2 sits on painted steel.' });
  watch.modal('bento', 'concern-taken', 'The concern was sent.');
  await hands.close('bento');
  watch.channel('concern-in-channel', 'What the crew sees of the concern.');
  watch.dm('ines', 'foreman-asked', 'What the foreman has in her own conversation by now.');
  for (const [person, language] of [
    ['tomas', 'es'],
    ['nuno', 'pl'],
    ['duarte', 'en'],
  ] as const) {
    await hands.answer(person, true);
    watch.dm(person, `answered-right-${language}`, 'A right answer to the read-back.');
    await hands.sign(person);
    watch.dm(person, `signed-${language}`, 'Signed.');
  }
  await crew.passTo('07:20');
  watch.channel('chased', 'Twenty minutes later not everybody has signed.');
  watch.dm('marta', 'chased-in-person', 'Somebody who has not signed.');
  for (const person of ['ines', 'clara', 'marta', 'rui', 'bento']) {
    await hands.answer(person, true);
    await hands.sign(person);
  }
  await hands.typed('ines', 'today');
  watch.modal('ines', 'today-morning', `Ines typed: ${watch.line('today')}`);
  await hands.press('ines', 'modal', 'Answer the concern');
  watch.modal('ines', 'concern-answer', 'The foreman answers the concern.');
  await hands.submit('ines', { text: 'Moved to the bare base plate, checked with Bento.' });
  await hands.close('ines');
  await crew.deliver();
  watch.thread('thread-after-signing', 'The thread of the day by now.');
}

const readers = [
  ['duarte', 'en'],
  ['livia', 'pt'],
  ['tomas', 'es'],
  ['nuno', 'pl'],
] as const;

/** Somebody whom nobody has put on the list, and what stops the work. */
export async function stranger({ watch, hands }: Stage): Promise<void> {
  await hands.typed(STRANGER, 'batch 10 L');
  watch.alone(
    STRANGER,
    'unknown-person',
    `Sam, whom nobody has put on the list, typed: ${watch.line('batch 10 L')}`,
  );
  await hands.typed(STRANGER, 'stop leak at the gun of rig 2');
  watch.alone(STRANGER, 'unknown-stops', `Sam typed: ${watch.line('stop leak at the gun of rig 2')}`);
  watch.channel('stop-work', 'What the crew sees.');
  watch.dm('livia', 'stop-work-pt', 'The same in Portuguese.');
  watch.dm('tomas', 'stop-work-es', 'The same in Spanish.');
  watch.dm('nuno', 'stop-work-pl', 'The same in Polish.');
  await hands.home('ines');
  watch.home('ines', 'home-stopped', 'What the foreman finds while the work is stopped.');
  if (await hands.todayFromHome('ines'))
    watch.modal('ines', 'today-stopped', 'From there she pressed: Today');
  await hands.press('ines', 'modal', 'Clear the stop-work');
  watch.modal('ines', 'clear-stop', 'The foreman lifts the stop-work.');
  await hands.submit('ines', { text: 'Looked at it with Rui. The swivel was changed, tight on solvent.' });
  watch.modal('ines', 'stop-cleared', 'Sent.');
  await hands.close('ines');
  watch.channel('stop-over', 'What the crew sees then.');
}

/** Each rig is checked; one has a defect, is tagged, mended and checked again. */
export async function rigs({ watch, hands }: Stage): Promise<void> {
  const order = Object.fromEntries(rigChecks.map((check) => [check, 'ok']));
  await hands.typed('duarte', 'check rig-1');
  watch.modal('duarte', 'rig-check', `Duarte typed: ${watch.line('check rig-1')}`);
  await hands.submit('duarte', order);
  watch.modal('duarte', 'rig-checked', 'All nine in order.');
  await hands.close('duarte');
  await hands.typed('rui', 'check rig-2');
  await hands.submit('rui', { ...order, 'hose-and-fittings': 'defect', note: 'swivel weeps at the gun' });
  watch.modal('rui', 'rig-defect', 'Rui found a defect.');
  await hands.close('rui');
  watch.channel('rig-tagged', 'What the crew sees of the two checks.');
  watch.thread('rig-checks-thread', 'The thread of the day.');
  await hands.home('ines');
  watch.home('ines', 'home-tagged', 'What the foreman finds with a rig tagged out.');
  await hands.press('ines', 'home', 'Clear the tag');
  watch.modal('ines', 'clear-tag', 'The foreman clears the tag.');
  await hands.submit('ines', { text: 'Swivel changed by Rui, tight at pressure on solvent.' });
  await hands.close('ines');
  await hands.typed('rui', 'check rig-2');
  await hands.submit('rui', order);
  await hands.close('rui');
}
