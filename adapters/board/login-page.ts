import { html } from 'hono/html';
import type { Person } from '../../src/model/site.ts';
import { toneIcons } from './icons.ts';
import { isolated } from './own-words.ts';
import type { View } from './parts.ts';
import type { Html } from './render-html.ts';
import { fill } from './words.ts';

/** Where a log-in leads: a press that waits, and the path for when none does. */
export interface Onward {
  readonly held: string;
  readonly next: string;
}

/** Everybody on the site as tiles. */
export function renderNames(view: View, onward: Onward, problem: string | null): Html {
  const tile = (person: Person) =>
    html`<li><a class="button name" href="/login?${new URLSearchParams({ who: person.id, ...onward })}"><bdi>${person.name}</bdi></a></li>`;
  return html`${problemNote(problem)}<p class="lead">${onward.held === '' ? view.words.chooseNameHint : view.words.pinWhyAct}</p><ul class="names">${view.pack.people.map(tile)}</ul>`;
}

const digits = ['1', '2', '3', '4', '5', '6', '7', '8', '9', '', '0'] as const;

/** One person's PIN. The digit pad is for a touch screen without a keyboard and comes with the page's script. */
export function renderPin(
  view: View,
  person: Person,
  onward: Onward,
  why: string,
  problem: string | null,
): Html {
  const { words } = view;
  const names = `/login?${new URLSearchParams({ ...onward })}`;
  const invalid = problem === null ? '' : html` aria-invalid="true" aria-describedby="pin-problem"`;
  return html`<form class="sheet pin-sheet" method="post" action="/login" novalidate>
<input type="hidden" name="who" value="${person.id}" /><input type="hidden" name="held" value="${onward.held}" /><input type="hidden" name="next" value="${onward.next}" />
${why === '' ? '' : html`<p class="lead">${why}</p>`}
${problemNote(problem)}
<div class="field"><label for="pin">${words.pin}</label><input id="pin" name="pin" type="password" inputmode="numeric" autocomplete="off" maxlength="12" required autofocus${invalid} /></div>
<div class="keypad" id="keypad" role="group" aria-label="${words.keypad}" hidden>${digits.map((digit) => (digit === '' ? html`<button type="button" class="button" data-digit="erase" aria-label="${words.erase}">⌫</button>` : html`<button type="button" class="button" data-digit="${digit}">${digit}</button>`))}<button class="button" data-tone="main">${words.pinSend}</button></div>
<div class="buttons"><button class="button" id="pin-send" data-tone="main">${words.pinSend}</button><a class="button" href="${names}">${words.otherName}</a></div>
</form>`;
}

export function pinTitle(view: View, person: Person): string {
  return fill(view.words.pinFor, { name: isolated(person.name) });
}

function problemNote(problem: string | null): Html | '' {
  return problem === null
    ? ''
    : html`<p class="problem" id="pin-problem" role="alert">${toneIcons.danger}<span>${problem}</span></p>`;
}
