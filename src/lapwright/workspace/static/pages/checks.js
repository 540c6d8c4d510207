// The sheet "checks": every check with its verdict, by groups, what fails or is unknown first; each opens as a
// calculation sheet and has an address of its own: checks#wind.uplift-3.
import { html, nothing, render } from "../lit/lit-html.js";
import { repeat } from "../lit/directives/repeat.js";
import { job } from "../core/job.js";
import { show } from "../core/show.js";
import { table } from "../core/table.js";

const page = document.getElementById("checks");
render(html`<div id="working"></div><div id="sheets"></div>`, page);
const WORDS = { pass: "passed", fail: "failed", unknown: "unknown" };
const state = { only: "", words: "", found: null, open: new Set() };
const named = () => decodeURIComponent(location.hash.slice(1));

function sheet(check) {
  const row = (name, words) => (words ? html`<div><dt>${name}</dt><dd>${words}</dd></div>` : nothing);
  const isOpen = state.open.has(check.id);
  const toggle = (event) => { if (event.target.open !== state.open.has(check.id)) { state.open[event.target.open ? "add" : "delete"](check.id); redraw(); } };
  return html`<details id=${check.id} ?open=${isOpen} @toggle=${toggle}><summary><span class="status ${check.status}">${WORDS[check.status]}</span> ${check.title}</summary>
    ${isOpen ? html`<div class="calc"><dl>${row("asked", check.asked)}${row("given", check.given)}${row("to supply", check.fields.length ? html`<ul>${check.fields.map((each) => html`<li><a href=${`/jobs/${encodeURIComponent(job.name)}/describe#at=${encodeURIComponent(each.key)}`}>${each.words}</a></li>`)}</ul>` : "")}</dl>
    ${check.notes.map((note) => html`<p>${note}</p>`)}
    ${table(check.steps, `Steps: ${check.title}`)}
    <dl>${row("verdict", check.verdict)}${row("source", check.source)}${row("to be confirmed by", check.confirm)}${row("address", html`<a href="#${check.id}">${check.id}</a>`)}</dl></div>` : nothing}</details>`;
}

const isShown = (check) => (!state.only || check.status === state.only) && (!state.words || `${check.title} ${check.id}`.toLowerCase().includes(state.words.toLowerCase()));

function tally(checks) {
  const count = (status) => checks.filter((check) => check.status === status).length;
  return ["fail", "unknown", "pass"].filter(count).map((status) => `${count(status)} ${WORDS[status]}`).join(", ");
}

function group(one) {
  const shown = one.checks.filter(isShown);
  if (!shown.length) return nothing;
  const toggle = () => { const all = shown.every((check) => state.open.has(check.id)); for (const check of shown) state.open[all ? "delete" : "add"](check.id); redraw(); };
  return html`<section class="list" aria-label=${one.name}><h2>${one.name} <span class="hint">${tally(one.checks)}</span> <button type="button" class="no-print" @click=${toggle}>open or fold all</button></h2>${repeat(shown, (check) => check.id, sheet)}</section>`;
}

function redraw() {
  const { groups, rules, notes } = state.found;
  const checks = groups.flatMap((one) => one.checks);
  const pick = (status, words) => html`<button type="button" aria-pressed=${state.only === status ? "true" : "false"} @click=${() => { state.only = status; redraw(); }}>${words}</button>`;
  const count = (status) => checks.filter((check) => check.status === status).length;
  render(html`
    <div class="pickers no-print"><p role="group" aria-label="Which checks">${pick("", `all ${checks.length}`)} ${["fail", "unknown", "pass"].map((status) => html`${pick(status, `${count(status)} ${WORDS[status]}`)} `)}</p>
      <p class="field"><label for="words">Only those with the words</label><input id="words" type="search" autocomplete="off" .value=${state.words} @input=${(event) => { state.words = event.target.value; redraw(); }}></p></div>
    <p class="hidden-words" role="status">${checks.filter(isShown).length} shown</p>
    ${checks.some(isShown) ? groups.map(group) : html`<p>There is none.</p>`}
    <details><summary>Rules and rates in force</summary>${table(rules.table, "Rules, with their origin")}</details>
    <details><summary>What was mended and assumed</summary>${notes.weather.map((words) => html`<p>${words}</p>`)}${table(notes.mended, "Mended on the way in")}</details>`,
  document.getElementById("sheets"));
}

// The check of the address: shown, open, in sight, its verdict the place of the keyboard.
function goTo() {
  const check = state.found?.groups.flatMap((one) => one.checks).find((each) => each.id === named());
  if (!check) return;
  if (!isShown(check)) Object.assign(state, { only: "", words: "" });
  state.open.add(check.id);
  redraw();
  const place = document.getElementById(check.id);
  place.scrollIntoView({ block: "start" });
  place.querySelector("summary").focus({ preventScroll: true });
}

function draw(found) {
  const isFirst = state.found === null;
  state.found = found;
  if (isFirst && named() in WORDS) state.only = named();
  redraw();
  if (isFirst) goTo();
}

window.addEventListener("hashchange", goTo);
show("checks", { place: document.getElementById("working"), draw });
