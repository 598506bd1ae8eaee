import { describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { plainText } from '../../src/message/plain-text.ts';
import type { JournalEvent } from '../../src/model/event.ts';
import { announcements } from '../../src/views/announce.ts';
import { briefed, mixed, type Play, posted, ready } from '../flow/harness.ts';
import { t } from '../flow/pack.ts';

const { textsFor } = loadTexts();
const texts = textsFor('en');

/** What an act says in the place of the channel's briefing. */
function putRight(play: Play, act: () => void): readonly string[] {
  const before = play.state;
  const from = play.journal.length;
  act();
  const events = play.journal.slice(from) as readonly JournalEvent[];
  expect(events.length).toBeGreaterThan(0);
  const said = announcements(before, play.state, events, textsFor);
  return said
    .filter(({ key }) => key === `briefing:${play.state.id}`)
    .map(({ audience, urgency, message }) => {
      // An edit in the channel, which makes no sound.
      expect({ audience, urgency }).toEqual({ audience: { kind: 'crew' }, urgency: 'quiet' });
      return plainText(message);
    });
}

const text = 'The hoist swings over the hose';
const concern = texts.say('hold.concern', { text });

describe('SO11 what holds, in the channel', () => {
  test('SO11 a concern stands there from when it is raised until it is answered, each with its time', () => {
    const play = briefed().at('06:41');
    const raised = putRight(play, () => play.do({ type: 'raise-concern', text }, 'pia'));
    expect(raised).toHaveLength(1);
    expect(raised[0]).toContain(concern);
    expect(raised[0]).toContain(texts.say('brief.holds-at', { time: '06:41' }).toUpperCase());
    const id = play.state.concerns[0]?.id ?? '';
    play.at('06:52');
    const answered = putRight(play, () => play.do({ type: 'resolve-concern', concern: id, text: 'Moved' }));
    expect(answered).toHaveLength(1);
    expect(answered[0]).not.toContain(concern);
    expect(answered[0]).toContain(texts.say('brief.holds-at', { time: '06:52' }).toUpperCase());
  });

  test('SO11 a stop and its end', () => {
    const play = ready();
    const stop = texts.say('hold.stop-work', { text: 'Gust' });
    const stopped = putRight(play, () => play.do({ type: 'stop-work', text: 'Gust' }, 'pia'));
    expect(stopped).toEqual([expect.stringContaining(stop)]);
    const cleared = putRight(play, () => play.do({ type: 'clear-stop-work', text: 'Calm again' }));
    expect(cleared).toEqual([expect.stringContaining(texts.say('hold.none'))]);
  });

  test('SO11 a reading too near the dew point, and a rig tagged out', () => {
    const play = ready();
    expect(putRight(play, () => play.reading(20, 90, 20))).toHaveLength(1);
    const defect = { type: 'report-defect', rig: 'rig-1', part: 'hose', text: 'bulges' } as const;
    expect(putRight(play, () => play.do(defect, 'pia'))).toEqual([expect.stringContaining('bulges')]);
  });

  test('SO11 a reading that grows old, when its bell rings, and only then', () => {
    const play = mixed();
    let rung: readonly string[] = [];
    play.ringUntil(t('10:59'));
    play.at('11:00');
    rung = putRight(play, () => play.ring());
    expect(rung).toEqual([expect.stringContaining(texts.say('hold.old-reading', { time: '07:00' }))]);
    play.at('11:04');
    expect(putRight(play, () => play.ring())).toEqual([]);
  });

  test('SO11 nothing is said anew where nothing of it changed: a pause, a signature, a day not briefed yet', () => {
    const play = mixed();
    expect(putRight(play, () => play.do({ type: 'pause', rig: 'rig-1' }, 'pia'))).toEqual([]);
    const early = briefed();
    early.answerRight('pia');
    expect(putRight(early, () => early.do({ type: 'sign', revision: 1 }, 'pia'))).toHaveLength(1);
    const before = posted();
    expect(putRight(before, () => before.do({ type: 'raise-concern', text }, 'pia'))).toEqual([]);
  });
});
