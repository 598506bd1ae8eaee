import type { Hono } from 'hono';
import type { Person } from '../../src/model/site.ts';
import { clockTime } from '../../src/model/time.ts';
import { answerStill } from './answer.ts';
import { doPress } from './do-routes.ts';
import { takeForm } from './form-routes.ts';
import { localPath } from './local-path.ts';
import { type Onward, pinTitle, renderNames, renderPin } from './login-page.ts';
import { isolated } from './own-words.ts';
import { type BoardContext, type BoardParts, look, type View } from './parts.ts';
import type { BoardEnv, PinTry } from './services.ts';
import { fill } from './words.ts';

export function loginRoutes(app: Hono<BoardEnv>, parts: BoardParts): void {
  app.get('/login', async (c) => {
    const view = await look(parts, c);
    const onward = readOnward(c.req.query());
    const who = c.req.query('who');
    const person = personCalled(view, who);
    if (person === undefined) {
      return answerNames(parts, c, view, onward, who === undefined ? null : view.words.unknownPerson);
    }
    return answerPin(parts, c, view, person, onward, null, 200);
  });

  app.post('/login', async (c) => {
    const body = await c.req.parseBody();
    const field = (name: string) => (typeof body[name] === 'string' ? body[name] : '');
    const view = await look(parts, c);
    const onward = readOnward({ held: field('held'), next: field('next') });
    const person = personCalled(view, field('who'));
    if (person === undefined) return answerNames(parts, c, view, onward, view.words.unknownPerson);

    const pin = field('pin').trim();
    if (!/^\d{1,12}$/.test(pin)) return answerPin(parts, c, view, person, onward, view.words.pinMissing, 422);
    const attempt = parts.services.attempts.begin(person.id);
    if (attempt.kind === 'unknown') return answerNames(parts, c, view, onward, view.words.unknownPerson);
    if (attempt.kind === 'wait') {
      return answerPin(parts, c, view, person, onward, waitWords(view, person, attempt), 429);
    }
    if (!(await parts.services.checkPin(person.id, pin))) {
      parts.services.log.warn({ person: person.id, triesLeft: attempt.left }, 'wrong PIN on the board');
      return answerPin(
        parts,
        c,
        view,
        person,
        onward,
        fill(view.words.pinWrong, { left: attempt.left }),
        422,
      );
    }
    attempt.right();
    const visit = parts.visits.logIn(c.get('visit'), person.id);
    c.set('visit', visit);

    const waiting = parts.visits.takeWaiting(visit, onward.held);
    if (waiting === null) return c.redirect(onward.next, 303);
    return waiting.kind === 'do'
      ? doPress(parts, c, waiting.press)
      : takeForm(parts, c, waiting.ref, waiting.values, waiting.press);
  });

  app.post('/logout', (c) => {
    const visit = c.get('visit');
    if (visit !== null) parts.visits.logOut(visit);
    c.set('visit', null);
    return c.redirect('/', 303);
  });
}

function readOnward(query: Readonly<Record<string, string>>): Onward {
  const next = localPath(query.next);
  const held = query.held ?? '';
  return {
    held: /^[\w-]{1,40}$/.test(held) ? held : '',
    next: next === null || next.startsWith('/log') ? '/' : next,
  };
}

function personCalled(view: View, id: string | undefined): Person | undefined {
  return view.pack.people.find((person) => person.id === id);
}

function answerNames(parts: BoardParts, c: BoardContext, view: View, onward: Onward, problem: string | null) {
  return answerStill(parts, c, view, {
    status: problem === null ? 200 : 422,
    title: view.words.chooseName,
    path: onward.next,
    body: renderNames(view, onward, problem),
  });
}

function answerPin(
  parts: BoardParts,
  c: BoardContext,
  view: View,
  person: Person,
  onward: Onward,
  problem: string | null,
  status: 200 | 422 | 429,
) {
  const waiting = parts.visits.waiting(c.get('visit'), onward.held);
  const signs = waiting?.kind === 'do' && waiting.press.command.type === 'sign';
  const why = waiting === null ? '' : signs ? view.words.pinWhySign : view.words.pinWhyAct;
  return answerStill(parts, c, view, {
    status,
    title: pinTitle(view, person),
    path: onward.next,
    body: renderPin(view, person, onward, why, problem),
  });
}

function waitWords(view: View, person: Person, { who, until }: PinTry & { kind: 'wait' }): string {
  // The minute is rounded up: at the time we name it must really be open again.
  const time = clockTime(until + 59_999, view.zone);
  return who === 'board'
    ? fill(view.words.pinLockedAll, { time })
    : fill(view.words.pinLocked, { name: isolated(person.name), time });
}
