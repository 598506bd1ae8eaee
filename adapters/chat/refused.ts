import type { Message } from '../../src/message/message.ts';
import type { Command } from '../../src/model/command.ts';
import { alwaysThere } from '../../src/views/glance.ts';
import { words } from './messages.ts';
import type { Asked, Visit } from './visit.ts';

/** What the door said, or why it was not asked. */
export function answerTo(visit: Visit, command: Command, asked: Asked): Message {
  if (asked.shown !== null) return asked.shown;
  const { texts } = visit;
  switch (asked.why) {
    case 'unknown':
      return unknownPerson(visit);
    case 'no-shift':
      return words(
        'attention',
        texts.say('board.noShiftTitle'),
        texts.say(command.type === 'stop-work' ? 'board.stopNoShift' : 'board.noShiftText'),
      );
  }
}

/** For a button or sheet of a day that is over, or one that is not ours. */
export function oldButton({ texts }: Pick<Visit, 'texts'>): Message {
  return words('attention', texts.say('board.oldButtonTitle'), texts.say('talk.old-button'));
}

/** A kind answer to somebody nobody has put into the pack, with what the foreman needs. */
export function unknownPerson({ member, texts }: Visit): Message {
  const said = words(
    'attention',
    texts.say('talk.unknown-person', { member }),
    texts.say('talk.unknown-may'),
  );
  return { ...said, blocks: [...said.blocks, ...alwaysThere(texts)] };
}
