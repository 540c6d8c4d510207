// The hours the work is planned on: a bundled year by its place, or a weather file of one's own.
import { html, nothing } from "../lit/lit-html.js";
import { get } from "../core/api.js";
import { wrongs } from "./fields.js";
import { give } from "./drawings.js";
import { faultsOf, make, now, redraw } from "./state.js";

let years = null;
let state = "";

async function list() {
  years = [];
  try {
    years = (await get("/api/years")).years;
  } catch {
    years = [];
  }
  redraw();
}

function choose(block, key, value, words) {
  const given = block.fields.filter((each) => each.value && each.key !== key);
  make(words, [{ edit: "set", path: `weather.${key}`, value }, ...given.map((each) => ({ edit: "drop", path: each.path }))], "weather");
}

async function read(block, file) {
  state = `${file.name} is being read…`;
  redraw();
  try {
    const found = await give(file);
    state = `${found.file}: ${found.format}`;
    choose(block, "file", found.file, `weather from ${found.file}`);
    now.failed.delete("weather-file");
  } catch (refusal) {
    state = "";
    now.failed.set("weather-file", faultsOf(refusal));
    redraw();
  }
}

// What stands above the fields of `weather`.
export function weather(block) {
  if (years === null) list();
  const given = block.fields.find((each) => each.key === "year")?.value;
  const faults = now.failed.get("weather-file") || [];
  return html`<fieldset class="item"><legend>Bundled years</legend>${years?.length ? html`<ul class="kept">${years.map((year) => html`<li><button type="button" aria-pressed=${given === year.name} @click=${() => choose(block, "year", year.name, `weather year ${year.name}`)}>${year.name}</button> ${year.words}</li>`)}</ul>` : html`<p class="hint">They are being read…</p>`}</fieldset>
    <p><label for="weather-given">A weather file of your own (EPW, TMY3, ISD-Lite, a logger's CSV)</label> <input id="weather-given" type="file" accept=".epw,.csv,.txt,.gz" @change=${(event) => { const file = event.target.files[0]; event.target.value = ""; if (file) read(block, file); }}></p>
    <p role="status" class="hint">${state}</p>${faults.length ? html`<p role="alert">${wrongs(faults, "weather-wrong")}</p>` : nothing}
    <p class="hint">A forecast judges the next day, on the morning's sheet; the plan of the job needs a year of hours.</p>`;
}
