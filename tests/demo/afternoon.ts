import { type FlushStep, flushSteps } from '../../src/model/checks.ts';
import type { Texts } from '../../src/texts/texts.ts';
import { sheets } from './sheets.ts';
import type { Stage } from './stage.ts';

const withLitres: ReadonlySet<FlushStep> = new Set(['primary-flush', 'secondary-flush', 'solvent-away']);

const nameOf = (person: string): string => person.charAt(0).toUpperCase() + person.slice(1);

/** Readings, batches, what is measured, the bell. */
export async function spraying(stage: Stage): Promise<void> {
  const { crew, watch, hands } = stage;
  const line = async (person: string, text: string, name: string) => {
    await hands.typed(person, text);
    watch.alone(person, name, `${nameOf(person)} typed: ${watch.line(text)}`);
  };
  const form = async (person: string, text: string, name: string) => {
    await hands.typed(person, text);
    watch.modal(person, name, `${nameOf(person)} typed: ${watch.line(text)}`);
  };
  await crew.passTo('07:40');
  await form('ines', 'reading', 'reading-form');
  await hands.submit('ines', { airC: '14,5', rhPct: '78', steelC: '13', place: 'Span 2, underside' });
  watch.modal('ines', 'reading-too-cold', 'Steel too near the dew point.');
  await hands.close('ines');
  watch.thread('reading-in-thread', 'The thread of the day: the checks and the reading.');
  await crew.passTo('08:10');
  await line('duarte', 'reading 16 C 70 % steel 19 C', 'reading-typed');
  await crew.passTo('08:15');
  await line('bento', 'batch', 'which-rig');
  await form('bento', 'batch rig-1', 'batch-form');
  await hands.close('bento');
  await line('bento', 'batch 20 L 18', 'batch-not-understood');
  await line('bento', 'batch 20 L 18 C rig-1', 'batch-typed');
  await line('bento', 'temp 21 C rig-1', 'temperature-typed');
  watch.thread('batch-in-thread', 'What the crew sees of it.');
  await line('livia', 'mistura 6,8 L 22 C rig-2', 'batch-no-whole-kit-pt');
  await line('livia', 'mistura 14 L 22 C rig-2', 'batch-typed-pt');
  await hands.home('duarte');
  watch.home('duarte', 'home-during', 'What a sprayer finds with paint in the pot.');
  await hands.home('livia');
  watch.home('livia', 'home-during-pt', 'The same in Portuguese.');
  await hands.home('ines');
  watch.home('ines', 'home-foreman-during', 'What the foreman finds.');
  await form('duarte', 'today', 'today-during');
  await hands.close('duarte');
  await form('ines', 'briefing', 'page-briefing');
  await hands.close('ines');
  await sheets(stage, 'duarte', 'rig-1', [
    'pot-temperature',
    'hose-temperature',
    'pause',
    'pot-empty',
    'test-fan',
    'void-batch',
    'mend-mix-temperature',
    'report-defect',
    'void-reading',
    'stop-work',
  ]);
  await sheets(stage, 'ines', 'rig-1', ['arrive']);
  await sheets(stage, 'livia', 'rig-2', ['mix-batch', 'take-reading', 'check-rig']);
  await sheets(stage, 'tomas', 'rig-1', ['stop-work']);
  await sheets(stage, 'nuno', 'rig-1', ['stop-work', 'report-defect']);
  await crew.passTo('08:40');
  await line('duarte', 'pause rig-1 wind', 'pause-typed');
  await line('duarte', 'hose 24 C rig-1', 'hose-typed');
  await line('duarte', 'go rig-1', 'go-on-typed');
  await hands.typed('livia', 'empty rig-2');
  await line('livia', 'mistura 14 L 22 C rig-2', 'batch-second-pt');
  await sheets(stage, 'rui', 'rig-2', ['line-renewed']);
  await crew.passTo('08:50');
  watch.channel('channel-before-bell', 'What came into the channel meanwhile.');
  watch.dm('duarte', 'own-before-bell', 'What came into a sprayer’s own conversation meanwhile.');
}

/** The bell calls, is answered, and the flush goes step by step. */
export async function flushing(stage: Stage, texts: Texts): Promise<void> {
  const { crew, watch, hands } = stage;
  await crew.passTo('10:11');
  watch.channel('bells', 'The bells of the batch.');
  watch.dm('tomas', 'bell-es', 'What a Spanish reader has of it.');
  await hands.typed('duarte', 'bells');
  watch.modal('duarte', 'bells-page', `Duarte typed: ${watch.line('bells')}`);
  await hands.close('duarte');
  await hands.pressInChannel('duarte', 'I am on it');
  watch.channel('bell-answered', 'Duarte pressed: I am on it. What is new for the crew?');
  watch.alone('duarte', 'bell-answered-told', 'What Duarte is told.');
  watch.thread('thread-before-flush', 'The thread of the day by now.');
  await hands.typed('duarte', 'flush rig-1');
  watch.alone('duarte', 'flush-typed', `Duarte typed: ${watch.line('flush rig-1')}`);
  watch.channel('flush-begun', 'What is new in the channel.');
  watch.thread('flush-begun-thread', 'What is new in the thread.');
  for (const step of flushSteps) {
    await hands.pressInChannel('duarte', texts.say(`press.${step}`));
    if (step === flushSteps[1]) await sheets(stage, 'duarte', 'rig-1', ['skip-step', 'abandon-flush']);
    if (withLitres.has(step)) {
      await hands.untilAsked('duarte');
      watch.modal('duarte', `litres-${step}`, 'Litres are noted at this step.');
      await hands.submit('duarte', { litres: '6' });
      await hands.close('duarte');
    }
    watch.thread(`flush-${step}`, `The thread after: ${texts.say(`press.${step}`)}`);
  }
  watch.alone('duarte', 'flush-told', 'All that Duarte alone was shown meanwhile.');
  watch.channel('flush-done', 'What is new in the channel after the flush.');
}

/** The other rig, with one step left out; then the last reading of the day. */
export async function secondFlush(stage: Stage, texts: Texts): Promise<void> {
  const { crew, watch, hands } = stage;
  await crew.passTo('10:50');
  watch.channel('second-rig-bells', 'What came into the channel of the other rig.');
  await hands.typed('rui', 'flush rig-2');
  for (const step of flushSteps) {
    if (step === 'filters') {
      await hands.pressInChannel('rui', texts.say('today.press-skip'));
      await hands.untilAsked('rui');
      watch.modal('rui', 'leave-a-step-out', 'Rui leaves a step out.');
      await hands.submit('rui', { reason: 'no spare gasket on site, comes tomorrow' });
      await hands.close('rui');
      continue;
    }
    await hands.pressInChannel('rui', texts.say(`press.${step}`));
    if (!withLitres.has(step)) continue;
    await hands.untilAsked('rui');
    await hands.submit('rui', { litres: '4' });
    await hands.close('rui');
  }
  watch.channel('second-flush-done', 'The other rig is flushed, the filters were left out.');
}

/** End of the day: help, emergency, closing, the record. */
export async function evening(stage: Stage): Promise<void> {
  const { crew, watch, hands } = stage;
  for (const [person, language] of [
    ['duarte', 'en'],
    ['livia', 'pt'],
    ['tomas', 'es'],
    ['nuno', 'pl'],
  ] as const) {
    await hands.typed(person, 'emergency');
    watch.modal(person, `emergency-${language}`, `${nameOf(person)} typed: ${watch.line('emergency')}`);
    await hands.close(person);
  }
  await hands.typed('duarte', 'help');
  watch.alone('duarte', 'help', `Duarte typed: ${watch.line('help')}`);
  await hands.typed('tomas', 'ayuda');
  watch.alone('tomas', 'help-es', `Tomas typed: ${watch.line('ayuda')}`);
  await crew.passTo('16:20');
  watch.channel('end-of-day', 'The end of the shift is near.');
  await hands.typed('ines', 'close');
  watch.modal('ines', 'close-form', `The foreman typed: ${watch.line('close')}`);
  await hands.submit('ines', {});
  watch.modal('ines', 'closed', 'Sent.');
  await hands.close('ines');
  watch.channel('closed-in-channel', 'What the crew sees.');
  await hands.record('ines');
  watch.dm('ines', 'record-file', 'How the record comes.');
  await hands.home('ines');
  watch.home('ines', 'home-after', 'What the foreman finds after the shift.');
  await hands.home('livia');
  watch.home('livia', 'home-after-pt', 'What a mixer finds after the shift.');
}
