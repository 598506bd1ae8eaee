import { describe, expect, test } from 'vitest';
import { createLive, type LiveEvent } from '../../adapters/board/live.ts';
import { bellDelivery, fakeBoard, START } from './fakes.ts';

const reads = (answer: Response) => {
  const reader = answer.body?.getReader();
  const decode = new TextDecoder();
  let rest = '';
  return {
    async event(): Promise<{ event: string; data: unknown }> {
      while (!rest.includes('\n\n')) {
        const { value, done } = (await reader?.read()) ?? { done: true };
        if (done) return { event: 'end', data: null };
        rest += decode.decode(value);
      }
      const [one = '', ...more] = rest.split('\n\n');
      rest = more.join('\n\n');
      return {
        event: /^event: (.*)$/m.exec(one)?.[1] ?? '',
        data: JSON.parse(/^data: (.*)$/m.exec(one)?.[1] ?? 'null'),
      };
    },
    end: () => reader?.cancel(),
  };
};

describe('the live stream', () => {
  test('greets with the time and the build, then tells of deliveries, bells and commits', async () => {
    const fake = fakeBoard();
    const answer = await fake.board.app.request('/live');
    expect(answer.headers.get('content-type')).toContain('text/event-stream');
    const page = reads(answer);
    expect(await page.event()).toEqual({
      event: 'hello',
      data: { now: START, build: expect.stringMatching(/^[0-9a-f]{12}$/) },
    });

    fake.now = START + 1000;
    const delivery = bellDelivery('Rig 1: flush now');
    expect(await fake.board.surface.deliver(delivery)).toEqual({ kind: 'sent' });
    expect(await page.event()).toEqual({ event: 'change', data: { now: START + 1000 } });
    expect(await page.event()).toEqual({
      event: 'bell',
      data: {
        now: START + 1000,
        id: `${delivery.shift} ${delivery.key} ${START}`,
        summary: 'Rig 1: flush now',
        crew: true,
      },
    });

    await fake.board.surface.deliver({ ...delivery, urgency: 'quiet' });
    expect((await page.event()).event).toBe('change');
    fake.board.changed();
    expect((await page.event()).event).toBe('change');
    await page.end();
  });

  test('one ring to several audiences has one id; the next ring of the same bell has another', async () => {
    const fake = fakeBoard();
    const page = reads(await fake.board.app.request('/live'));
    await page.event();
    const idOf = async (delivery: ReturnType<typeof bellDelivery>) => {
      await fake.board.surface.deliver(delivery);
      await page.event();
      return (await page.event()).data as { id: string; crew: boolean };
    };
    const crew = await idOf(bellDelivery('x'));
    const foreman = await idOf({
      ...bellDelivery('x'),
      id: 'other',
      audience: { kind: 'person', person: 'ada' },
    });
    const later = await idOf(bellDelivery('x', START + 240_000));
    expect(foreman.id).toBe(crew.id);
    expect([crew.crew, foreman.crew]).toEqual([true, false]);
    expect(later.id).not.toBe(crew.id);
    await page.end();
  });

  test('the board reaches everybody and counts as sent with no page open', async () => {
    const fake = fakeBoard();
    expect(fake.board.surface.name).toBe('board');
    if (fake.shift === null) throw new Error('no shift');
    expect(fake.board.surface.reaches({ kind: 'person', person: 'ada' }, fake.shift)).toBe(true);
    expect(await fake.board.surface.deliver(bellDelivery('x'))).toEqual({ kind: 'sent' });
  });

  test('forgets a page that has gone', async () => {
    const fake = fakeBoard();
    const page = reads(await fake.board.app.request('/live'));
    await page.event();
    await page.end();
    await fake.board.surface.deliver(bellDelivery('x'));
    expect(fake.logged.at(-1)?.details).toMatchObject({ pages: 0 });
  });

  test('ends for every page when the board stops, and takes no more', async () => {
    const fake = fakeBoard();
    const running = await fake.board.start({ port: 0 });
    const page = reads(await fetch(`${running.url}/live`));
    expect((await page.event()).event).toBe('hello');
    await running.stop();
    expect((await page.event()).event).toBe('end');
    expect((await fake.board.app.request('/live')).status).toBe(503);
  });
});

test('a page too slow to read gets one change, one beat and its last bells, newest kept', async () => {
  const live = createLive({ clock: { now: () => START }, build: 'b' });
  const got: LiveEvent[] = [];
  let gone = false;
  let wake = () => {};
  let free = () => {};
  const slow = new Promise<void>((resolve) => {
    free = resolve;
  });
  const served = live.serve(
    async (event) => {
      if (event.kind === 'hello') await slow;
      got.push(event);
    },
    () => gone,
    (on) => {
      wake = on;
    },
  );
  for (let turn = 0; turn < 50; turn += 1) {
    live.changed();
    live.beat();
    live.bell(`bell-${turn}`, 'x', true);
  }
  free();
  while (got.length < 23) await Promise.resolve();
  gone = true;
  wake();
  await served;
  const kinds = got.map(({ kind }) => kind);
  expect(kinds.filter((kind) => kind === 'change')).toHaveLength(1);
  expect(kinds.filter((kind) => kind === 'beat')).toHaveLength(1);
  const bells = got.flatMap((event) => (event.kind === 'bell' ? [event.id] : []));
  expect(bells).toHaveLength(20);
  expect(bells.at(-1)).toBe('bell-49');
  expect(live.pages()).toBe(0);
});
