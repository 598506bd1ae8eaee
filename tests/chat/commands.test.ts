import { describe, expect, test } from 'vitest';
import { readTyped } from '../../src/chat/read-typed.ts';
import type { CommandInput } from '../../src/model/command.ts';
import { commandSchema } from '../../src/model/command.ts';
import { mixed, ready } from '../flow/harness.ts';
import { contextOf, messageOf, typed } from './site.ts';

const play = ready();
const does = (command: CommandInput) => ({ kind: 'do', command: commandSchema.parse(command) });
const opens = (id: string, about: Readonly<Record<string, string>> = {}) => ({
  kind: 'open',
  form: { id, about },
});
const shows = (page: string) => ({ kind: 'show', page });
const rig = 'rig-1';
const mix = { type: 'mix-batch', rig, coating: 'epoxy', litres: 20, paintC: 28, pot: 'fresh' } as const;

describe('what a line is read as, with one rig in use', () => {
  test.each<[string, object]>([
    ['', { kind: 'help' }],
    ['?', { kind: 'help' }],
    ['help me', { kind: 'help' }],
    ['today', shows('today')],
    ['Board please', shows('today')],
    ['briefing', shows('briefing')],
    ['sign-off', shows('sign-off')],
    ['SIGN', shows('sign-off')],
    ['emergency!!! hand', shows('emergency')],
    ['bells', shows('notices')],
    ['record', shows('record')],
    ['batch', opens('mix-batch', { rig })],
    ['batch 20 L 28 C', does(mix)],
    ['mix 28C 20l', does(mix)],
    ['batch 20L28C', does(mix)],
    ['batch 20 litres, 28 °c.', does(mix)],
    ['batch 20 L 28', does(mix)],
    ['batch 28 deg C 20', does(mix)],
    ['batch 20.5 L 28,5 C', does({ ...mix, litres: 20.5, paintC: 28.5 })],
    ['batch 20 L @ 28 C', does(mix)],
    ['batch .5 L 28 C', does({ ...mix, litres: 0.5 })],
    ['batch 10 L 28 C a 8 b 2', does({ ...mix, litres: 10, aL: 8, bL: 2 })],
    ['batch a8 b2 10 L 28 C', does({ ...mix, litres: 10, aL: 8, bL: 2 })],
    ['batch A: 8 L, B: 2 L, 10 L, 28 C', does({ ...mix, litres: 10, aL: 8, bL: 2 })],
    ['batch 20 L 28 C thinner 0,5 L', does({ ...mix, thinnerL: 0.5 })],
    ['batch 20 L 28 C top', does({ ...mix, pot: 'on-top' })],
    ['batch 20 L 28 C on top', does({ ...mix, pot: 'on-top' })],
    ['batch fresh 20 L 28 C', does(mix)],
    ['batch 20 L 28 C rig 2 finish', does({ ...mix, rig: 'rig-2', coating: 'finish' })],
    ['batch 20 L 28 C one-pack', does({ ...mix, coating: 'one-pack' })],
    ['batch 20 L 68 F', does({ ...mix, paintC: 20 })],
    ['temp', opens('pot-temperature', { rig })],
    ['temp 31 C', does({ type: 'pot-temperature', rig, c: 31 })],
    ['temp 31', does({ type: 'pot-temperature', rig, c: 31 })],
    ['temp 31 degrees', does({ type: 'pot-temperature', rig, c: 31 })],
    ['temp 31 degrees C', does({ type: 'pot-temperature', rig, c: 31 })],
    ['temp 31°', does({ type: 'pot-temperature', rig, c: 31 })],
    ['temp −5 C', does({ type: 'pot-temperature', rig, c: -5 })],
    ['temp 31 C rig 2', does({ type: 'pot-temperature', rig: 'rig-2', c: 31 })],
    ['temp rig 2 31 C', does({ type: 'pot-temperature', rig: 'rig-2', c: 31 })],
    ['temp rig2 31C', does({ type: 'pot-temperature', rig: 'rig-2', c: 31 })],
    ['temp RIG-2: 31 C', does({ type: 'pot-temperature', rig: 'rig-2', c: 31 })],
    ['temp Rig Two 31 C', does({ type: 'pot-temperature', rig: 'rig-2', c: 31 })],
    ['hose', opens('hose-temperature', { rig })],
    ['hose 38 C', does({ type: 'hose-temperature', rig, c: 38 })],
    ['warm', does({ type: 'hose-warm', rig })],
    ['hose is warm', does({ type: 'hose-warm', rig })],
    ['pause', does({ type: 'pause', rig })],
    ['pause, rain', does({ type: 'pause', rig, why: 'rain' })],
    ['go', does({ type: 'resume', rig })],
    ['empty', does({ type: 'pot-empty', rig })],
    ['empty rig two', does({ type: 'pot-empty', rig: 'rig-2' })],
    ['flush', does({ type: 'start-flush', rig })],
    ['reading', opens('take-reading')],
    ['reading 21 C 60 % steel 19 C', does({ type: 'take-reading', airC: 21, rhPct: 60, steelC: 19 })],
    ['reading steel 19 60% 21', does({ type: 'take-reading', airC: 21, rhPct: 60, steelC: 19 })],
    ['reading 21C 60%RH steel 19C', does({ type: 'take-reading', airC: 21, rhPct: 60, steelC: 19 })],
    ['reading air 21 rh 60 steel 19', does({ type: 'take-reading', airC: 21, rhPct: 60, steelC: 19 })],
    ['reading 21 C wet bulb 15 C steel 19 C', does({ type: 'take-reading', airC: 21, wetC: 15, steelC: 19 })],
    [
      'reading 21 60% steel 19 WBGT 24',
      does({ type: 'take-reading', airC: 21, rhPct: 60, steelC: 19, wbgtC: 24 }),
    ],
    ['stop', does({ type: 'stop-work' })],
    ['STOP!!! leak at gun', does({ type: 'stop-work', text: 'leak at gun' })],
    ['  *sToP*: rig 2, 31 bar?', does({ type: 'stop-work', text: 'rig 2, 31 bar?' })],
    ['stop-work leak', does({ type: 'stop-work', text: 'leak' })],
    ['Stooopp', does({ type: 'stop-work' })],
    ['stop\u200b', does({ type: 'stop-work' })],
    ['concern', opens('raise-concern')],
    ['concern - ladder is loose', does({ type: 'raise-concern', text: 'ladder is loose' })],
    ['check', opens('check-rig', { rig })],
    ['check rig 2', opens('check-rig', { rig: 'rig-2' })],
    ['defect', opens('report-defect', { rig })],
    ['defect the rig leaks', opens('report-defect', { rig, text: 'the rig leaks' })],
    ['defect rig 2 hose worn', opens('report-defect', { rig: 'rig-2', text: 'hose worn' })],
    ['post', opens('post-day', { base: '1' })],
    ['close', opens('close-shift')],
    ['arrived', opens('arrive')],
  ])('%j', (text, read) => expect(typed(play, text)).toEqual(read));

  test('somebody who is not on the list yet puts themselves on it, and asks for others with the form', () => {
    expect(typed(play, 'arrived', { viewer: 'lou' })).toEqual(does({ type: 'arrive', person: 'lou' }));
    expect(typed(play, 'arrived Hal', { viewer: 'lou' })).toEqual(opens('arrive'));
  });

  test('post changes the running day, and begins the next one when its end is past', () => {
    const { state } = play;
    const post = (now: number) => readTyped('post', contextOf({ shift: state, now }));
    expect(post(state.day.endsAt - 1)).toEqual(opens('post-day', { base: '1' }));
    expect(post(state.day.endsAt)).toEqual(opens('post-day', { next: 'yes' }));
    expect(readTyped('post', contextOf({ shift: null }))).toEqual(opens('post-day'));
    expect(readTyped('post', contextOf({ shift: { ...state, status: 'closed' } }))).toEqual(
      opens('post-day'),
    );
  });

  test('a stop is never too long, and is not cut through a character', () => {
    const read = typed(play, `stop ${'x'.repeat(499)}😀 and more`);
    expect(read).toEqual(does({ type: 'stop-work', text: 'x'.repeat(499) }));
  });

  test('words for a defect are cut to what its form takes', () => {
    const read = typed(play, `defect ${'x'.repeat(600)}`);
    expect(read).toEqual(opens('report-defect', { rig, text: 'x'.repeat(500) }));
  });
});

describe('what is not understood is said back, and nothing is done', () => {
  const batch = 'Write it like this: batch 15 L 25 °C';
  const reading = 'reading 20 °C 60 % steel 20 °C';
  test.each([
    ['foo', '“foo” is not known here. Type help for what can be typed.'],
    ['tepm 31', '“tepm” is not known here. Did you mean: temp? Type help for what can be typed.'],
    ['stpo', '“stpo” is not known here. Did you mean: stop? Type help for what can be typed.'],
    ['stp', '“stp” is not known here. Did you mean: stop, step? Type help for what can be typed.'],
    ['everybody stop', '“everybody” is not known here. Did you mean: stop? Type help for what can be typed.'],
    ['batch 10 28', '“10” could be two things. Nothing was done. Write each unit: batch 15 L 25 °C'],
    ['batch 10', '“10” could be two things. Nothing was done. Write each unit: batch 15 L 25 °C'],
    ['batch 10 L', `This is missing: Paint temperature, measured. Nothing was done. ${batch}`],
    ['batch 10 L 5 L 28 C', `“5 L” is one figure too many. Nothing was done. ${batch}`],
    ['batch 10 L 28 C 5', `“5” is one figure too many. Nothing was done. ${batch}`],
    ['batch 10 kg 28 C', `“10 kg” is not understood here. Nothing was done. ${batch}`],
    ['batch 10kilo 28 C', `“10kilo” is not understood here. Nothing was done. ${batch}`],
    ['batch 10 L 28 C a b 2', `A figure is missing after “a”. Nothing was done. ${batch}`],
    ['batch 10 L 28 C hurry', `“hurry” is not understood here. Nothing was done. ${batch}`],
    ['batch 10½ L 28 C', `“10½” is not understood here. Nothing was done. ${batch}`],
    ['batch 10.5.2 L 28 C', `“10.5.2” is not understood here. Nothing was done. ${batch}`],
    ['batch 20-25 L 28 C', `“20-25” is not understood here. Nothing was done. ${batch}`],
    ['batch 10 L 28 C 60 %', `“60 %” is not understood here. Nothing was done. ${batch}`],
    [
      'batch 10 L 28 C thinner 5 %',
      '“5 %”: That unit does not belong here. Write one of L, gal, or no unit. Nothing was done.',
    ],
    [
      'batch 2 imp gal 28 C',
      '“2 imp gal”: Imperial gallons are not known here. Write litres or US gallons. Nothing was done.',
    ],
    ['batch 2000 L 28 C', '“2000 L”: At most 1000 L. Is it the right unit? Nothing was done.'],
    ['temp 131 C', '“131 C”: At most 80 °C. Is it the right unit? Nothing was done.'],
    ['temp 31 bar', '“31 bar” is not understood here. Nothing was done. Write it like this: temp 30 °C'],
    ['temp 31 C 32 C', '“32 C” is one figure too many. Nothing was done. Write it like this: temp 30 °C'],
    ['temp fresh', '“fresh” is not understood here. Nothing was done. Write it like this: temp 30 °C'],
    ['temp 31 C rig 9', '“rig 9” is no rig of this shift. Nothing was done. Type one of: rig 1, rig 2'],
    ['temp rig 2.5 C', '“rig 2.5” is no rig of this shift. Nothing was done. Type one of: rig 1, rig 2'],
    ['pause rig', '“rig” is no rig of this shift. Nothing was done. Type one of: rig 1, rig 2'],
    ['defect rig 9 leaks', '“rig 9” is no rig of this shift. Nothing was done. Type one of: rig 1, rig 2'],
    ['go rig', '“rig” is no rig of this shift. Nothing was done. Type one of: rig 1, rig 2'],
    ['empty 5 L', '“5 L” is not understood here. Nothing was done. Write it like this: empty'],
    ['pause 2', '“2” is not understood here. Nothing was done. Write it like this: pause'],
    ['reading 21 60 steel 19', `“21” could be two things. Nothing was done. Write each unit: ${reading}`],
    ['reading 21 C 60 %', `This is missing: Steel. Nothing was done. Write it like this: ${reading}`],
    [
      'reading 21 C steel 19 C',
      `This is missing: Humidity. Nothing was done. Write it like this: ${reading}`,
    ],
    [
      'reading 19 steel 21 air 60%',
      `“19” is one figure too many. Nothing was done. Write it like this: ${reading}`,
    ],
    [
      'reading 21 C 60 % wet 15 C steel 19 C',
      '“60 %”: Write the humidity or the wet bulb, one of the two. Nothing was done.',
    ],
    ['step', 'Rig One: no flush is running. Type flush to start one.'],
  ])('%j', (text, message) => expect(messageOf(typed(play, text))).toBe(message));

  test('over paint in the pot, fresh or on top is asked', () => {
    const asks =
      'Rig One has paint in the pot. Nothing was done. Add fresh for an emptied pot, or top if it went on top of the old paint.';
    expect(messageOf(typed(mixed(), 'batch 20 L 28 C'))).toBe(asks);
    expect(messageOf(typed(mixed(), 'batch 20 L 28 C fresh top'))).toBe(asks);
    expect(typed(mixed(), 'batch 20 L 28 C fresh')).toEqual(does(mix));
  });

  test('a concern that is too long is not cut: its end may be what matters', () => {
    expect(messageOf(typed(play, `concern ${'x'.repeat(501)}`))).toContain('500');
  });

  test('what is said back stays one short line', () => {
    const message = messageOf(typed(play, `temp ${'very\nlong '.repeat(100)}`));
    expect(message).not.toContain('\n');
    expect(message.length).toBeLessThan(160);
  });
});
