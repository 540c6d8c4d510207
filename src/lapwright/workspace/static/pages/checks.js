// The sheet "checks": every check with its verdict; each opens as a calculation sheet.
import { html, nothing, render } from "../lit/lit-html.js";
import { show } from "../core/show.js";
import { table } from "../core/table.js";

const page = document.getElementById("checks");
render(html`<div id="working"></div><div id="sheets"></div>`, page);
const WORDS = { pass: "passed", fail: "failed", unknown: "unknown" };
const state = { only: location.hash.slice(1) in WORDS ? location.hash.slice(1) : "", found: null };

function sheet(check) {
  const row = (name, words) => (words ? html`<div><dt>${name}</dt><dd>${words}</dd></div>` : nothing);
  return html`<details id=${check.id}><summary><span class="status ${check.status}">${WORDS[check.status]}</span> ${check.title}</summary>
    <div class="calc"><dl>${row("asked", check.asked)}${row("given", check.given)}${row("to supply", check.supply)}</dl>
    ${check.notes.map((note) => html`<p>${note}</p>`)}
    ${table(check.steps, "Steps of the calculation")}
    <dl>${row("verdict", check.verdict)}${row("source", check.source)}${row("to be confirmed by", check.confirm)}${row("id", check.id)}</dl></div></details>`;
}

function redraw() {
  const { checks, rules, notes } = state.found;
  const count = (status) => checks.filter((check) => check.status === status).length;
  const pick = (status, words) => html`<button type="button" aria-pressed=${state.only === status ? "true" : "false"} @click=${() => { state.only = status; redraw(); }}>${words}</button>`;
  const shown = checks.filter((check) => !state.only || check.status === state.only);
  render(html`
    <p role="group" aria-label="Which checks">${pick("", `all ${checks.length}`)} ${Object.keys(WORDS).map((status) => html`${pick(status, `${count(status)} ${WORDS[status]}`)} `)}</p>
    <div class="list">${shown.length ? shown.map(sheet) : html`<p>There is none.</p>`}</div>
    <details><summary>Rules and rates in force</summary>${table(rules.table, "Rules, with their origin")}</details>
    <details><summary>What was mended and assumed</summary>${notes.weather.map((words) => html`<p>${words}</p>`)}${table(notes.mended, "Mended on the way in")}</details>`,
  document.getElementById("sheets"));
}

show("checks", { place: document.getElementById("working"), draw: (found) => { state.found = found; redraw(); } });
