import type { ChatServices } from '../chat/services.ts';

export type TeamsServices = ChatServices;

/** The name by which deliveries, actors and memory know this surface. */
export const TEAMS = 'teams';
