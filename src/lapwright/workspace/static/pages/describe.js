// The sheet "describe": the steps of a job from nothing, each with what is still missing, the live outline beside them,
// or the job file itself.
import { html, nothing, render } from "../lit/lit-html.js";
import { job, on } from "../core/job.js";
import { tellRefusal } from "../core/show.js";
import { block, body, countFaults, fields, hasFaults, idOf, ownFaults, starts, wrongs } from "../describe/fields.js";
import { drawPlan, planHolder } from "../describe/plan.js";
import { drawings } from "../describe/drawings.js";
import { keepButton, sheetList } from "../describe/sheets.js";
import { weather } from "../describe/weather.js";
import { edges } from "../describe/edges.js";
import { outlineOf, forgetTyped } from "../describe/walk.js";
import { standing } from "../describe/standing.js";
import { areaBlock, areaNow, drawNow, make, now, onDraw, onLoaded, redraw, reload } from "../describe/state.js";
import { textPane } from "../describe/textpane.js";

const page = document.getElementById("describe");
render(html`<div id="told"></div><div class="sheet-grid"><div id="steps-of"></div><aside id="beside" aria-label="Beside the steps"></aside></div>`, page);
const [told, steps, beside] = ["told", "steps-of", "beside"].map((id) => document.getElementById(id));
let shown = "plan";
let pane = null;

const missing = (step) => (step.missing ? `${step.missing} to put right` : step.idle || "");

function index() {
  return html`<nav aria-label="Steps of the description"><ol class="index">${now.form.steps.map((step) => html`<li><a href=${`#step-${step.key}`}>${step.name}</a>${step.missing ? html` <span class="count">▲ ${step.missing}</span>` : nothing}</li>`)}</ol></nav>`;
}

function choose(place) {
  now.area = place;
  redraw();
}

// The areas, each with what of it is to be put right in a step; what is said of a whole one is shown though it is not at hand.
function areaTabs(key) {
  if (now.outline.areas.length < 2) return nothing;
  const wrong = (area) => countFaults(areaBlock(key, area.place));
  const said = (area) => { const all = areaBlock(key, area.place); return all ? [...all.faults, ...all.blocks.flatMap((each) => each.faults)] : []; };
  const others = now.outline.areas.filter((area) => area.place !== now.area && said(area).length);
  return html`<p class="ways" role="group" aria-label="Area at hand">${now.outline.areas.map((area) => html`<button type="button" aria-pressed=${area.place === now.area} @click=${() => choose(area.place)}>${area.name}${wrong(area) ? html` <span class="count">▲ ${wrong(area)}</span>` : nothing}</button>`)}</p>
    ${others.map((area) => html`<p>${area.name}: ${wrongs(said(area), `other-${key}-${area.place}`)}</p>`)}`;
}

async function addArea() {
  const names = now.outline.areas.map((area) => area.name);
  const name = names.length ? `Area ${names.length + 1}` : "Main";
  if (await make(`area ${name} added`, [{ edit: "add", path: "roof", values: { area: name } }], "step-roof")) {
    await reload();
    choose(now.outline.areas.length - 1);
    drawNow();
    document.getElementById(`leg-${now.area}-0`)?.focus();
  }
}

function roof() {
  const area = areaNow();
  const block = area && areaBlock("roof", area.place);
  const drawn = now.form.steps[0].blocks.find((each) => each.path === "areas");
  return html`${area && block ? html`${areaTabs("roof")}${ownFaults(block)}${outlineOf(area)}${fields(block.fields)}
    <p class="ways"><button type="button" @click=${addArea}>Add another area</button> <button type="button" @click=${() => make(`${area.name} taken out`, [{ edit: "drop", path: `roof[${area.place}]` }], "step-roof")}>Take out ${area.name}</button></p>`
    : html`<p>An area is a plane of the roof, or several that fill one outline.</p><p class="ways"><button type="button" class="main" @click=${addArea}>Add the first area</button></p>`}${drawings()}${drawn ? html`<details class="part" ?open=${hasFaults(drawn)}><summary>Layers taken from ${drawn.fields.find((each) => each.value)?.value || "a drawing"}</summary>${ownFaults(drawn)}${body(drawn)}</details>` : nothing}`;
}

function falls() {
  const area = areaNow();
  const block = area && areaBlock("falls", area.place);
  return block ? html`${areaTabs("falls")}${ownFaults(block)}${body(block)}` : html`<p class="hint">Said of each area.</p>`;
}

const EXTRA = {
  sheets: (each) => html`${sheetList(each.items.map((item) => item.key))}${body(each, { ways: keepButton })}`,
  weather: (each) => html`${weather(each)}${fields(each.fields)}`,
};

const OWN = { roof, edges: () => html`${areaTabs("edges")}${edges()}`, standing: () => html`${areaTabs("standing")}${standing()}`, falls };

function section(step, number) {
  const failed = now.failed.get(`step-${step.key}`) || [];
  return html`<section id=${`step-${step.key}`} class="step" aria-labelledby=${`head-${step.key}`}>
    <h2 id=${`head-${step.key}`}><span class="no">${number}</span> ${step.name}</h2><p class="hint">${step.about}</p>
    <p class=${step.missing ? "wrong" : "hint"}>${missing(step)}</p>
    ${step.faults.length || failed.length ? html`<p>${wrongs([...failed, ...step.faults], `wrong-${step.key}`)}</p>` : nothing}
    ${starts(step)}${OWN[step.key]?.() ?? html`${fields(step.fields || [])}${step.blocks.map((each, k) => block(each, EXTRA, k === 0))}`}</section>`;
}

function show(kind) {
  shown = kind;
  redraw();
}

function drawBeside() {
  if (shown === "text") pane ||= textPane();
  render(html`<p class="ways" role="group" aria-label="Shown beside"><button type="button" aria-pressed=${shown === "plan"} @click=${() => show("plan")}>Plan</button><button type="button" aria-pressed=${shown === "text"} @click=${() => show("text")}>Job file</button></p>${shown === "plan" ? planHolder : pane.element}`, beside);
  if (shown === "plan") drawPlan();
}

// Where whoever types is: the control that has the keyboard, else the first heading in sight.  Lines come and go above
// it as things are given; it stays where it is on the screen.
function anchor() {
  const isSeen = (each) => { const box = each.getBoundingClientRect(); return box.bottom > 0 && box.top < window.innerHeight; };
  const at = document.activeElement;
  return steps.contains(at) && isSeen(at) ? at : [...steps.querySelectorAll("h2")].find(isSeen);
}

function draw() {
  if (!now.form) return;
  const held = anchor();
  const top = held?.getBoundingClientRect().top;
  drawSteps();
  if (held?.isConnected) window.scrollBy({ top: held.getBoundingClientRect().top - top, behavior: "instant" });
  drawBeside();
}

function drawSteps() {
  render(html`${index()}${now.form.faults.length ? html`<p>${wrongs(now.form.faults, "form-wrong")}</p>` : nothing}
    ${now.form.steps.map((step, k) => section(step, k + 1))}
    <p class="ways"><a class="button" href=${`/jobs/${encodeURIComponent(job.name)}/roof`}>${now.form.missing ? `${now.form.missing} to put right before the roof is laid` : "See the roof laid"}</a></p>`, steps);
}

// The field that an address names, as a check does that lacks it: describe#at=roof[0].edges[1].height.  Where it is
// not on the sheet, what stands above it, or what the plan shows there, is gone to.
async function goTo() {
  const asked = location.hash.startsWith("#at=") ? decodeURIComponent(location.hash.slice(4)) : "";
  if (!asked) return;
  const area = /^roof\[(\d+)\]/.exec(asked);
  const drawn = /^areas\.layers\.("[^"]*"|[^.]+)\.(openings|pipes|drains)\b/.exec(asked);
  if (area) now.area = Number(area[1]);
  if (drawn) now.area = now.outline.areas.find((each) => each.name === drawn[1].replaceAll('"', ""))?.place ?? now.area;
  draw();
  const place = drawn ? document.querySelector(`#step-standing [data-list="${drawn[2]}"] input`) : nearest(asked);
  if (!place) return;
  for (let each = place.parentElement; each; each = each.parentElement) if (each.localName === "details") each.open = true;
  await new Promise(requestAnimationFrame);
  place.scrollIntoView({ block: "center" });
  place.focus({ preventScroll: true });
}

function nearest(path) {
  for (let at = path; at; at = at.replace(/(\.("[^"]*"|[^.[\]]+)|\[\d+\])$|^[^.[\]]+$/, "")) {
    const found = document.getElementById(idOf(at)) ?? document.getElementById(`${idOf(at)}-more`);
    if (found) return found;
  }
  const [top] = path.split(/[.[]/);
  const step = now.form.steps.find((each) => each.keys.some((key) => key === top)) ?? now.form.steps.find((each) => each.keys.some((key) => key.startsWith(`${top}.`)));
  return step ? document.querySelector(`#step-${step.key} :is(button, input, select)`) : null;
}

let isArrived = false;

async function load() {
  try {
    await reload();
    render(nothing, told);
    if (!isArrived) { isArrived = true; await goTo(); }
  } catch (refusal) {
    tellRefusal(told, refusal, load);
  }
}

// On a narrow screen the plan stays at the top: the index of steps stays right under it.
const narrow = matchMedia("(max-width: 63.99rem)");
const underIt = () => document.documentElement.style.setProperty("--beside", narrow.matches ? `${beside.offsetHeight}px` : "0px");
new ResizeObserver(underIt).observe(beside);
narrow.addEventListener("change", underIt);

window.addEventListener("hashchange", () => { if (now.form) goTo(); });
onLoaded(forgetTyped);
onDraw(draw);
on("changed", load);
if (job.text !== null) load();
