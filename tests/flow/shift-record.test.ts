import { describe, expect, test } from 'vitest';
import { loadTexts } from '../../adapters/files/load-texts.ts';
import { wantedBells } from '../../src/flow/bells.ts';
import { crewMemory } from '../../src/flow/crew-memory.ts';
import { carryOverOf, openItems } from '../../src/flow/shift-record.ts';
import { closeShiftForm } from '../../src/forms/people-forms.ts';
import { message } from '../../src/message/build.ts';
import { plainText } from '../../src/message/plain-text.ts';
import { openTexts } from '../../src/views/open-items.ts';
import { recordSummary } from '../../src/views/record.ts';
import { recordPanels } from '../../src/views/record-page.ts';
import { mixed, Play, ready } from './harness.ts';
import { aDay, t } from './pack.ts';

const { textsFor } = loadTexts();

function flushedWithoutFilters(): Play {
  const play = mixed();
  play.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
  play.flushTo('relieve-again');
  const filters = { type: 'skip-step', rig: 'rig-1', flush: 'rig-1-flush-1', step: 'filters' } as const;
  play.do({ ...filters, reason: 'no spares' }, 'pia');
  play.flushTo();
  return play;
}

describe('shift record', () => {
  test('SR1 nothing is open after a clean day', () => {
    const play = mixed();
    play.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
    play.flushTo();
    expect(openItems(play.state)).toEqual([]);
    play.do({ type: 'close-shift' });
    expect(play.state).toMatchObject({ status: 'closed', closedAt: play.now });
  });

  test('SR1 mixed paint, a flush, a stop, a concern and a tag are open', () => {
    const play = mixed();
    play.mix({ rig: 'rig-2' });
    play.do({ type: 'start-flush', rig: 'rig-2' }, 'pia');
    play.do({ type: 'stop-work' }, 'hal');
    play.do({ type: 'raise-concern', text: 'Ladder' }, 'hal');
    play.do({ type: 'report-defect', rig: 'rig-1', part: 'gun', text: 'leaks' }, 'pia');
    expect(openItems(play.state).map(({ text, name }) => [text, name])).toEqual([
      ['open.stop', ''],
      ['open.mixed-paint', 'Rig One'],
      ['open.flush', 'Rig Two'],
      ['open.concern', 'Ladder'],
      ['open.tag', 'Rig One'],
    ]);
  });

  test('SR1 a flush step left out is open, with rig, step and reason, also in the words of form, message and page', () => {
    const play = flushedWithoutFilters();
    const left = { text: 'open.step', name: 'Rig One', rig: 'rig-1', step: 'filters', reason: 'no spares' };
    expect(openItems(play.state)).toEqual([left]);
    for (const language of ['en', 'es', 'pt', 'pl']) {
      const texts = textsFor(language);
      const view = { shift: play.state, texts, now: play.now };
      const words = texts.say('open.step', {
        name: 'Rig One',
        step: texts.say('step.filters'),
        reason: 'no spares',
      });
      expect(openTexts(view)).toEqual([words]);
      const form = closeShiftForm.build({ ...view, pack: play.pack, viewer: 'finn', about: {} } as never);
      const intro = 'intro' in form ? plainText(message('', 'plain', ...(form.intro ?? []))) : '';
      expect(intro).toContain(words);
      expect(intro).not.toContain(texts.say('form.close-shift.none-open'));
      expect(plainText(recordSummary(view))).toContain(words);
      expect(
        recordPanels(view)
          .map((panel) => plainText(panel.message))
          .join(),
      ).toContain(words);
    }
  });

  test('SR2 a step left out has its reason: the shift is closed without a second one', () => {
    const play = flushedWithoutFilters();
    play.do({ type: 'close-shift' });
    expect(play.state.status).toBe('closed');
    expect(openItems(play.state)).toHaveLength(1);
  });

  test('SR1 a step the last shift left out is open until its rig is flushed', () => {
    const play = flushedWithoutFilters();
    const before = { carryOver: carryOverOf(play.state, play.now), head: '' };
    const next = new Play(play.pack, '2026-05-13');
    next.before = before;
    next.do(aDay({ date: '2026-05-13' }));
    expect(openItems(next.state)).toMatchObject([{ text: 'open.step', rig: 'rig-1', step: 'filters' }]);
    // Nothing was touched in the new shift: its end rings once, not on and on for a step of yesterday.
    expect(wantedBells(next.state).find(({ kind }) => kind === 'shift-end')).toMatchObject({ once: true });
    next.at('08:00').do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
    next.flushTo();
    expect(openItems(next.state)).toEqual([]);
  });

  test('SR2 only a foreman closes, and what is open needs a reason', () => {
    const play = ready();
    play.do({ type: 'raise-concern', text: 'Ladder' }, 'hal');
    expect(play.refused({ type: 'close-shift', reason: 'home' }, 'pia').text).toBe('refusal.foreman-only');
    expect(play.refused({ type: 'close-shift' })).toMatchObject({
      text: 'refusal.close-needs-reason',
      params: { count: 1 },
    });
    play.do({ type: 'close-shift', reason: 'Storm' });
    expect(play.state.closeReason).toBe('Storm');
  });

  test('SR2 it is not closed over mixed paint, unless the rig is tagged out', () => {
    const play = mixed();
    expect(play.refused({ type: 'close-shift', reason: 'Storm' })).toMatchObject({
      text: 'refusal.close-live-paint',
      params: { rig: 'Rig One', time: '10:00' },
    });
    play.at('10:01');
    expect(play.refused({ type: 'close-shift', reason: 'Storm' })).toMatchObject({
      text: 'refusal.close-mixed-paint',
      params: { rig: 'Rig One' },
    });
    play.do({ type: 'report-defect', rig: 'rig-1', part: 'gun', text: 'blocked' }, 'pia');
    play.do({ type: 'close-shift', reason: 'Storm' });
    expect(play.state.status).toBe('closed');
  });

  test('SR4 a shift nobody closed is handed over by Potbell and by nobody else', () => {
    const play = mixed().at('17:30');
    play.do({ type: 'hand-over', to: 'weir:2026-05-13' }, { kind: 'system', part: 'bells' });
    expect(play.state.status).toBe('closed');
    expect(play.journal.at(-1)?.body).toMatchObject({ type: 'shift-closed', by: null });
  });

  test('SR3 tags, unflushed lines, steps left out, solvent, concerns and coats go on', () => {
    const play = ready().at('08:00');
    play.mix();
    play.do({ type: 'start-flush', rig: 'rig-1' }, 'pia');
    play.flushTo('relieve-again');
    play.do(
      { type: 'skip-step', rig: 'rig-1', flush: 'rig-1-flush-1', step: 'filters', reason: 'no spares' },
      'pia',
    );
    play.flushTo('tip-and-gun');
    play.do(
      { type: 'confirm-step', rig: 'rig-1', flush: 'rig-1-flush-1', step: 'solvent-away', litres: 6 },
      'pia',
    );
    play.mix({ rig: 'rig-2' });
    play.do({ type: 'raise-concern', text: 'Ladder' }, 'hal');
    play.do({ type: 'report-defect', rig: 'rig-1', part: 'gun', text: 'leaks' }, 'pia');
    const left = carryOverOf(play.state, play.now);
    expect(left).toEqual({
      ...crewMemory(play.state),
      fromShift: 'weir:2026-05-12',
      fromDate: '2026-05-12',
      stop: null,
      tags: [{ rig: 'rig-1', cause: 'report', text: 'gun: leaks', since: play.now }],
      unflushed: [{ rig: 'rig-2', coating: 'epoxy', mixedAt: play.now }],
      skippedSteps: [{ rig: 'rig-1', step: 'filters', reason: 'no spares' }],
      settledSolvent: [{ rig: 'rig-1', solvent: 'Cleaner T', litres: 6 }],
      concerns: [{ by: 'Hal', person: 'hal', text: 'Ladder' }],
      coats: [
        {
          area: 'Gate 1',
          coating: 'epoxy',
          coat: 'intermediate',
          firstAt: t('08:00'),
          at: t('08:00'),
          steel: [{ at: t('07:00'), c: 20 }],
        },
      ],
    });
    play.do({ type: 'hand-over', to: 'weir:2026-05-13' }, { kind: 'system', part: 'bells' });
    expect(play.journal.at(-1)?.body).toMatchObject({ type: 'shift-closed', carryOver: left });
  });

  test('SR5 a closed shift takes no command but a stop and a lost message', () => {
    const play = ready();
    play.do({ type: 'close-shift' });
    expect(play.refused({ type: 'issue-briefing' }).params).toEqual({ date: '2026-05-12' });
    // People still clean up after the shift: they can be stopped, and the foreman clears it.
    play.do({ type: 'stop-work' }, 'pia');
    play.do({ type: 'clear-stop-work', text: 'Looked at it.' });
    expect(play.refused({ type: 'ring' }, { kind: 'system', part: 'bells' }).text).toBe(
      'refusal.shift-closed',
    );
    const lost = {
      type: 'note-undelivered',
      message: 'closed',
      to: 'pia',
      surface: 'chat',
      why: 'gone',
    } as const;
    play.do(lost, { kind: 'system', part: 'outbox' });
    expect(play.state.undelivered).toHaveLength(1);
  });
});
