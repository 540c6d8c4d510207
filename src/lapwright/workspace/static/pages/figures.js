// The sheet "figures": one calculation by itself as a form, its answer with curve, steps and source.
import { html, nothing, render } from "../lit/lit-html.js";
import { get } from "../core/api.js";
import { job, on } from "../core/job.js";
import { tellRefusal } from "../core/show.js";
import { curve } from "../figures/curve.js";
import { fields } from "../figures/form.js";

const page = document.getElementById("figures");
render(html`<nav id="which" aria-label="Figures"></nav><div class="pair"><form id="form" novalidate></form><section id="answer" aria-label="What comes of it"></section></div><p id="heard" class="hidden-words" role="status"></p>`, page);
const at = (id) => document.getElementById(id);
const state = { units: job.units, forms: [], own: {}, name: "", set: 0, values: {}, wrong: {}, timer: 0, asked: 0, hands: 0 };

const form = () => state.forms.find((each) => each.name === state.name);
const sets = () => state.own[state.name] ?? [];

function which() {
  render(html`${state.forms.map((each) => html`<a href="#${each.name}" aria-current=${each.name === state.name ? "true" : nothing}>${each.name}</a>`)}`, at("which"));
}

function start(values) {
  state.values = { ...values };
  state.wrong = {};
  draw();
  if (isWhole()) ask();
  else render(html`<p class="hint">Fill in the fields; the answer stands here as soon as it can be reckoned.</p>`, at("answer"));
}

const isWhole = () => form().options.every((option) => !option.is_needed || state.values[option.name]);

function put(name, text) {
  state.hands += 1;
  if (text === undefined) delete state.values[name];
  else state.values[name] = text;
  clearTimeout(state.timer);
  if (isWhole()) state.timer = setTimeout(ask, 250);
}

function draw() {
  const one = form(), own = sets().filter((each) => Object.keys(each.values).length);
  const pick = (event) => { state.set = Number(event.target.value); start(own[state.set]?.values ?? {}); };
  render(html`<h2>${one.title}</h2>
    <p class="sources">${own.length > 1 ? html`<label for="set">Values of</label> <select id="set" @change=${pick}>${own.map((each, k) => html`<option value=${k} ?selected=${k === state.set}>${each.name}</option>`)}</select>`
      : own.length ? html`<span class="hint">Filled with the job's own values${own[0].name ? html`: ${own[0].name}` : nothing}.</span>` : nothing}
      <button type="button" @click=${() => { state.hands += 1; start(one.example); }}>Fill in an example</button>
      ${job.name ? nothing : html`<label for="units">Units</label> <select id="units" @change=${(event) => { state.units = event.target.value; load(); }}><option value="us" ?selected=${state.units === "us"}>feet and inches, °F</option><option value="metric" ?selected=${state.units === "metric"}>metres, °C</option></select>`}</p>
    <div class="grid">${fields(one, state.values, state.wrong, put)}</div><p><button class="main">Reckon it</button></p>`, at("form"));
}

async function ask() {
  const mine = (state.asked += 1), name = state.name;
  const query = new URLSearchParams({ units: state.units });
  for (const [option, text] of Object.entries(state.values)) if (text !== "") query.set(option, text);
  try {
    const found = await get(`/api/figures/${name}?${query}`);
    if (mine !== state.asked) return;
    state.wrong = {};
    draw();
    answer(found);
  } catch (refusal) {
    if (mine !== state.asked) return;
    if (!refusal.faults.length) return tellRefusal(at("answer"), refusal, ask);
    state.wrong = Object.fromEntries(refusal.faults.map((fault) => [fault.key, fault]));
    draw();
    const rest = refusal.faults.filter((fault) => !form().options.some((option) => option.name === fault.key));
    render(html`<p class="notice" role="alert">${refusal.faults.length === 1 ? "One field" : `${refusal.faults.length} fields`} can't be used: see there.</p>${rest.map((fault) => html`<p>${fault.key}: needs ${fault.needs}</p>`)}`, at("answer"));
  }
}

function answer(found) {
  at("heard").textContent = found.shown.slice(0, 4).map((row) => row.join(" ")).join("; ");
  render(html`<h2>What comes of it</h2>
    <table class="results"><caption>Results</caption><tbody>${found.shown.map(([text, words]) => html`<tr><th scope="row">${text}</th><td>${words}</td></tr>`)}</tbody></table>
    ${curve(found.curve)}<p class="caution">${form().caution}</p>
    <details><summary>Steps (SI)</summary><ol>${found.steps.map((step) => html`<li>${step.text}${step.said ? html`<br><code>${step.said}</code>` : nothing}${step.put ? html`<br><span class="hint">with ${step.put}</span>` : nothing}</li>`)}</ol></details>
    <details><summary>What was put in</summary><table><caption>What was put in, as it was understood</caption><tbody>${found.put_in.map(([text, words]) => html`<tr><th scope="row">${text}</th><td>${words}</td></tr>`)}</tbody></table></details>
    <p class="hint">Source: ${found.source}</p>`, at("answer"));
}

function go() {
  const name = location.hash.slice(1);
  state.name = state.forms.some((each) => each.name === name) ? name : state.forms[0].name;
  state.set = 0;
  which();
  start(sets().find((each) => Object.keys(each.values).length)?.values ?? {});
}

// What somebody put in while the forms were on their way stays.
async function load() {
  const before = state.hands;
  try {
    state.forms = (await get(`/api/figures?units=${state.units}`)).figures;
    if (job.name) state.own = (await get(`${job.address}/figures`)).values;
    if (state.hands === before) return go();
    draw();
    if (isWhole()) ask();
  } catch (refusal) {
    tellRefusal(at("answer"), refusal, load);
  }
}

at("form").addEventListener("submit", (event) => { event.preventDefault(); clearTimeout(state.timer); ask(); });
window.addEventListener("hashchange", () => { if (state.forms.length) { state.asked += 1; go(); } });
if (job.name) on("changed", load);
if (!job.name || job.text !== null) load(); // of no job, or its text was read before this script was
