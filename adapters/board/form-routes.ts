import type { Hono } from 'hono';
import { html } from 'hono/html';
import type { FormContext } from '../../src/forms/forms.ts';
import type { FormRef } from '../../src/message/action.ts';
import type { FieldProblem, Form, FormValues } from '../../src/message/form.ts';
import type { Message } from '../../src/message/message.ts';
import { type CommandInput, commandSchema } from '../../src/model/command.ts';
import { answerStill, answerWords } from './answer.ts';
import { type BoardFields, readFormRef, readPosted, shapeValues } from './inbound.ts';
import { localPath } from './local-path.ts';
import { type BoardContext, type BoardParts, look, type View, viewOf } from './parts.ts';
import { takePress } from './press.ts';
import { answerPress, visitOf } from './press-answer.ts';
import { type FormState, freshForm, renderForm } from './render-form.ts';
import { formPath } from './render-html.ts';
import { renderMessage } from './render-message.ts';
import type { BoardEnv } from './services.ts';

/** Anyone may stop the work; every other form is somebody's. */
const needsName = (ref: FormRef): boolean => ref.id !== 'stop-work';

export function formRoutes(app: Hono<BoardEnv>, parts: BoardParts): void {
  app.get('/form/:id', async (c) => {
    const view = await look(parts, c);
    const ref = readFormRef(c);
    if (ref === null) {
      return answerWords(parts, c, view, 404, view.words.notFoundTitle, view.words.notFoundText);
    }
    const back = localPath(c.req.query('_back')) ?? '/';
    if (view.viewer === null && needsName(ref)) {
      return c.redirect(`/login?${new URLSearchParams({ next: formPath(ref, back) })}`, 303);
    }
    const built = parts.services.buildForm(ref, await formContext(parts, view));
    if (!built.ok) return answerMessage(parts, c, view, built.shown, back);
    return answerForm(parts, c, view, built.form, back, 200, freshForm);
  });

  app.post('/form/:id', async (c) => {
    const ref = readFormRef(c);
    const posted = await readPosted(c);
    if (ref === null || posted === null) {
      const view = await look(parts, c);
      return answerWords(parts, c, view, 400, view.words.oldButtonTitle, view.words.oldButtonText);
    }
    return takeForm(parts, c, ref, posted.values, posted.board);
  });
}

/** Take a filled form, or show it again with all that was typed and what to mend. */
export async function takeForm(
  parts: BoardParts,
  c: BoardContext,
  ref: FormRef,
  raw: FormValues,
  board: BoardFields,
): Promise<Response> {
  const { services, visits } = parts;
  const pending = { kind: 'form', ref, values: raw, press: board } as const;
  if ((c.get('visit')?.person ?? null) === null && needsName(ref)) {
    const held = visits.wait(visitOf(parts, c), pending);
    return c.redirect(`/login?${new URLSearchParams({ held, next: formPath(ref, board.back) })}`, 303);
  }
  const shift =
    board.shift === null ? await services.currentShift() : await services.store.shift(board.shift);
  const view = viewOf(parts, c.get('visit'), shift);
  if (board.shift !== null && shift === null) {
    return answerWords(parts, c, view, 400, view.words.oldButtonTitle, view.words.oldButtonText);
  }
  const context = await formContext(parts, view);
  const built = services.buildForm(ref, context, raw);
  if (!built.ok) return answerMessage(parts, c, view, built.shown, board.back);

  const typed = shapeValues(built.form.fields, raw);
  const again = (status: 409 | 422, problems: readonly FieldProblem[], refusal: Message | null) =>
    answerForm(parts, c, view, built.form, board.back, status, { typed, problems, refusal });
  const read = services.readForm(ref, typed, context);
  if (!read.ok) return again(422, read.problems, null);
  const parsed = parseCommand(read.command, built.form);
  if (!parsed.ok) return again(422, parsed.problems, null);

  const press = { ...board, command: parsed.command };
  return answerPress(parts, c, await takePress(parts, c.get('visit'), press), {
    pending,
    press,
    refused: async (outcome) => again(409, [], outcome.shown),
  });
}

async function formContext({ services }: BoardParts, view: View): Promise<FormContext> {
  const { pack, shift, now, texts, viewer } = view;
  return { pack, shift, previous: await services.previousShift(), now, texts, viewer };
}

function answerForm(
  parts: BoardParts,
  c: BoardContext,
  view: View,
  form: Form,
  back: string,
  status: 200 | 409 | 422,
  state: FormState,
) {
  const body = renderForm(form, state, view.render(back));
  return answerStill(parts, c, view, { status, title: form.title, path: formPath(form, back), body });
}

function answerMessage(parts: BoardParts, c: BoardContext, view: View, shown: Message, back: string) {
  const body = html`${renderMessage(shown, 'shown', view.render(back))}<p class="buttons"><a class="button" href="${back}">${view.words.formBack}</a></p>`;
  return answerStill(parts, c, view, { status: 409, title: shown.summary, path: back, body });
}

/** The last check before the one door. A problem is put beside its field when the field can be found. */
function parseCommand(input: CommandInput, form: Form) {
  const parsed = commandSchema.safeParse(input);
  if (parsed.success) return { ok: true, command: parsed.data } as const;
  const names = new Set(form.fields.map((field) => field.name));
  const problems = parsed.error.issues.map(({ path, message }): FieldProblem => {
    const whole = path.map(String);
    const field = [whole.join('.'), whole.slice(1).join('.'), whole[0] ?? ''].find((name) => names.has(name));
    return field === undefined
      ? { field: '', message: `${whole.join('.')}: ${message}` }
      : { field, message };
  });
  return { ok: false, problems } as const;
}
