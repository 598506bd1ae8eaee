import type { Message } from '../../src/message/message.ts';
import { plainText } from '../../src/message/plain-text.ts';
import { commandSchema } from '../../src/model/command.ts';
import type { DayEntry } from '../../src/model/day-entry.ts';
import type { Shift } from '../../src/model/shift.ts';
import type { SitePack } from '../../src/model/site.ts';
import { clockTime, instantOf } from '../../src/model/time.ts';
import type { Store } from '../../src/ports.ts';
import type { TextsFor } from '../../src/texts/texts.ts';
import { shiftIdFor } from '../host/handle-command.ts';
import { createHost } from '../host/host.ts';
import type { Log } from '../host/log.ts';
import { handClock, passTime } from './hand-clock.ts';
import { terminalSurface } from './terminal-surface.ts';
import { demoDay } from './tour-script.ts';

/**
 * Play the demo day from prestart to record with a clock moved by hand, through the same door, loops and texts that
 * `potbell start` uses. Returns the finished shift; throws when the script is refused, so that it cannot rot unseen.
 */
export async function playTour(options: {
  readonly pack: SitePack;
  readonly entry: DayEntry;
  readonly textsFor: TextsFor;
  readonly store: Store;
  readonly log: Log;
  readonly write: (text: string) => void;
}): Promise<Shift> {
  const { pack, entry, textsFor, store, log, write } = options;
  const zone = pack.site.timeZone;
  const id = shiftIdFor(pack, entry.date);
  const clock = handClock(instantOf(entry.date, '06:30', zone));
  const names = new Map(pack.people.map((person) => [person.id, person.name]));
  const stamp = () => clockTime(clock.now(), zone);
  const heard = createHeard(write, stamp);
  const surface = terminalSurface(({ audience, key, message }, text) => {
    const to = audience.kind === 'crew' ? 'everybody' : (names.get(audience.person) ?? audience.person);
    heard.add(to, key, message, text);
  });
  let made = 0;
  const newId = () => {
    made += 1;
    return `tour-${made}`;
  };
  const host = createHost({ store, clock, textsFor, surfaces: [surface], log, newId, pack: () => pack });

  for (const { at, by, does } of demoDay(entry)) {
    await passTime(clock, store, host, instantOf(entry.date, at, zone), heard.flush);
    const input = does(await store.shift(id));
    if (!input) continue;
    const command = commandSchema.parse(input);
    write(`${stamp()}  ${names.get(by) ?? by}: ${command.type}`);
    const outcome = await host.handle({
      shift: id,
      command,
      actor: { kind: 'person', person: by, surface: 'terminal' },
      commandId: newId(),
    });
    const shown = plainText(outcome.shown);
    write(`${indent(shown)}\n`);
    if (!outcome.ok)
      throw new Error(`the tour was refused at ${at} (${command.type}): ${outcome.shown.summary}`);
    await host.outbox.drain();
    heard.flush(shown);
  }
  const shift = await store.shift(id);
  if (!shift) throw new Error('the tour made no shift');
  return shift;
}

/** Puts what several people heard at one moment under one heading, so that the day stays readable. */
function createHeard(write: (text: string) => void, stamp: () => string) {
  let waiting: { key: string; text: string; to: string[] }[] = [];
  const before = { briefing: false, signOff: false };
  /** What stands above word for word already, said shortly. */
  function again(key: string, said: Message): string | null {
    if (key.startsWith('sign-off:')) {
      if (before.signOff) return `${said.summary}\n  (the same cautions as above, to sign)`;
      before.signOff = true;
    }
    if (key.startsWith('briefing:')) {
      if (before.briefing)
        return plainText({ ...said, blocks: said.blocks.filter(({ kind }) => kind !== 'below') });
      before.briefing = true;
    }
    return null;
  }
  return {
    add(to: string, key: string, said: Message, text: string) {
      const same = waiting.find((one) => one.text === text);
      if (same) {
        same.to.push(to);
        return;
      }
      waiting.push({ key, to: [to], text: again(key, said) ?? text });
    },
    /** `shown`: what the one who pressed has just been shown; the same words to everybody are one line. */
    flush(shown?: string) {
      for (const { to, text } of waiting) {
        if (text === shown) write(`${stamp()}  the same to ${to.join(', ')}\n`);
        else write(`${stamp()}  to ${to.join(', ')}\n${indent(text)}\n`);
      }
      waiting = [];
    },
  };
}

function indent(text: string): string {
  return text.replaceAll(/^/gm, '       ');
}
