import { bench, describe } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { buildBriefing } from '../../src/briefing/build.ts';
import { dayPlan } from '../../src/facts/plan.ts';
import { rigClocks } from '../../src/flow/clocks.ts';
import { nextRingAt } from '../../src/flow/ringing.ts';
import { plainText } from '../../src/message/plain-text.ts';
import { briefingMessage } from '../../src/views/briefing.ts';
import { pagePanels } from '../../src/views/pages.ts';
import { mixed } from '../flow/harness.ts';
import { aPack } from '../flow/pack.ts';

const texts = loadTexts().textsFor('en');
const pack = aPack();
const play = mixed();
const shift = play.state;
const view = { shift, texts, now: play.now };
const message = briefingMessage(view);

/** Each as a ratio to writing its own result as JSON in the same run. */
describe('a briefing', () => {
  bench('JSON.stringify of the finished message', () => void JSON.stringify(message));
  bench('render as plain text', () => void plainText(message));
  bench('choose the words: shift to message', () => void briefingMessage(view));
  bench('decide: day to cautions', () => void buildBriefing(shift, null));
});

describe('a shift with paint in the line', () => {
  bench('JSON.stringify of the shift', () => void JSON.stringify(shift));
  bench('clocks of a rig', () => void rigClocks(shift, 'rig-1'));
  bench('when the next bell rings', () => void nextRingAt(shift, play.now));
  bench('every panel of the page of today', () => {
    pagePanels('today', { pack, shift, now: play.now, texts, viewer: null });
  });
});

describe('the plan of a day', () => {
  bench('JSON.stringify of the day', () => void JSON.stringify(shift.day));
  bench('dayPlan', () => void dayPlan(shift.day, null));
});
