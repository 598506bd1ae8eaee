/** auth.test, bots.info, users.*, usergroups.users.list, apps.connections.open. */
import { userShape } from '../wire.ts';
import { type Method, need, page, Refused } from './method.ts';

const authTest: Method = ({ space, origin }) => ({
  url: `${origin()}/`,
  team: space.bot.teamDomain,
  user: space.bot.name,
  team_id: space.bot.teamId,
  user_id: space.bot.userId,
  bot_id: space.bot.botId,
  is_enterprise_install: false,
});

const botsInfo: Method = ({ space }, args) => {
  const { botId, appId, userId, name } = space.bot;
  if (args.bot !== undefined && args.bot !== botId) throw new Refused('bot_not_found');
  return { bot: { id: botId, deleted: false, name, app_id: appId, user_id: userId } };
};

const usersInfo: Method = ({ space }, args) => {
  const user = space.users.get(need(args, 'user'));
  if (user === undefined) throw new Refused('user_not_found');
  return { user: userShape(space, user) };
};

const usersList: Method = ({ space }, args) => {
  const { items, next } = page([...space.users.values()], args, 1000);
  return { members: items.map((user) => userShape(space, user)), response_metadata: { next_cursor: next } };
};

const usergroupUsers: Method = ({ space }, args) => {
  const wanted = need(args, 'usergroup');
  if (space.freePlan) throw new Refused('plan_upgrade_required');
  const group = space.usergroups.get(wanted);
  if (group === undefined) throw new Refused('no_such_subteam');
  return { users: [...group.users] };
};

const connect: Method = ({ socketUrl }) => ({ url: socketUrl() });

export const PEOPLE: { readonly [method: string]: Method } = {
  'auth.test': authTest,
  'bots.info': botsInfo,
  'users.info': usersInfo,
  'users.list': usersList,
  'usergroups.users.list': usergroupUsers,
  'apps.connections.open': connect,
};
