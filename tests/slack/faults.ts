import { slackHands } from '../chats/slack-hands.ts';
import { wrongIn as wrongInChat } from '../chats/wrong.ts';
import type { Crew } from './crew.ts';

export { dayOf, lines, mustOnBoard, onBoard, playOnBoard, SHIFT, today } from '../chats/day.ts';

/** What is wrong with what stands in Slack, in words. Only for days in which nobody pressed anything in Slack. */
export const wrongIn = (crew: Crew, rings: 'all' | 'last' = 'all') => wrongInChat(slackHands(crew), rings);

/** How often the platform answered one of these methods with 429. */
export const turnedAway = (crew: Crew): number => slackHands(crew).turnedAway();
