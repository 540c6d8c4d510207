// What there is to know of an hour: its state, why, and what it was judged by.
import { html, nothing } from "../lit/lit-html.js";
import { glue } from "../core/glue.js";
import { placeOf } from "./grid.js";

const FIRST = "0".charCodeAt(0);
const two = (hour) => String(hour).padStart(2, "0");

// One hour of a picture as plain words.  view, readings: of the picture; at: operation, day, hour.
export function told(view, readings, { operation, day, hour }) {
  const place = placeOf(view, day, hour);
  if (place < 0) return null;
  const name = view.operations.find((each) => each.key === operation);
  return {
    when: `${view.days[day]}, ${two(hour)}:00 to ${two(hour + 1)}:00`,
    operation: name.words,
    limits: name.limits,
    state: view.words.find((word) => word[0] === view.states[operation][place]),
    why: view.reasons[view.reason[operation].charCodeAt(place) - FIRST],
    measure: view.measure[place] === "m" ? "measure first: the models of the surface differ across a limit" : "",
    crew: view.crew[place] === "c" ? "in the crew's day" : "",
    rows: rows(readings, place),
  };
}

function rows(readings, place) {
  if (!readings?.air) return [];
  const of = (name) => { const each = readings[name], value = each.at[place]; return value === null ? null : `${value} ${each.unit}`; };
  const said = (name) => [readings[name].words, of(name) ?? "not reported"];
  const surface = [readings.surface.words, of("surface") === null ? "not known" : `${of("surface")}, ${readings.low.at[place]} to ${of("high")}`];
  return [said("air"), said("dew"), surface, said("wind"), ...(of("gust") === null ? [] : [said("gust")]), said("rain")];
}

// The same as one sentence, for the live region.
export function sentence(hour) {
  const readings = hour.rows.map(([name, value]) => `${name} ${value}`).join(", ");
  return [`${hour.when}, ${hour.operation}: ${hour.state}${hour.why ? `, ${hour.why}` : ""}`, hour.measure, readings].filter(Boolean).join(". ");
}

// title: which weather; hour: as above.
export function card(title, hour) {
  if (!hour) return html`<section class="card"><h2>${title}</h2><p>The weather or the clock has no such hour.</p></section>`;
  return html`<section class="card"><h2>${hour.when}</h2>
    ${title ? html`<p class="hint">${title}</p>` : nothing}
    <p><span class="swatch ${hour.state}"></span> <strong>${hour.operation}: ${hour.state}</strong>${hour.why ? html`: ${hour.why}` : nothing}</p>
    ${hour.measure ? html`<p>${hour.measure}</p>` : nothing}
    <dl>${hour.rows.map(([name, value]) => html`<div><dt>${name}</dt><dd>${glue(value)}</dd></div>`)}</dl>
    <p class="hint">Readings at the hour's end. Limits: ${glue(hour.limits)}.</p></section>`;
}

export function legend(view) {
  return html`<ul class="legend">${view.words.map((word) => html`<li><span class="swatch ${word}"></span> ${view.meaning[word]}</li>`)}
    <li><span class="swatch edge"></span> the crew's day begins and ends</li><li><span class="swatch first"></span> measure first</li><li><span class="swatch window"></span> first to last safe minute, on a day or a week</li></ul>`;
}
