// The sheet "hours": which hours are fit for which operation, as pictures; a day or a week as a curve; the next day.
import { html, nothing, render } from "../lit/lit-html.js";
import { view } from "../core/api.js";
import { edit, job } from "../core/job.js";
import { show, tellRefusal } from "../core/show.js";
import { table } from "../core/table.js";
import { asking } from "../hours/asking.js";
import { card, legend, sentence, told } from "../hours/card.js";
import { curve } from "../hours/curve.js";
import { weekOf } from "../hours/grid.js";
import { nextday } from "../hours/nextday.js";
import { Picture } from "../hours/picture.js";
import { whatif } from "../hours/whatif.js";

const page = document.getElementById("hours");
const KINDS = ["year", "month", "week", "day"];
const HELP = "Arrows move by hour and day, Page Up and Page Down by row, Home and End to the ends of the day, Enter opens the day. The tables below hold the same in words.";
const frame = (name) => html`<figure class=${name} hidden><figcaption></figcaption><div class="frame"><div class="ground"><canvas tabindex="0" role="application" aria-roledescription="picture of hours" aria-describedby="help"></canvas><div class="cursor" hidden></div></div></div><details><summary>In words</summary><div class="words"></div></details></figure>`;
render(html`<div id="working"></div><div id="none"></div>
  <div class="sheet" hidden><div class="pick"></div>
    <div class="look"><div class="under signs"></div><div class="pictures">${frame("own")}${frame("beside")}</div><section id="day" aria-label="The days chosen"></section>
      <aside class="panel" aria-label="The hour, and what if"><div class="cards"></div><div class="hidden-words" aria-live="polite"></div><div class="sliders"></div><p class="hint" id="help">${HELP}</p></aside></div>
    <section aria-label="The next day"><div id="next-told"></div><div id="next"></div></section></div>`, page);
const at = (selector) => page.querySelector(selector);

const state = { kind: "year", operation: "", day: 0, hour: 9, beside: "", dried: "", over: null, next: "", by: "", options: {} };
const counted = [[], []]; // what the tables behind the pictures were written from
let own = null, beside = null, readings = null, besideReadings = null, days = null, next = null, wasTwo = false;
const pictures = ["own", "beside"].map((name) => new Picture(at(`.${name} .ground`), { moved, over, opened: (day) => choose({ kind: "day", day }) }));

const under = () => ({ ...state.options, ...(state.dried ? { dried: "1" } : {}) });
const askOwn = show("hours", { place: at("#working"), options: under, draw: takeAnew });
const askSoon = asking("hours", { place: at("#working"), options: under, wait: 120, draw: take });
const askReadings = asking("hourreadings", { place: at("#none"), options: () => ({}), draw: (found) => { readings = found?.readings ?? null; tell(); } });
const askBeside = asking("hours", { place: at("#none"), options: () => (state.beside ? { ...under(), year: state.beside } : null), draw: (found) => { beside = found; draw(); } });
const askBesideReadings = asking("hourreadings", { place: at("#none"), options: () => (state.beside ? { year: state.beside } : null), draw: (found) => { besideReadings = found?.readings ?? null; tell(); } });
const askDay = asking("hoursday", { place: at("#day"), wait: 150, options: () => (own?.days ? { ...under(), day: span().first, days: span().days } : null), draw: (found) => { days = found; draw(); } });
const askNext = asking("nextday", { place: at("#next-told"), wait: 300, options: () => ({ ...state.options, ...(state.next ? { date: state.next } : {}), ...(state.by ? { from: state.by } : {}) }), draw: (found) => { next = found; render(nothing, at("#next-told")); drawNext(); drawPick(); } });

const span = () => (state.kind === "week" ? { first: weekOf(state.day), days: 7 } : { first: state.day, days: 1 });

// The job is new: so may be what its hours are judged by.
function takeAnew(found) {
  take(found);
  if (!own.days) return;
  askReadings();
  if (state.beside) askBesideReadings();
}

// The main answer; its parts follow it.
function take(found) {
  own = found;
  at(".sheet").hidden = false;
  at(".look").hidden = !own.days;
  if (!own.days) {
    drawNone();
    return askNext();
  }
  render(nothing, at("#none"));
  if (!own.operations.some((each) => each.key === state.operation)) state.operation = (own.operations.find((each) => each.key === "base") ?? own.operations[0]).key;
  state.day = Math.min(state.day, own.days.length - 1);
  draw();
  if (state.beside) askBeside();
  askDay();
  askNext();
}

function drawNone() {
  render(html`<p class="notice">${own.why}. Take one of the years that come with the tool, or name a file on the sheet Describe.</p>
    <p class="buttons">${own.years.map((year) => html`<button type="button" @click=${() => useYear(year)}>${year}</button>`)}</p>`, at("#none"));
  render(nothing, at(".pick"));
}

function choose(change) {
  const before = { ...span(), kind: state.kind, operation: state.operation };
  Object.assign(state, change);
  if (own?.days && (before.first !== span().first || before.days !== span().days)) { days = null; askDay(); }
  if (before.kind === state.kind && before.operation === state.operation) return drawMoved();
  draw();
}

function moved(place, isByKey) {
  choose({ ...place, over: null });
  for (const each of pictures) each.point(placed(each), isByKey && document.activeElement === each.canvas);
  if (isByKey) render(said().map((hour) => html`<p>${sentence(hour)}</p>`), at("[aria-live]"));
}

function over(place) {
  state.over = place;
  requestAnimationFrame(tell);
}

// The same day in the other picture's weather.
function placed(picture, place = state) {
  if (picture === pictures[0] || !beside?.days) return place;
  return { ...place, day: beside.days.indexOf(own.days[place.day]) };
}

function said() {
  const place = state.over ?? state;
  const found = [told(own, readings, place)];
  if (state.beside && beside?.days) found.push(told(beside, besideReadings, placed(pictures[1], place)));
  return found.filter(Boolean);
}

function tell() {
  if (!own?.days) return;
  const both = Boolean(state.beside && beside?.days);
  const hours = said();
  render(hours.map((hour, k) => card(both ? [own, beside][k].weather : "", hour)), at(".cards"));
}

function draw() {
  if (!own?.days) return;
  drawPick();
  at(".beside").hidden = !(state.beside && beside?.days);
  const isTwo = !at(".beside").hidden;
  if (at(".pictures").classList.toggle("two", isTwo) !== wasTwo) for (const each of pictures) each.width = 0;
  wasTwo = isTwo;
  drawIf();
  render(legend(own), at(".signs"));
  drawMoved();
}

// What hangs on the cursor's place.
function drawMoved() {
  drawPicture(0, own, `${own.weather}, ${own.edits.length ? "what if: not in the job file" : "the job's own"}`, days && days.day === span().first ? days.clock_marks : null);
  if (!at(".beside").hidden) drawPicture(1, beside, beside.weather, null);
  tell();
  drawDay();
}

function drawPicture(k, found, weather, marks) {
  const picture = pictures[k], figure = at(k ? ".beside" : ".own");
  figure.hidden = false;
  const name = found.operations.find((each) => each.key === state.operation)?.words ?? "";
  const title = state.kind === "year" ? `Hours for ${name}` : `${shown(found, Math.max(0, placed(picture).day))}, by operation`;
  render(html`<span>${title}, by the crew's clock: ${weather}</span>${k ? html` <button type="button" @click=${() => useYear(state.beside)}>Use this year</button>` : nothing}`, figure.querySelector("figcaption"));
  const place = placed(picture);
  picture.show(found, { ...state, day: Math.max(0, place.day) }, ["week", "day"].includes(state.kind) ? marks : null);
  picture.canvas.setAttribute("aria-label", `${title}, ${weather}, ${state.kind}`);
  picture.point(place, false);
  if (counted[k][0] === found && counted[k][1] === name) return;
  counted[k] = [found, name];
  render(counts(found, name), figure.querySelector(".words"));
}

// The days of a picture in words.
function shown(found, day) {
  const { days, months } = found;
  if (state.kind === "month") return months.findLast((each) => each.first <= day).name;
  return state.kind === "day" ? days[day] : `${days[weekOf(day)]} to ${days[Math.min(weekOf(day) + 6, days.length - 1)]}`;
}

// The table behind a picture: the months of its operation, and all operations, in all hours and in the crew's day.
function counts(found, name) {
  const { by_month, by_operation } = found.counts, months = by_month[state.operation];
  return html`${table(months.all, `Hours for ${name} by month, ${found.weather}`)}${table(months.crew, `Hours for ${name} in the crew's day, every day of the week, by month, ${found.weather}`)}
    ${table(by_operation.all, `Hours of all months by operation, ${found.weather}`)}${table(by_operation.crew, `Hours of the crew's day by operation, ${found.weather}`)}`;
}

function drawPick() {
  if (!own?.days) return;
  const day = next?.label ? own.days.indexOf(next.label) : -1;
  render(html`<div class="fields"><div class="field" role="group" aria-label="How much is shown"><span class="hint">Shown</span><span>${KINDS.map((kind) => html`<button type="button" aria-pressed=${state.kind === kind ? "true" : "false"} @click=${() => choose({ kind })}>${kind}</button>`)}
      ${day >= 0 ? html`<button type="button" @click=${() => choose({ kind: "day", day })}>next day, ${next.label}</button>` : nothing}</span></div>
    <div class="field"><label for="operation">Operation</label><select id="operation" .value=${state.operation} @change=${(event) => choose({ operation: event.target.value })}>${own.operations.map((each) => html`<option value=${each.key} ?selected=${each.key === state.operation}>${each.words}</option>`)}</select></div>
    <div class="field"><label for="dried">The surface is</label><select id="dried" @change=${(event) => { state.dried = event.target.value; days = null; askOwn(); }}><option value="">as it lies, over a base of the same day</option><option value="1">swept and blown dry first</option></select></div>
    <div class="field"><label for="beside">Weather beside it</label><select id="beside" @change=${(event) => putBeside(event.target.value)}><option value="">none</option>${own.years.filter((year) => year !== own.own).map((year) => html`<option value=${year} ?selected=${year === state.beside}>${year}</option>`)}</select></div></div>`, at(".pick"));
}

// Another weather beside it, the month counts of both open to be compared.
function putBeside(year) {
  state.beside = year;
  beside = besideReadings = null;
  askBeside();
  askBesideReadings();
  for (const each of page.querySelectorAll("figure details")) each.open = year !== "";
  draw();
}

function drawDay() {
  if (!days) return;
  const begin = days.curve.days[state.day - days.day]?.[0] ?? 0, clock = String(state.hour).padStart(2, "0");
  const k = days.curve.hours.findIndex((hour, at) => at >= begin && hour === clock);
  render(html`<h2>${days.title}</h2>${curve(days, state.operation, k >= 0 && k < days.curve.hours.length ? k : null)}
    ${days.measure ? html`<p>${days.measure}</p>` : nothing}
    ${table(days.windows, `Longest safe windows in the crew's day, by the crew's clock, ${days.title}`)}
    <details><summary>Hours in words</summary>${table(days.table, `Hours of ${days.title}`)}</details>`, at("#day"));
}

function drawNext() {
  render(html`<h2>The next day</h2>${nextday(next, (date) => { state.next = date; askNext(); }, (by) => { Object.assign(state, { by, next: "" }); askNext(); })}`, at("#next"));
}

function drawIf() {
  render(whatif(own, state.options, { set: setIf, put: putIf, drop: dropIf }), at(".sliders"));
}

function setIf(option, text) {
  if (text === null) delete state.options[option];
  else state.options[option] = text;
  drawIf();
  askSoon();
}

// The edits are asked for anew: the answer on the page may be of an earlier place of a slider.
async function putIf() {
  const { edits } = await view(job.name, "hours", { ...state.options });
  await changed("what if put in the job file", edits, () => { state.options = {}; });
}

function dropIf() {
  state.options = {};
  askOwn();
}

// Another weather year in the job file itself.
async function useYear(year) {
  const edits = own.days && beside?.edits ? beside.edits.filter((each) => each.path.startsWith("weather")) : [{ edit: "set", path: "weather.year", value: year }];
  await changed(`weather: ${year}`, edits, () => { state.beside = ""; beside = null; });
}

async function changed(words, edits, before) {
  const kept = { ...state };
  before();
  try {
    await edit(words, edits);
  } catch (refusal) {
    Object.assign(state, kept);
    tellRefusal(at("#working"), refusal);
  }
}

const repaint = (isPrinted) => pictures.forEach((each) => each.paint(isPrinted));
matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => repaint(false));
addEventListener("beforeprint", () => repaint(true));
addEventListener("afterprint", () => repaint(false));
function measure() {
  for (const each of pictures) each.width = 0;
  draw();
}
new ResizeObserver(measure).observe(at(".pictures"));
