// The outline of an area: walked leg by leg as the tape goes, by its corners, or a rectangle; what is wrong at its leg.
import { html, nothing } from "../lit/lit-html.js";
import { live } from "../lit/directives/live.js";
import { edit, job, set } from "../core/job.js";
import { drawNow, faultsOf, make, now, previewWalk, redraw, stopPreview } from "./state.js";
import { wrongs } from "./fields.js";

const WAYS = [["E", "east"], ["N", "north"], ["W", "west"], ["S", "south"], ["", "as typed"]];
const LEFT = { E: "N", N: "W", W: "S", S: "E" };
const PAUSE = 150;
const typing = new Map(); // area -> rows as they stand on the page
const unsaved = new Set(); // areas whose rows are not saved yet
const sent = new Map(); // area -> the walk on its way to the file
const modes = new Map(); // area -> walk or points, where the file has none yet
const corners = new Map(); // area -> corners typed, until there are three
const box = { east: "", north: "" };
let timer = 0;

const path = (area) => `roof[${area.place}].outline`;
const textOf = (row) => (/^[A-Za-z]/.test(row.rest) || !row.way ? row.rest : `${row.way} ${row.rest}`).trim();
const walkOf = (rows) => rows.filter((row) => row.rest.trim()).map(textOf).join(", ");

function rowsOf(area) {
  const rows = typing.get(area.place) || area.legs.map((leg) => ({ way: leg.way, rest: leg.rest }));
  const last = rows.at(-1);
  if (!last || last.rest.trim()) rows.push({ way: last ? LEFT[last.way] || "E" : "E", rest: "" });
  typing.set(area.place, rows);
  return rows;
}

// What the file says is shown wherever nothing typed waits to be saved.
export function forgetTyped() {
  [...typing.keys()].forEach((area) => { if (!unsaved.has(area)) typing.delete(area); });
  [...corners].forEach(([area, rows]) => { if (rows.every((row) => row.every((part) => part.trim()) || row.every((part) => !part.trim()))) corners.delete(area); });
}

async function keep(area, rows) {
  clearTimeout(timer);
  stopPreview();
  typing.set(area.place, rows); // the file may have been read anew since these were drawn
  const walk = walkOf(rows);
  const was = sent.get(area.place) ?? now.walks[area.place] ?? "";
  if (walk === was) {
    if (!sent.has(area.place)) unsaved.delete(area.place);
    return;
  }
  unsaved.add(area.place);
  sent.set(area.place, walk);
  try {
    if (!walk) await edit("the walk taken out", [{ edit: "drop", path: path(area) }]);
    else await set(path(area), walk, `walk of ${area.name}: ${rows.filter((row) => row.rest.trim()).length} legs`);
    now.failed.delete(path(area));
    if (walkOf(rows) === walk) unsaved.delete(area.place);
    if (sent.get(area.place) === walk) sent.delete(area.place);
  } catch (refusal) {
    sent.delete(area.place);
    now.failed.set(path(area), faultsOf(refusal));
    redraw();
  }
}

function showSoon(area, rows) {
  typing.set(area.place, rows);
  unsaved.add(area.place);
  clearTimeout(timer);
  timer = setTimeout(() => previewWalk(area.place, walkOf(rows)).catch(() => {}), PAUSE);
}

// The row is there before the next key is pressed.
function goTo(area, place) {
  drawNow();
  document.getElementById(`leg-${area.place}-${place}`)?.focus();
}

// What is offered is a length behind the row's direction, or a whole leg.
function putLeg(row, write) {
  const [, way, rest] = /^([ENWSenws])\s*([0-9].*)$/.exec(write) || [];
  Object.assign(row, way ? { way: way.toUpperCase(), rest } : { rest: write });
}

function legRow(area, rows, row, place) {
  const leg = area.legs[place];
  const id = `leg-${area.place}-${place}`;
  const isWrong = Boolean(leg?.needs && row.rest.trim());
  const typed = (event) => { row.rest = event.target.value; showSoon(area, rows); };
  const enter = (event) => {
    if (event.key !== "Enter") return;
    event.preventDefault();
    row.rest = event.target.value;
    if (!row.rest.trim()) return;
    keep(area, rows);
    goTo(area, place + 1);
  };
  const turn = (event) => { row.way = event.target.value; if (row.rest.trim()) keep(area, rows); };
  const out = () => { rows.splice(place, 1); keep(area, rows); goTo(area, Math.max(0, place - 1)); };
  const before = () => { rows.splice(place, 0, { way: "E", rest: "" }); goTo(area, place); };
  const isLast = place === rows.length - 1;
  return html`<li class="leg"><span class="no">${place + 1}</span>
    <select aria-label=${`Leg ${place + 1}, direction`} .value=${live(row.way)} @change=${turn}>${WAYS.map(([way, words]) => html`<option value=${way} ?selected=${way === row.way}>${words}</option>`)}</select>
    <input id=${id} aria-label=${`Leg ${place + 1}, length`} autocomplete="off" spellcheck="false" aria-invalid=${isWrong} aria-describedby=${`${id}-said`} .value=${live(row.rest)} @input=${typed} @keydown=${enter} @change=${() => keep(area, rows)}>
    ${isLast ? nothing : html`<button type="button" class="small" aria-label=${`Put a leg in before leg ${place + 1}`} @click=${before}>+</button><button type="button" class="small" aria-label=${`Take out leg ${place + 1}`} @click=${out}>×</button>`}
    <span id=${`${id}-said`}>${isWrong ? html`<span class="wrong">needs ${leg.needs}${leg.is_bare ? nothing : html`; write: <code>${leg.write}</code>`}</span>${leg.is_bare ? html` <button type="button" class="mend" @click=${() => { putLeg(row, leg.write); keep(area, rows); document.getElementById(id)?.focus(); redraw(); }}>Write ${leg.write}</button>` : nothing}` : html`<span class="hint">${leg?.change || ""}</span>`}</span></li>`;
}

function rectangle(area) {
  const put = async (event) => {
    event.preventDefault();
    const [east, north] = [box.east.trim(), box.north.trim()];
    if (!east || !north) return;
    if (await make(`${area.name}: a rectangle`, [{ edit: "set", path: path(area), value: `E ${east}, N ${north}, W ${east}, S ${north}` }], path(area))) Object.assign(box, { east: "", north: "" });
  };
  return html`<form class="fields" novalidate @submit=${put} aria-label="A rectangle">
    <div class="field"><label for=${`box-e-${area.place}`}>Rectangle: east</label><input id=${`box-e-${area.place}`} autocomplete="off" .value=${live(box.east)} @input=${(event) => { box.east = event.target.value; }}></div>
    <div class="field"><label for=${`box-n-${area.place}`}>north</label><input id=${`box-n-${area.place}`} autocomplete="off" .value=${live(box.north)} @input=${(event) => { box.north = event.target.value; }}></div>
    <p class="field"><button>Walk it round</button></p></form>`;
}

function closing(area) {
  const walk = area.walk;
  if (!walk) return html`<p class="hint" role="status">Begin at any corner, in any direction, and go round until you are back: the last leg ends where the first began.</p>`;
  return html`<p class="closing ${walk.is_off ? "wrong" : ""}" role="status">${walk.words}${area.size ? html`; ${area.size}` : nothing}</p>
    ${walk.is_off ? html`<p class="ways"><button type="button" @click=${() => set(`roof[${area.place}].closure`, "accept", `${area.name}: the misclosure accepted`)}>Close it all the same</button> <span class="hint">Better: measure again the leg that is off by as much.</span></p>` : nothing}`;
}

function cornersOf(area, file) {
  if (!corners.has(area.place)) corners.set(area.place, file.map((row) => [...row]));
  const rows = corners.get(area.place);
  if (!rows.length || rows.at(-1).some((part) => part.trim())) rows.push(["", ""]);
  return rows;
}

async function keepCorners(area, rows, file) {
  const whole = rows.filter((row) => row.every((part) => part.trim())).map((row) => row.map((part) => part.trim()));
  if (whole.length < 3 || JSON.stringify(whole) === JSON.stringify(file)) return;
  const isThere = area.source !== "none";
  const edits = [...(isThere ? [{ edit: "drop", path: path(area) }] : []), ...whole.map((values) => ({ edit: "add", path: path(area), values }))];
  if (await make(`corners of ${area.name}`, edits, path(area))) corners.delete(area.place);
}

function points(area) {
  const file = area.points;
  const rows = cornersOf(area, file);
  return html`<ol class="legs">${rows.map((row, place) => html`<li class="leg"><span class="no">${place + 1}</span>${["east", "north"].map((way, part) => html`
    <input aria-label=${`Corner ${place + 1}, ${way}`} placeholder=${way} autocomplete="off" .value=${live(row[part])} @input=${(event) => { row[part] = event.target.value; }} @change=${() => { keepCorners(area, rows, file); redraw(); }}>`)}
    ${place === rows.length - 1 ? nothing : html`<button type="button" class="small" aria-label=${`Take out corner ${place + 1}`} @click=${() => { rows.splice(place, 1); keepCorners(area, rows, file); redraw(); }}>×</button>`}</li>`)}</ol>
    <p class="hint">East and north of any one point, corner after corner; three or more.</p>`;
}

// The outline of an area, in the form that the file has or that is chosen for it.
export function outlineOf(area) {
  const mode = modes.get(area.place) || (area.source === "points" ? "points" : area.source === "drawing" ? "drawing" : "walk");
  const faults = now.failed.get(path(area)) || [];
  const choose = (value) => { modes.set(area.place, value); redraw(); };
  const rows = mode === "walk" ? rowsOf(area) : [];
  return html`<div class="outline">
    <p class="ways" role="group" aria-label="How it is measured">${[["walk", "Walked with the tape"], ["points", "By its corners"]].map(([key, words]) => html`<button type="button" aria-pressed=${mode === key} @click=${() => choose(key)}>${words}</button>`)}</p>
    ${mode === "walk" ? html`<p class="hint">One leg a row: direction and length, as <code>${job.units === "metric" ? "36.6 m" : "120'"}</code>; or the whole leg as <code>${job.units === "metric" ? "E 36.6 m" : "E 120'"}</code>, a bearing as <code>${job.units === "metric" ? "N 35 30 E 5.6 m" : "N 35 30 E 18' 6\""}</code>. Enter goes to the next.</p>
      <ol class="legs">${rows.map((row, place) => legRow(area, rows, row, place))}</ol>${area.legs.length ? nothing : rectangle(area)}${closing(area)}` : nothing}
    ${mode === "points" ? points(area) : nothing}
    ${mode === "drawing" ? html`<p>Drawn: ${area.is_whole ? html`${area.sides.length} sides, ${area.size}` : "the drawing is not read yet"}</p>` : nothing}
    ${faults.length ? html`<p>${wrongs(faults, `outline-${area.place}-wrong`)}</p>` : nothing}</div>`;
}
