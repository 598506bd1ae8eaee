import type { Hono } from 'hono';
import { bodyLimit } from 'hono/body-limit';
import { deleteCookie, getCookie, setCookie } from 'hono/cookie';
import { csrf } from 'hono/csrf';
import { HTTPException } from 'hono/http-exception';
import { secureHeaders } from 'hono/secure-headers';
import { StoreDamaged } from '../../src/ports.ts';
import { answerWords } from './answer.ts';
import { onlyUnder } from './host-names.ts';
import { type BoardParts, look, viewOf } from './parts.ts';
import type { BoardEnv } from './services.ts';
import { fill } from './words.ts';

const COOKIE = 'potbell_visit';
const MOST_BYTES = 64 * 1024;

/** Requests a page makes by itself. They must not keep a log-in alive on a screen somebody left. */
const byItself = (path: string, auto: string | undefined) =>
  auto === '1' || /^\/(fragment\/|live$|healthz$|assets\/)/.test(path);

/** What stands in front of every route. */
export function securityRoutes(app: Hono<BoardEnv>, parts: BoardParts): void {
  app.use(
    secureHeaders({
      contentSecurityPolicy: {
        defaultSrc: ["'none'"],
        scriptSrc: ["'self'"],
        styleSrc: ["'self'"],
        imgSrc: ["'self'"],
        connectSrc: ["'self'"],
        formAction: ["'self'"],
        baseUri: ["'none'"],
        frameAncestors: ["'none'"],
      },
      // `no-referrer` would make browsers send `Origin: null` with our own forms, and every press from a phone on
      // plain http would be refused as foreign.
      referrerPolicy: 'same-origin',
      xFrameOptions: 'DENY',
      strictTransportSecurity: false,
      overwrite: false,
    }),
  );

  const site = () => {
    const { words, texts } = viewOf(parts, null, null);
    return { words, language: texts.language };
  };
  app.use(onlyUnder(parts.hosts, parts.services.log, site));

  app.use(async (c, next) => {
    const token = getCookie(c, COOKIE);
    c.set('visit', parts.visits.find(token, !byItself(c.req.path, c.req.query('_auto'))));
    await next();
    if (!c.res.headers.has('Cache-Control')) c.header('Cache-Control', 'no-store');
    const visit = c.get('visit');
    const secure = new URL(c.req.url).protocol === 'https:';
    if (visit !== null && visit.token !== token) {
      setCookie(c, COOKIE, visit.token, { path: '/', httpOnly: true, sameSite: 'Strict', secure });
    } else if (visit === null && token !== undefined) {
      deleteCookie(c, COOKIE, { path: '/', httpOnly: true, sameSite: 'Strict', secure });
    }
  });

  app.use(csrf());
  app.use(
    bodyLimit({
      maxSize: MOST_BYTES,
      onError: async (c) => {
        const view = await look(parts, c);
        return answerWords(parts, c, view, 413, view.words.tooLargeTitle, view.words.tooLargeText);
      },
    }),
  );

  app.notFound(async (c) => {
    const view = await look(parts, c);
    return answerWords(parts, c, view, 404, view.words.notFoundTitle, view.words.notFoundText);
  });

  app.onError((error, c) => {
    const { services } = parts;
    // With the shift perhaps unreadable, the answer is made without it.
    const view = viewOf(parts, c.get('visit') ?? null, null);
    const { words } = view;
    if (error instanceof HTTPException && error.status === 403) {
      services.log.warn(
        { path: c.req.path, origin: c.req.header('origin') ?? null },
        'a press from a foreign page was refused',
      );
      return answerWords(parts, c, view, 403, words.foreignTitle, words.foreignText);
    }
    const ref = services.newId();
    services.log.error({ err: error, ref, path: c.req.path }, 'the board could not answer');
    const text = fill(words.brokenText, { ref });
    try {
      return error instanceof StoreDamaged
        ? answerWords(parts, c, view, 500, words.damagedTitle, error.message)
        : answerWords(parts, c, view, 500, words.brokenTitle, text);
    } catch (second) {
      services.log.error({ err: second, ref }, 'the board could not even say so on a page');
      return c.text(text, 500);
    }
  });
}
