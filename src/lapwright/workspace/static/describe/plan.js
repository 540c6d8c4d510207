// The live outline, drawn to scale: sides by line type and number, what stands in it, how the walk closes.  Sides are
// chosen, things are dragged or moved by arrow keys, places are pointed at with their distances shown.
import { html, nothing, render, svg } from "../lit/lit-html.js";
import { get } from "../core/api.js";
import { editMade, job } from "../core/job.js";
import { putInside, putName, putSide, sheetOf, turnOf } from "./labels.js";
import { chosenOf, now, redraw } from "./state.js";

const [PAD, NARROW_PAD] = [54, 38];
const NARROW = 420; // px: less is written on a plan as narrow as a phone
const MOST_SIDES = 400; // a curve cut into more is drawn as one line
const MOST_CLEARED = 200; // words keep clear of the lines of so many
const FAR = 12; // steps at once with the shift key
const MOVES = { ArrowRight: [1, 0], ArrowLeft: [-1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
const holder = document.createElement("div");
holder.className = "plan";
let scale = null;
let labels = null; // where its words stand
let pointed = null; // the last answer about a place pointed at
let dragged = null;
let isAsking = false;
let next = null;
let focus = ""; // what the keyboard is at
let over = 0; // the side under the pointer

export const planHolder = holder;
new ResizeObserver(() => drawPlan()).observe(holder);

function scaleOf(box) {
  const [width, height] = [Math.max(200, holder.clientWidth), Math.max(160, holder.clientHeight)];
  const pad = width > NARROW ? PAD : NARROW_PAD;
  const by = Math.min((width - 2 * pad) / box[2], (height - 2 * pad) / box[3]);
  const left = (width - box[2] * by) / 2 - box[0] * by;
  const top = (height - box[3] * by) / 2 - box[1] * by;
  return { width, height, by, at: ([x, y]) => [x * by + left, y * by + top], back: (x, y) => [(x - left) / by, (y - top) / by] };
}

const line = (from, to, kind) => svg`<line class=${kind} x1=${from[0]} y1=${from[1]} x2=${to[0]} y2=${to[1]}/>`;
const path = (points) => points.map(([x, y], k) => `${k ? "L" : "M"}${x.toFixed(1)} ${y.toFixed(1)}`).join("");

// Lines of a kind of edge; the second runs outside of the first.
function kindLines(from, to, out, kind) {
  const beside = (by) => [[from[0] + out[0] * by, from[1] + out[1] * by], [to[0] + out[0] * by, to[1] + out[1] * by]];
  if (kind === "parapet") return [line(from, to, "full"), line(...beside(4), "full")];
  if (kind === "wall") return [line(from, to, "heavy"), line(...beside(4), "ticks")];
  if (kind === "step") return [line(from, to, "heavy"), line(...beside(4), "dashed")];
  if (kind === "expansion") return [line(...beside(-2), "dashed"), line(...beside(2), "dashed")];
  return line(from, to, { metal_edge: "metal", ridge: "centre", valley: "phantom", tie_in: "dashed-heavy" }[kind] || "dotted");
}

// Sides that lie on one another are one edge, of one kind: they are chosen together.
export function chooseSide(place, side) {
  now.area = place;
  const isOn = !chosenOf(place).has(side);
  for (const [area, number] of [[place, side], ...sameEdge(place, side)]) {
    const sides = chosenOf(area);
    sides[isOn ? "add" : "delete"](number);
    now.sides.set(area, sides);
  }
  redraw();
}

const isAt = (one, two) => Math.hypot(one[0] - two[0], one[1] - two[1]) < 1; // mm

function sameEdge(place, number) {
  const own = now.outline.areas.find((area) => area.place === place)?.sides[number - 1];
  if (!own) return [];
  return now.outline.areas.filter((area) => area.place !== place).flatMap((area) => area.sides.filter((side) => (isAt(side.from, own.to) && isAt(side.to, own.from)) || (isAt(side.from, own.from) && isAt(side.to, own.to))).map((side) => [area.place, side.side]));
}

function sideDrawn(area, side) {
  const [from, to] = [scale.at(side.from), scale.at(side.to)];
  const key = `side-${area.place}-${side.side}`;
  const [number, words] = [labels.at(`${key}-no`), labels.at(`${key}-length`)];
  const isChosen = chosenOf(area.place).has(side.side);
  return svg`<g class="side ${isChosen ? "is-chosen" : ""} ${over === side.side && now.area === area.place ? "is-over" : ""}" role="button" aria-pressed=${isChosen} aria-label=${`Side ${side.side} of ${area.name}, ${side.length} ${side.way}, ${side.words}`}
    tabindex=${tabOf(key)} data-key=${key} @click=${() => { if (!now.pick) chooseSide(area.place, side.side); }}>
    ${line(from, to, "hit")}${isChosen ? line(from, to, "chosen") : nothing}${isDrawnAlready(area, side) ? nothing : kindLines(from, to, side.out, side.kind)}
    ${number ? svg`<circle class="number" cx=${number[0]} cy=${number[1]} r="10"/><text x=${number[0]} y=${number[1] + 4} class="no">${side.side}</text>` : nothing}
    ${words ? svg`<text class="length" transform=${`translate(${words[0]},${words[1]}) rotate(${turnOf(from, to)})`}>${side.length}</text>` : nothing}</g>`;
}

// An edge that two areas share is drawn once; twice, dashes of one fill the gaps of the other.
const isDrawnAlready = (area, side) => area.sides.length <= MOST_CLEARED && sameEdge(area.place, side.side).some(([place, number]) => place < area.place && now.outline.areas[place].sides[number - 1].kind === side.kind);

// The words of the plan put where they are clear of one another: the area at hand first, in it what is chosen by.
function lettered() {
  const sheet = sheetOf(scale.width, scale.height);
  const isWide = scale.width > NARROW;
  const inOrder = [...now.outline.areas].sort((one, two) => (two.place === now.area) - (one.place === now.area));
  const things = inOrder.flatMap((area) => [...area.openings, ...area.pipes, ...area.drains].map((thing) => [area, thing, ...extentOf(thing)]));
  sheet.block([scale.width - 20, 26], [24, 40]); // north
  things.forEach(([, , middle, size]) => sheet.block(middle, size));
  const sides = inOrder.filter((area) => area.sides.length <= MOST_SIDES).flatMap((area) => area.sides.map((side) => [area, side, scale.at(side.from), scale.at(side.to)]));
  if (sides.length <= MOST_CLEARED) sides.forEach(([, , from, to]) => sheet.line(from, to));
  for (const [area, side, from, to] of sides) {
    const long = Math.hypot(to[0] - from[0], to[1] - from[1]);
    if (long > 26 && (isWide || area.place === now.area)) putSide(sheet, `side-${area.place}-${side.side}`, [from, to], side.out, { number: true });
  }
  for (const [area, thing, middle, size] of things) {
    if (!(isWide || (thing.ring && area.place === now.area))) continue;
    const isInside = thing.ring && size[0] > thing.name.length * 8 + 4 && size[1] > 18;
    if (isInside) sheet.put(keyOf(thing), [middle], [0, 0]);
    else putName(sheet, keyOf(thing), middle, thing.name, size, nameAtSide(area, thing, middle));
  }
  for (const [area, side, from, to] of sides) {
    const long = Math.hypot(to[0] - from[0], to[1] - from[1]);
    if (long > 90 && (isWide || now.outline.areas.length === 1)) putSide(sheet, `side-${area.place}-${side.side}`, [from, to], side.out, { length: side.length });
  }
  for (const area of inOrder) {
    if (!area.corners.length || !isWide) continue;
    const ring = area.corners.map(scale.at);
    if (now.outline.areas.length > 1) putInside(sheet, `name-${area.place}`, ring, [area.name.length * 9 + 4, 18]);
    for (const fall of fallsOf(area)) {
      putInside(sheet, `fall-${fall.key}`, fall.ring, fallSize(fall));
      if (!sheet.at(`fall-${fall.key}`)) putInside(sheet, `arrow-${fall.key}`, fall.ring, fallSize({ ...fall, words: "" }));
    }
  }
  return sheet;
}

const keyOf = (thing) => `thing-${thing.path}-${thing.name}`;

// Middle and size of a thing as it is drawn [px].
function extentOf(thing) {
  if (!thing.ring) { const half = Math.max(8, (thing.radius ?? 0) * scale.by); return [scale.at(thing.at), [2 * half, 2 * half]]; }
  const ring = thing.ring.map(scale.at);
  const across = (k) => Math.max(...ring.map((p) => p[k])) - Math.min(...ring.map((p) => p[k]));
  return [middleOf(ring), [across(0), across(1)]];
}

// The way water runs, drawn as an arrow with the slope beside it.
const ARROW = 34;
const fallSize = ({ way, words }) => [Math.abs(way[0]) * ARROW + words.length * 7.2 + 12, Math.max(Math.abs(way[1]) * ARROW + 8, 14)];

// The falls of an area: its own, or those of its planes that say one, each in its ring.
const fallsOf = (area) => (area.fall ? [{ ...area.fall, key: `${area.place}`, ring: area.corners.map(scale.at) }] : area.planes.map((plane, k) => ({ ...plane, key: `${area.place}-${k}`, ring: plane.corners.map(scale.at) })).filter(({ way }) => way[0] || way[1]));

function fallDrawn({ key, way, words }) {
  const worded = labels.at(`fall-${key}`);
  const at = worded ?? labels.at(`arrow-${key}`);
  if (!at) return nothing;
  const [wide] = fallSize({ way, words });
  const [x, y] = worded ? [at[0] - wide / 2 + (Math.abs(way[0]) * ARROW) / 2 + 6, at[1]] : at;
  const [dx, dy] = [way[0] * ARROW / 2, way[1] * ARROW / 2];
  const head = ([a, b]) => `${x + dx - a * 9 - b * 4},${y + dy - b * 9 + a * 4} ${x + dx - a * 9 + b * 4},${y + dy - b * 9 - a * 4}`;
  return svg`<g class="fall"><line x1=${x - dx} y1=${y - dy} x2=${x + dx} y2=${y + dy}/><polygon points=${`${x + dx},${y + dy} ${head(way)}`}/>
    ${worded ? svg`<text x=${at[0] + wide / 2 - words.length * 3.6} y=${y + 4}>${words}</text>` : nothing}</g>`;
}

function shapeOf(thing) {
  if (thing.ring) return svg`<path class="opening" d=${`${path(thing.ring.map(scale.at))}Z`}/>`;
  const [x, y] = scale.at(thing.at);
  if (thing.line?.length) return svg`${line(scale.at(thing.line[0]), scale.at(thing.line[1]), "gutter")}<path class="drain" d=${`M${x - 6} ${y - 5}h12l-6 10z`}/>`;
  if (thing.radius) return svg`<circle class="pipe" cx=${x} cy=${y} r=${Math.max(4, thing.radius * scale.by)}/><path class="pipe" d=${`M${x - 8} ${y}h16M${x} ${y - 8}v16`}/>`;
  return svg`<circle class="drain" cx=${x} cy=${y} r="6"/><path class="drain-cross" d=${`M${x - 4} ${y - 4}l8 8m0 -8l-8 8`}/>`;
}

// Of a drain in a side the name stands on the roof's side of it.
function nameAtSide(area, thing, [x, y]) {
  const side = area.sides[thing.side - 1];
  return side ? [x, side.out[1] < -0.5 ? y + 16 : y - 16] : null;
}

function thingDrawn(area, thing) {
  const [x, y] = thing.ring ? middleOf(thing.ring.map(scale.at)) : scale.at(thing.at);
  const key = keyOf(thing);
  const name = labels.at(key);
  const isFixed = thing.is_drawn;
  return svg`<g class="thing ${isFixed ? "is-fixed" : ""}" role="button" tabindex=${tabOf(key)} data-key=${key} aria-label=${`${thing.name}, ${thing.kind.replaceAll("_", " ")}${isFixed ? ", drawn" : "; arrow keys move it"}`}
    @pointerdown=${(event) => { if (!isFixed) grab(event, area, thing); }} @keydown=${(event) => { if (!isFixed) stepped(event, thing); }}>
    <rect class="hit-area" x=${x - 14} y=${y - 14} width="28" height="28"/>${shapeOf(thing)}${name ? svg`<text class="name" x=${name[0]} y=${name[1] + 4}>${thing.name}</text>` : nothing}</g>`;
}

const middleOf = (ring) => [(Math.min(...ring.map((p) => p[0])) + Math.max(...ring.map((p) => p[0]))) / 2, (Math.min(...ring.map((p) => p[1])) + Math.max(...ring.map((p) => p[1]))) / 2];

function areaDrawn(area) {
  const corners = area.corners.map(scale.at);
  if (!corners.length) return nothing;
  const things = [...area.openings, ...area.pipes, ...area.drains];
  return svg`<g class="area">${area.planes.map((plane) => svg`<path class="plane" d=${`${path(plane.corners.map(scale.at))}Z`}/>`)}
    ${area.sides.length > MOST_SIDES ? svg`<path class="many" d=${path(corners) + (area.is_whole ? "Z" : "")}/>` : area.sides.map((side) => sideDrawn(area, side))}
    <path class="start" d=${`M${corners[0][0] - 5} ${corners[0][1]}h10M${corners[0][0]} ${corners[0][1] - 5}v10`}/>
    ${labels.at(`name-${area.place}`) ? svg`<text class="area-name" x=${labels.at(`name-${area.place}`)[0]} y=${labels.at(`name-${area.place}`)[1] + 5}>${area.name}</text>` : nothing}${fallsOf(area).map(fallDrawn)}
    ${area.walk?.gap.length ? gapDrawn(area) : nothing}${things.map((thing) => thingDrawn(area, thing))}</g>`;
}

function gapDrawn(area) {
  const [end, start] = area.walk.gap.map(scale.at);
  return svg`${line(end, start, "gap")}<circle class="end" cx=${end[0]} cy=${end[1]} r="4"/>`;
}

function pointedDrawn() {
  if (!pointed) return nothing;
  const [x, y] = scale.at(pointed.spot);
  return svg`<g class="pointed">${pointed.near.map((each) => { const [from, to] = each.line.map(scale.at); return svg`${line(from, to, "dimension")}<text x=${(from[0] + to[0]) / 2} y=${(from[1] + to[1]) / 2 - 4}>${each.words}</text>`; })}<circle cx=${x} cy=${y} r="4"/></g>`;
}

// One place in the plan is in the tab order; arrows go on from it.
function keys() {
  return [...holder.querySelectorAll("[data-key]")].map((each) => each.dataset.key);
}
const first = () => (now.outline?.areas[0]?.sides.length ? `side-${now.outline.areas[0].place}-1` : "");
const tabOf = (key) => ((focus || first()) === key ? "0" : "-1");

export function drawPlan() {
  if (!now.outline) return;
  const box = now.outline.box;
  if (!box) return render(html`<p class="hint empty">The outline is drawn here as it is measured, with north up.</p>`, holder);
  scale = scaleOf(box);
  labels = lettered();
  const words = pointed ? `${pointed.at}: ${pointed.words}` : now.pick ? `Point: ${now.pick.words}. Escape leaves it.` : "";
  render(html`<svg role="group" aria-label="Plan of the roof, north up" width=${scale.width} height=${scale.height} class=${now.pick ? "is-pointing" : ""}
    @pointermove=${moved} @pointerup=${dropped} @pointercancel=${leave} @click=${taken} @keydown=${keyed} @focusin=${focused}>
    ${now.outline.areas.filter((area) => area.is_whole && area.corners.length).map((area) => svg`<path class="field-of ${area.place === now.area ? "is-at-hand" : ""}" d=${`${path(area.corners.map(scale.at))}Z`}/>`)}${now.outline.areas.map(areaDrawn)}${pointedDrawn()}
    <g class="north" transform=${`translate(${scale.width - 20},30)`} aria-hidden="true"><path d="M0 -16l5 12h-10z"/><text y="10">N</text></g></svg>
    <p class="said hint" role="status">${words}</p>`, holder);
}

function focused(event) {
  const key = event.target.closest("[data-key]")?.dataset.key;
  if (key && key !== focus) { focus = key; drawPlan(); }
}

function keyed(event) {
  if (event.key === "Escape" && (now.pick || dragged)) return leave();
  const at = event.target.closest("[data-key]");
  if (!at) return;
  if (at.classList.contains("side") && (event.key === "Enter" || event.key === " ")) { event.preventDefault(); at.dispatchEvent(new MouseEvent("click", { bubbles: true })); }
  const isStep = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
  const way = at.classList.contains("thing") ? { PageDown: 1, PageUp: -1 }[event.key] : isStep ?? { PageDown: 1, PageUp: -1 }[event.key];
  if (!way) return;
  event.preventDefault();
  const all = keys();
  const place = (all.indexOf(at.dataset.key) + way + all.length) % all.length;
  holder.querySelector(`[data-key="${CSS.escape(all[place])}"]`)?.focus();
}

let steps = { path: "", east: 0, north: 0, timer: 0 };
function stepped(event, thing) {
  const way = MOVES[event.key];
  if (!way) return;
  event.preventDefault();
  event.stopPropagation();
  const by = event.shiftKey ? FAR : 1;
  if (steps.path !== thing.path) steps = { path: thing.path, east: 0, north: 0, timer: 0 };
  steps.east += way[0] * by;
  steps.north += way[1] * by;
  clearTimeout(steps.timer);
  const mine = steps;
  steps.timer = setTimeout(() => {
    const { east, north } = mine;
    Object.assign(mine, { east: 0, north: 0 });
    ask(`${thing.name} moved`, `step?${new URLSearchParams({ path: thing.path, east, north })}`);
  }, 200);
}

const ask = (words, query) => editMade(words, async () => (await get(`${job.address}/${query}`)).edits).catch((refusal) => { pointed = null; console.warn(refusal.message); });

function grab(event, area, thing) {
  if (now.pick) return;
  event.preventDefault();
  const [x, y] = at(event);
  dragged = { area: area.place, thing, from: [x, y], has: false, off: [thing.at[0] - x, thing.at[1] - y] };
  event.currentTarget.closest("svg").setPointerCapture(event.pointerId);
}

function at(event) {
  const box = holder.querySelector("svg").getBoundingClientRect();
  return scale.back(event.clientX - box.left, event.clientY - box.top);
}

// The newest place is asked for, one question at a time.
async function point(area, x, y) {
  next = { area, x, y };
  if (isAsking) return;
  isAsking = true;
  while (next) {
    const query = new URLSearchParams(next);
    next = null;
    pointed = await get(`${job.address}/point?${query}`).catch(() => null);
    if (!now.pick && !dragged) pointed = null;
    drawPlan();
  }
  isAsking = false;
}

function moved(event) {
  const [x, y] = at(event);
  if (now.pick) return point(now.area, x, y);
  if (dragged) {
    dragged.has ||= Math.hypot(x - dragged.from[0], y - dragged.from[1]) * scale.by > 4;
    if (dragged.has) point(dragged.area, x + dragged.off[0], y + dragged.off[1]);
  }
}

function dropped(event) {
  if (!dragged) return;
  const { area, thing, has, off } = dragged;
  const [x, y] = at(event);
  leave();
  if (has) ask(`${thing.name} moved`, `place?${new URLSearchParams({ path: thing.path, kind: thing.kind, area, x: x + off[0], y: y + off[1] })}`);
}

async function taken(event) {
  if (!now.pick) return;
  const [x, y] = at(event);
  const pick = now.pick;
  const found = await get(`${job.address}/point?${new URLSearchParams({ area: now.area, x, y })}`).catch(() => null);
  leave();
  if (found) pick.done(found);
}

function leave() {
  now.pick = null;
  dragged = null;
  next = null;
  pointed = null;
  redraw();
  drawPlan();
}

export function showOver(side) {
  over = side;
  drawPlan();
}
