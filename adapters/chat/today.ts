import type { Message } from '../../src/message/message.ts';
import { glance } from '../../src/views/glance.ts';
import { unknownPerson } from '../chat/refused.ts';
import type { Visit } from '../chat/visit.ts';
import type { TeamsServices } from './services.ts';

/** Today as one person sees it now. */
export function todayMessage(services: Pick<TeamsServices, 'pack' | 'clock'>, visit: Visit): Message {
  const { person, shift, texts } = visit;
  if (person === null) return unknownPerson(visit);
  return glance({ pack: services.pack(), shift, now: services.clock.now(), texts, viewer: person.id });
}
