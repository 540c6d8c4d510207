// The sheet "days": the crew's days as a calendar, and the sheet of the one that is chosen, to print by itself.
import { html, nothing, render } from "../lit/lit-html.js";
import { view } from "../core/api.js";
import { drawing } from "../core/drawing.js";
import { glue } from "../core/glue.js";
import { job } from "../core/job.js";
import { show, tellRefusal } from "../core/show.js";
import { table } from "../core/table.js";
import { strip } from "../days/strip.js";

const page = document.getElementById("days");
render(html`<div id="working"></div><div id="calendar" class="no-print"></div><p id="heard" class="hidden-words" role="status"></p><section id="day" aria-label="The day's sheet"></section>`, page);
let found = null, chosen = Number(location.hash.slice(1)) || 0;

// One day of the calendar has the keyboard; the arrow keys go to the others.
function cell(day) {
  return html`<button type="button" class="day" data-day=${day.number} tabindex=${day.number === chosen ? 0 : -1} aria-pressed=${day.number === chosen ? "true" : "false"} @click=${() => choose(day.number)} @keydown=${keys}>
    <strong>${day.words}</strong><span>day ${day.number}: ${day.pieces}, ${day.laps}</span>${day.lost.length ? html`<span class="hint">${day.lost[0]}</span>` : nothing}</button>`;
}

function keys(event) {
  const place = found.days.findIndex((day) => day.number === chosen), last = found.days.length - 1;
  const to = { ArrowRight: place + 1, ArrowLeft: place - 1, ArrowDown: place + 5, ArrowUp: place - 5, Home: 0, End: last }[event.key];
  if (to === undefined) return;
  event.preventDefault();
  choose(found.days[Math.min(last, Math.max(0, to))].number);
  page.querySelector(`[data-day="${chosen}"]`)?.focus();
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
    : isDated ? html`<div class="scroll" role="region" aria-label="Calendar"><table class="calendar" role="table"><caption>${days.length} crew days; the arrow keys go from day to day</caption>
      <thead role="rowgroup"><tr role="row">${weekdays.map((name) => html`<th scope="col" role="columnheader">${name}</th>`)}</tr></thead>
      <tbody role="rowgroup">${weeks(days).map((week) => html`<tr role="row">${weekdays.map((_, k) => html`<td role="cell" class=${week.some((day) => day.weekday === k) ? "" : "free"}>${week.filter((day) => day.weekday === k).map(cell)}</td>`)}</tr>`)}</tbody></table></div>`
      : html`<p class="hint">The days have numbers only: the first working day is not given.</p><div class="undated">${days.map(cell)}</div>`, document.getElementById("calendar"));
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
    if (chosen === number) tellRefusal(place, refusal, () => choose(number));
  }
}

const list = (words, name) => (words?.length ? html`${name ? html`<h3>${name}</h3>` : nothing}<ul>${words.map((each) => html`<li>${glue(each)}</li>`)}</ul>` : nothing);

function steps(day) {
  const go = (number) => () => { choose(number); };
  return html`<p class="no-print steps-of-days"><button type="button" ?disabled=${day.number <= 1} @click=${go(day.number - 1)}>← day before</button>
    <button type="button" ?disabled=${day.number >= day.of} @click=${go(day.number + 1)}>day after →</button>
    <button type="button" @click=${() => window.print()}>Print this day</button> <span class="hint">day ${day.number} of ${day.of}; all of them are in the <a href="/jobs/${encodeURIComponent(job.name)}/packet">packet</a></span></p>`;
}

function drawDay(place, day) {
  render(html`<h2>${day.title} ${day.date ? html`· ${day.date}` : nothing}</h2>${steps(day)}<p>${day.crew}. ${day.weather_date}</p>
    <div class="columns"><div class="dayplan"></div><div>${list(day.cautions, "First")}${list(day.tie_off, "Where it ends")}</div></div>
    ${strip(day.strip)}${table(day.tasks, "Tasks")}${table(day.readings, "Readings to take, with their limits")}${list(day.tug, "Bond at first touch")}
    <div class="columns"><div>${table(day.pieces, `Laid today: ${day.pieces.count}`)}</div><div>${table(day.laps, `Laps to probe: ${day.laps.count}`)}</div></div>
    ${list(day.pattern, "Pattern of the courses")}${list(day.details, "Details")}${list(day.lost, "Why it is not more")}
    ${day.hot ? html`<h3>Hot work</h3><p>${day.hot.watch}</p>${table(day.hot.near, "What is near")}<p>${day.hot.boards}</p>` : nothing}`, place);
  document.getElementById("heard").textContent = `${day.title} is shown, ${day.date}`;
  drawing(place.querySelector(".dayplan"), day.plan, `Plan of ${day.title}`);
}

function draw(value) {
  found = value;
  if (!found.days.some((day) => day.number === chosen)) chosen = found.days[0]?.number ?? 0;
  calendar();
  if (chosen) choose(chosen);
  else render(nothing, document.getElementById("day"));
}

window.addEventListener("hashchange", () => {
  const number = Number(location.hash.slice(1));
  if (number !== chosen && found?.days.some((day) => day.number === number)) choose(number);
});
show("days", { place: document.getElementById("working"), draw });
