// Openings, pipes and drains: typed by tape distances from the area's first corner, or pointed at on the plan.
import { html, nothing } from "../lit/lit-html.js";
import { get } from "../core/api.js";
import { edit, editMade, job } from "../core/job.js";
import { adder, itemOf, ownFaults, wrongs } from "./fields.js";
import { areaBlock, areaNow, faultsOf, now, redraw } from "./state.js";
import { drawPlan, planHolder } from "./plan.js";

const IN_SIDES = ["scupper", "overflow_scupper", "gutter"];

function begin(words, done) {
  now.pick = { words, done };
  redraw();
  drawPlan();
  planHolder.scrollIntoView({ block: "nearest" });
}

// Where it is pointed at, put among the values of one that is not there yet.
function pointNew(values, kind) {
  begin(kind ? `where the ${kind.replaceAll("_", " ")} stands` : "where it stands", (found) => {
    if (IN_SIDES.includes(kind)) Object.assign(values, { side: found.side.side, ...(kind === "gutter" ? {} : { from_start: found.side.from_start }) });
    else values.at = found.at;
    redraw();
  });
}

function pointOld(item, name) {
  const kind = item.fields.find((each) => each.key === "kind")?.value || "";
  begin(`where ${name} stands`, (found) => {
    const query = new URLSearchParams({ path: item.path, kind, area: now.area, x: found.spot[0], y: found.spot[1] });
    editMade(`${name} moved`, async () => (await get(`${job.address}/place?${query}`)).edits).catch(() => {});
  });
}

const pointButton = (words, act) => html`<button type="button" @click=${act}>${words}</button>`;

// What a drawing can't say of what it shows, and how that is called.
const UNSAID = { openings: ["height", "Height above the roof", '8"', "200 mm"], pipes: ["diameter", "Diameter", '4"', "100 mm"], drains: ["diameter", "Inside diameter", '4"', "100 mm"] };
const alike = {}; // what is typed for all of a list

// The entry that speaks of a drawn thing, by its place or, where it can't be read yet, by its name.
const valueOf = (item, key) => item?.fields.find((each) => each.key === key)?.value ?? "";
const itemOfThing = (list, thing) => list.items.find((item) => item.path === thing.path) ?? list.items.find((item) => valueOf(item, "name") === thing.name && !valueOf(item, "at"));

// An entry of its own says it, by the name that the drawing gives.
async function sayOf(list, things, value) {
  const [key] = UNSAID[list.key];
  const edits = things.map((thing) => {
    const item = itemOfThing(list, thing);
    if (!item) return { edit: "add", path: list.path, values: { name: thing.name, [key]: value } };
    return value ? { edit: "set", path: `${item.path}.${key}`, value } : { edit: "drop", path: `${item.path}.${key}` };
  });
  const words = `${things.map((thing) => thing.name).join(", ")}: ${UNSAID[list.key][1].toLowerCase()} ${value || "taken out"}`;
  try {
    await edit(words.slice(0, 200), edits);
    now.failed.delete(list.path);
    alike[list.path] = "";
  } catch (refusal) {
    now.failed.set(list.path, faultsOf(refusal));
  }
  redraw();
}

// What stands there because a drawing shows it.
function drawnOnes(list, things) {
  const [, words, us, metric] = UNSAID[list.key];
  const example = `e.g. ${job.units === "metric" ? metric : us}`;
  const open = things.filter((thing) => !thing.said && !itemOfThing(list, thing));
  const id = (k) => `drawn-${list.path.replace(/[^A-Za-z0-9]+/g, "-")}-${k}`;
  const [key] = UNSAID[list.key];
  const said = (thing) => valueOf(itemOfThing(list, thing), key) || thing.said;
  const faults = (thing) => [...(itemOfThing(list, thing)?.faults ?? []), ...(itemOfThing(list, thing)?.fields ?? []).flatMap((each) => each.faults)];
  return html`<p class="hint">As the drawing shows them; what it can't say is typed here.</p><ul class="drawn-ones">${things.map((thing, k) => html`<li><span class="what"><b>${thing.name}</b> ${thing.words}</span>
      <span class="field"><label for=${id(k)}>${words}</label><input id=${id(k)} aria-label=${`${words}: ${thing.name}`} autocomplete="off" spellcheck="false" placeholder=${example} .value=${said(thing)} @change=${(event) => { const value = event.target.value.trim(); if (value !== said(thing) && (value || itemOfThing(list, thing))) sayOf(list, [thing], value); }}>${wrongs(faults(thing), `${id(k)}-wrong`)}</span></li>`)}</ul>
    ${open.length > 1 ? html`<form class="ways" novalidate @submit=${(event) => { event.preventDefault(); const value = (alike[list.path] ?? "").trim(); if (value) sayOf(list, open, value); }}>
      <label for=${id("all")}>${words}, of the ${open.length} not given</label><input id=${id("all")} autocomplete="off" spellcheck="false" placeholder=${example} .value=${alike[list.path] ?? ""} @input=${(event) => { alike[list.path] = event.target.value; }}><button>Say it of them</button></form>` : nothing}`;
}

const shownDrawn = (area, list) => area[list.key].filter((thing) => thing.is_drawn);

// The lists of the area at hand.
export function standing() {
  const area = areaNow();
  if (!area) return html`<p class="hint">They are placed once there is an area.</p>`;
  const block = areaBlock("standing", area.place);
  if (!block) return nothing;
  const ways = (list, item, name) => pointButton("Point at its place", () => pointOld(item, name));
  return html`${ownFaults(block)}${block.blocks.map((list) => html`<fieldset class="part" data-list=${list.key}><legend>${list.name}</legend><p class="hint">${list.meaning}</p>${ownFaults(list)}
    ${shownDrawn(area, list).length ? drawnOnes(list, shownDrawn(area, list)) : nothing}
    ${list.items.filter((item) => !shownDrawn(area, list).some((thing) => itemOfThing(list, thing) === item)).map((item) => itemOf(list, item, { ways }))}
    ${adder(list, (values, kind) => (area.corners.length ? pointButton("Point at its place", () => pointNew(values, kind)) : nothing), !list.items.length && !area[list.key].length)}</fieldset>`)}`;
}
