// The sheet "order": what to order with where each quantity comes from, and what is cut from which roll.
import { html, nothing, render } from "../lit/lit-html.js";
import { show } from "../core/show.js";
import { table } from "../core/table.js";

const page = document.getElementById("order");
render(html`<div id="working"></div><div id="lists"></div>`, page);

function from(found, item) {
  const ids = found.from[item] ?? [];
  return html`<td>${ids.length ? html`<details><summary>${ids.length} ${ids.length === 1 ? "source" : "sources"}</summary><ul class="ids">${ids.map((id) => html`<li>${id}</li>`)}</ul></details>` : nothing}</td>`;
}

function draw(found) {
  render(html`
    ${table(found.order, "What to order, and what asks for it", (row) => from(found, row[0]))}
    ${found.cuts.map((sheet) => html`<section aria-label="Cuts of ${sheet.title}"><h2>Cut list: ${sheet.title}</h2><p>${sheet.note}</p>
      ${sheet.patterns.length ? html`<h3>The pattern</h3>${sheet.patterns.map(([where, words]) => html`<p><strong>${where}</strong> ${words}</p>`)}` : nothing}
      ${table(sheet.alike, "Rolls that are cut alike")}
      <details><summary>Every other roll</summary>${table(sheet.table, "What is cut from each roll, in order")}</details></section>`)}`,
  document.getElementById("lists"));
}

show("order", { place: document.getElementById("working"), draw });
