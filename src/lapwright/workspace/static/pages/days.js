// The sheet "days": the crew's days as a calendar, and the sheet of the one that is chosen.
import { html, nothing, render } from "../lit/lit-html.js";
import { view } from "../core/api.js";
import { drawing } from "../core/drawing.js";
import { job } from "../core/job.js";
import { show, tellRefusal } from "../core/show.js";
import { table } from "../core/table.js";

const page = document.getElementById("days");
render(html`<div id="working"></div><div id="calendar"></div><section id="day" aria-live="polite" aria-label="The day's sheet"></section>`, page);
let found = null, chosen = Number(location.hash.slice(1)) || 0;

function cell(day) {
  return html`<button type="button" class="day" aria-pressed=${day.number === chosen ? "true" : "false"} @click=${() => choose(day.number)}>
    <strong>${day.words}</strong><span>day ${day.number}: ${day.pieces}, ${day.laps}</span>${day.lost.length ? html`<span class="hint">${day.lost[0]}</span>` : nothing}</button>`;
}

// Weeks in rows, Monday first; days without dates one after the other.
function weeks(days) {
  const rows = [];
  for (const day of days) {
    const before = rows.at(-1);
    const starts = !before || day.weekday === null || day.weekday <= before.at(-1).weekday || gap(before.at(-1), day) > 6;
    if (starts) rows.push([]);
    rows.at(-1).push(day);
  }
  return rows;
}

const gap = (a, b) => (Date.parse(b.date) - Date.parse(a.date)) / 86400000;

function calendar() {
  const { days, weekdays, why } = found;
  const isDated = days.length > 0 && days[0].weekday !== null;
  render(!days.length ? html`<p class="notice">${why}. <a href="/jobs/${encodeURIComponent(job.name)}/describe">Give it</a></p>`
    : isDated ? html`<div class="scroll" tabindex="0" role="region" aria-label="Calendar"><table class="calendar"><caption>${days.length} crew days</caption>
      <thead><tr>${weekdays.map((name) => html`<th scope="col">${name}</th>`)}</tr></thead>
      <tbody>${weeks(days).map((week) => html`<tr>${weekdays.map((_, k) => html`<td>${week.filter((day) => day.weekday === k).map(cell)}</td>`)}</tr>`)}</tbody></table></div>`
      : html`<div class="undated">${days.map(cell)}</div>`, document.getElementById("calendar"));
}

async function choose(number) {
  chosen = number;
  history.replaceState(null, "", `#${number}`);
  calendar();
  const place = document.getElementById("day");
  try {
    const day = await view(job.name, "days", { day: number });
    if (chosen === number) drawDay(place, day);
  } catch (refusal) {
    tellRefusal(place, refusal, () => choose(number));
  }
}

function strip(found) {
  const hours = [...Array(found.to - found.from + 1).keys()].map((k) => found.from + k);
  const at = (runs, hour) => { let from = 0; for (const [state, long] of runs) { if (hour < from + long) return state; from += long; } return "shut"; };
  return html`<div class="scroll" tabindex="0" role="region" aria-label="Hours of the day"><table class="strip"><caption>Hours of the day</caption><thead><tr><th scope="col">Operation</th>${hours.map((hour) => html`<th scope="col">${hour}</th>`)}<th scope="col">In words</th></tr></thead>
    <tbody>${found.rows.map((row) => html`<tr><th scope="row">${row.name}</th>${hours.map((hour) => html`<td class="state ${at(row.runs, hour)}"><span class="hidden-words">${at(row.runs, hour)}</span></td>`)}<td>${row.words}</td></tr>`)}</tbody></table></div>
    ${found.why.map((words) => html`<p class="hint">${words}</p>`)}<p>${found.measure}</p>`;
}

function drawDay(place, day) {
  const list = (words) => (words?.length ? html`<ul>${words.map((each) => html`<li>${each}</li>`)}</ul>` : nothing);
  render(html`<h2>${day.title} ${day.date ? html`· ${day.date}` : nothing}</h2><p>${day.crew}. ${day.weather_date}</p>
    <div class="columns"><div class="dayplan"></div><div>${list(day.cautions)}<h3>Where it ends</h3>${list(day.tie_off)}</div></div>
    ${strip(day.strip)}${table(day.tasks, "Tasks")}${table(day.readings, "Readings to take, with their limits")}${list(day.tug)}
    <div class="columns"><div>${table(day.pieces, `Laid today: ${day.pieces.count}`)}</div><div>${table(day.laps, `Laps: ${day.laps.count}`)}</div></div>
    ${list(day.pattern)}${list(day.details)}${list(day.lost)}
    ${day.hot ? html`<h3>Hot work</h3><p>${day.hot.watch}</p>${table(day.hot.near, "What is near")}<p>${day.hot.boards}</p>` : nothing}`, place);
  drawing(place.querySelector(".dayplan"), day.plan, `Plan of ${day.title}`);
}

function draw(value) {
  found = value;
  if (!found.days.some((day) => day.number === chosen)) chosen = found.days[0]?.number ?? 0;
  calendar();
  if (chosen) choose(chosen);
  else render(nothing, document.getElementById("day"));
}

show("days", { place: document.getElementById("working"), draw });
