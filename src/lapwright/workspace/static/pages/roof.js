// The sheet "roof": the plan to scale with its panel, the aims to choose from, and the tables behind it.
import { html, render } from "../lit/lit-html.js";
import { get, view } from "../core/api.js";
import { job, set } from "../core/job.js";
import { show, tellRefusal } from "../core/show.js";
import { Model } from "../roof/model.js";
import { aims, panel } from "../roof/panel.js";
import { Stage } from "../roof/stage.js";
import { table } from "../roof/tables.js";

const page = document.getElementById("roof");
render(html`<div id="working"></div>
  <div class="plan" hidden><div class="paper"><canvas tabindex="0" role="img" aria-label="Plan of the roof. Arrows move it, plus and minus zoom, 0 shows the whole, Enter chooses what is in the middle; the tables below hold the same in words."></canvas>
    <p class="zoom"><button type="button" aria-label="nearer">+</button><button type="button" aria-label="farther">−</button><button type="button">whole</button></p></div>
    <div class="panel"></div></div>
  <section class="aims" hidden><h2>What it costs to spare</h2><div></div></section>
  <section class="tables" hidden><h2>In words</h2><details><summary>Pieces in the order of laying</summary><div data-kind="piece"></div></details><details><summary>Laps</summary><div data-kind="lap"></div></details></section>`, page);
const at = (selector) => page.querySelector(selector);

const state = { names: [], layers: new Set(["laps", "joints", "numbers", "words"]), laid: 0, chosen: "", over: "", measured: [], reach: null, isMeasuring: false, isRunning: false };
const looks = { piece: { words: "", from: 0 }, lap: { words: "", from: 0 } };
let model = null, card = null, tape = "", compared = null, timer = 0;
const stage = new Stage(at("canvas"), state, { pointed() {}, chosen: choose, measured: measure });
const [nearer, farther, whole] = page.querySelectorAll(".zoom button");
nearer.onclick = () => { stage.place.zoom(1.4); stage.ask(); };
farther.onclick = () => { stage.place.zoom(1 / 1.4); stage.ask(); };
whole.onclick = () => stage.fit();

function redraw() {
  if (!model) return;
  render(panel({ model, state, card, tape, acts }), at(".panel"));
  for (const place of page.querySelectorAll("[data-kind]")) if (place.parentElement.open) render(table(model, place.dataset.kind, looks[place.dataset.kind], redraw, (thing) => { choose(thing); stage.goTo(thing); at("canvas").focus(); }), place);
  stage.ask();
}
for (const each of page.querySelectorAll("details")) each.addEventListener("toggle", redraw);

function showAims() {
  render(aims(compared, (aim) => set("layout.aim", aim, `aim: ${aim.replaceAll("_", " ")}`), askAims), at(".aims > div"));
}

async function askAims() {
  const place = at(".aims > div");
  render(html`<p class="working" role="status">laying it out for each aim…</p>`, place);
  try {
    compared = await view(job.name, "choices");
    showAims();
  } catch (refusal) {
    tellRefusal(place, refusal, askAims);
  }
}

const acts = {
  ply(key) { state.names = key === "all" ? model.view.names : [key]; redraw(); },
  layer(key) { state.layers[state.layers.has(key) ? "delete" : "add"](key); redraw(); },
  laid(count) { state.laid = Math.min(model.last, Math.max(0, count)); redraw(); },
  measure() { state.isMeasuring = !state.isMeasuring; state.measured = []; state.reach = null; tape = state.isMeasuring ? "click where the tape begins" : ""; redraw(); },
  run() {
    state.isRunning = !state.isRunning;
    clearInterval(timer);
    if (state.isRunning) {
      if (state.laid >= model.last) state.laid = 0;
      timer = setInterval(() => { acts.laid(state.laid + 1); if (state.laid >= model.last) acts.run(); }, Math.max(16, 12000 / model.last));
    }
    redraw();
  },
};

async function choose(thing) {
  state.chosen = thing?.id ?? "";
  card = null;
  redraw();
  if (!thing) return;
  try {
    const found = await view(job.name, "card", { id: thing.id });
    if (state.chosen === thing.id) card = found;
  } catch (refusal) {
    card = { title: thing.id, rows: [["", refusal.message]] };
  }
  redraw();
}

async function measure(point, isOnTheWay) {
  state.reach = isOnTheWay ? point : null;
  if (isOnTheWay) return stage.ask();
  state.measured = state.measured.length === 1 ? [state.measured[0], point] : [point];
  if (state.measured.length === 1) tape = "click where it ends";
  else {
    const [[x0, y0], [x1, y1]] = state.measured;
    const found = await get(`${job.address}/distance?${new URLSearchParams({ x0, y0, x1, y1 })}`);
    tape = `${found.distance} (${found.east}, ${found.north})`;
  }
  redraw();
}

function take(found) {
  const before = model;
  const wasWhole = !before || state.laid >= before.last;
  model = new Model(found);
  if (wasWhole) state.laid = model.last;
  state.laid = Math.min(state.laid, model.last);
  if (!state.names.length || state.names.some((name) => !found.names.includes(name))) state.names = [found.names.at(-1)];
  for (const name of [".plan", ".aims", ".tables"]) at(name).hidden = false;
  if (!found.draft) { compared = null; showAims(); }
  stage.resize();
  stage.show(model);
  redraw();
  if (!before || before.view.draft) goToNamed();
}

// What an address names by its id (roof#South/cap/01/1) is chosen and brought to the middle.
function goToNamed() {
  const thing = model?.byId.get(decodeURIComponent(location.hash.slice(1)));
  if (!thing) return;
  if (thing.name && model.view.names.includes(thing.name)) state.names = [thing.name];
  choose(thing);
  stage.goTo(thing);
}
window.addEventListener("hashchange", goToNamed);

show("roof", { place: at("#working"), draw: take });
showAims();
