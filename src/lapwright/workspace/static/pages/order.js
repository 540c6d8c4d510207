// The sheet "order": what to order with where each quantity comes from, sums, and what is cut from which roll.
import { html, nothing, render } from "../lit/lit-html.js";
import { job } from "../core/job.js";
import { show } from "../core/show.js";
import { table } from "../core/table.js";

const page = document.getElementById("order");
render(html`<div id="working"></div><div id="lists"></div>`, page);
const open = new Set();
let found = null;

const roof = (id) => `/jobs/${encodeURIComponent(job.name)}/roof#${encodeURIComponent(id)}`;

function ids(one) {
  return html`<h3>${one.words} <span class="hint">${one.ids.length}</span></h3><ul class="ids">${one.ids.map(([id, isShown]) => html`<li>${isShown ? html`<a href=${roof(id)}>${id}</a>` : id}</li>`)}</ul>`;
}

// What asks for an item; written out only while it is open, since there may be thousands.
function sources(row) {
  const item = row[0], groups = found.from[item] ?? [];
  const count = groups.reduce((sum, one) => sum + one.ids.length, 0);
  if (!count) return html`<td class="asked"></td>`;
  const press = () => { open[open.has(item) ? "delete" : "add"](item); draw(found); };
  return html`<td class="asked"><button type="button" aria-expanded=${open.has(item) ? "true" : "false"} aria-label="What asks for ${item}: ${count}" @click=${press}>${count}</button></td>`;
}

function under(row) {
  return open.has(row[0]) ? html`<tr class="under"><td colspan=${row.length + 1}><section aria-label="What asks for ${row[0]}">${(found.from[row[0]] ?? []).map(ids)}</section></td></tr>` : nothing;
}

function sums() {
  return found.sums.length ? html`<h2>Costs by kind</h2><table class="sums"><caption class="hidden-words">Costs by kind</caption><thead><tr><th scope="col">Kind</th><th scope="col" class="number">Cost</th><th scope="col">To know</th></tr></thead>
    <tbody>${found.sums.map(([kind, cost, said], k) => html`<tr class=${k === found.sums.length - 1 ? "bold start" : ""}><th scope="row">${kind}</th><td class="number">${cost}</td><td>${said}</td></tr>`)}</tbody></table>` : html`<p class="hint">No price is given, so nothing is summed. <a href="/jobs/${encodeURIComponent(job.name)}/describe">Give prices</a></p>`;
}

function cuts(sheet) {
  return html`<section aria-label="Cuts of ${sheet.title}"><h2>Cut list: ${sheet.title}</h2><p>${sheet.note}</p>
    ${sheet.patterns.length ? html`<h3>The pattern</h3>${sheet.patterns.map(([where, words]) => html`<p><strong>${where}</strong> ${words}</p>`)}` : nothing}
    ${table(sheet.alike, `Rolls of ${sheet.title} that are cut alike`)}
    ${sheet.table.rows.length ? html`<details><summary>${sheet.alike.rows.length ? "Every other roll" : "Every roll"} (${sheet.table.rows.length})</summary>${table(sheet.table, `What is cut from each roll of ${sheet.title}, in order`)}</details>` : nothing}</section>`;
}

function draw(value) {
  found = value;
  render(html`
    <p class="no-print"><button type="button" @click=${() => window.print()}>Print the order</button> <a href="/jobs/${encodeURIComponent(job.name)}/packet">as a file to send: order.xlsx in the packet</a></p>
    <h2>What to order</h2>${table(found.order, "Each item, how it was counted, and what asks for it", { head: "Asked for by", side: "asked", cell: sources, under })}
    ${sums()}${found.cuts.map(cuts)}`, document.getElementById("lists"));
}

show("order", { place: document.getElementById("working"), draw });
