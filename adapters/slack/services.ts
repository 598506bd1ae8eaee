import type { ChatServices } from '../chat/services.ts';

export type SlackServices = ChatServices;

/** The name by which deliveries, actors and memory know this surface. */
export const SLACK = 'slack';
