// The hours of one day by operation: open clear, warm dotted, heat hatched, shut solid, each with its word.
import { html, nothing } from "../lit/lit-html.js";
import { glue } from "../core/glue.js";

const WORDS = [["open", "as usual"], ["warm", "from warm rolls"], ["heat", "warm rolls, laps welded"], ["shut", "shut"]];

export function strip(found) {
  if (!found) return nothing;
  const hours = [...Array(found.to - found.from).keys()].map((k) => found.from + k);
  const at = (runs, hour) => { let from = 0; for (const [state, long] of runs) { if (hour < from + long) return state; from += long; } return "shut"; };
  return html`<div class="scroll" tabindex="0" role="region" aria-label="Hours of the day"><table class="strip"><caption>Hours of the day</caption><thead><tr><th scope="col">Operation</th>${hours.map((hour) => html`<th scope="col">${hour}</th>`)}<th scope="col">In words</th></tr></thead>
    <tbody>${found.rows.map((row) => html`<tr><th scope="row">${row.name}</th>${hours.map((hour) => html`<td class="state ${at(row.runs, hour)}"><span class="hidden-words">${at(row.runs, hour)}</span></td>`)}<td>${row.words}</td></tr>`)}</tbody></table></div>
    <p class="key" aria-hidden="true">${WORDS.map(([state, words]) => html`<span class="state ${state}"></span> ${words} `)}</p>
    ${found.why.map((words) => html`<p class="hint">${glue(words)}</p>`)}<p>${found.measure}</p>`;
}
