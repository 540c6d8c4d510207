// What each side is: sides chosen on the plan or in the list, and one form that says it of all of them.
import { html, nothing } from "../lit/lit-html.js";
import { live } from "../lit/directives/live.js";
import { post } from "../core/api.js";
import { editMade, job } from "../core/job.js";
import { body, gathered, hasFaults, ownFaults, valuesOf, wrongs } from "./fields.js";
import { chooseSide, showOver } from "./plan.js";
import { areaBlock, areaNow, chosen, chosenOf, faultsOf, listOf, now, redraw } from "./state.js";

const said = {}; // kind, height
const metal = {};
let lastKind = "";
const FLAT = ["metal_edge"]; // no height is said of them

async function say(shown, withMetal) {
  const values = valuesOf(shown, said);
  if (withMetal) {
    const made = valuesOf(withMetal, metal);
    if (Object.keys(made).length) values.metal = made;
  }
  const words = `${chosenWords()} ${values.kind ? values.kind.replaceAll("_", " ") : "not given"}`;
  const meant = chosen().map(([area, sides]) => ({ area, sides: [...sides].sort((a, b) => a - b), said: values }));
  try {
    await editMade(words.slice(0, 200), async () => (await Promise.all(meant.map((each) => post(`${job.address}/sides`, each)))).flatMap((each) => each.edits));
    now.failed.delete("sides");
    now.sides.clear();
  } catch (refusal) {
    now.failed.set("sides", faultsOf(refusal));
  }
  redraw();
}

// The sides chosen, of each area: a click on another area's side adds to them.
const chosenWords = () => chosen().map(([area, sides]) => `${now.outline.areas[area].name}: ${sides.size === 1 ? "side" : "sides"} ${[...sides].sort((a, b) => a - b).join(", ")}`).join("; ");

function list(area) {
  return html`<ul class="sides">${area.sides.slice(0, 400).map((side) => html`<li @pointerenter=${() => showOver(side.side)} @pointerleave=${() => showOver(0)}><label><input type="checkbox" .checked=${live(chosenOf(area.place).has(side.side))} @change=${() => chooseSide(area.place, side.side)}>
    <span class="no">${side.side}</span> ${side.length} ${side.way} <span class="kind">${side.words}</span></label></li>`)}</ul>`;
}

const SAMPLES = [["metal_edge", "metal edge"], ["parapet", "parapet"], ["wall", "wall"], ["ridge", "ridge"], ["valley", "valley"], ["step", "step"], ["expansion", "expansion joint"], ["tie_in", "tie-in"], ["", "not given"]];

function legend() {
  return html`<ul class="legend" aria-label="Lines of the plan">${SAMPLES.map(([kind, words]) => html`<li><span class="sample sample-${kind || "none"}" aria-hidden="true"></span>${words}</li>`)}</ul>`;
}

// The form for the sides of the area at hand.
export function edges() {
  const area = areaNow();
  if (!area || !area.sides.length) return html`<p class="hint">Sides are listed here once the outline of an area is walked.</p>`;
  const block = areaBlock("edges", area.place);
  const template = listOf(block, "edges")?.template;
  const entry = listOf(block, "edges");
  if (!template) return nothing;
  const kind = said.kind ?? "";
  if (lastKind && kind !== lastKind) delete said.height; // another kind is another height
  lastKind = kind;
  const shown = template.fields.filter((each) => each.key !== "sides" && !(each.key === "height" && FLAT.includes(kind)));
  const metalFields = kind === "metal_edge" ? template.blocks.find((each) => each.key === "metal").fields : null;
  const count = chosen().reduce((sum, [, sides]) => sum + sides.size, 0);
  const all = (choose) => { now.sides.set(area.place, new Set(area.sides.filter(choose).map((side) => side.side))); redraw(); };
  const none = () => { now.sides.clear(); redraw(); };
  const faults = now.failed.get("sides") || [];
  return html`${ownFaults(block)}${ownFaults(entry)}<p class="ways" role="group" aria-label="Choose sides"><button type="button" @click=${() => all(() => true)}>All sides</button><button type="button" @click=${() => all((side) => side.group === null)}>Those not given</button><button type="button" ?disabled=${!count} @click=${none}>None</button></p>
    ${list(area)}${legend()}
    <form class="adder" novalidate aria-label="What the chosen sides are" @submit=${(event) => { event.preventDefault(); if (count) say(shown, metalFields); }}>
      <div class="fields">${shown.map((each) => gathered(each, said, "sides"))}</div>
      ${metalFields ? html`<fieldset class="part"><legend>Edge metal</legend><div class="fields">${metalFields.map((each) => gathered(each, metal, "sides-metal"))}</div></fieldset>` : nothing}
      <p class="ways"><button ?disabled=${!count}>${count ? `Say it of ${count === 1 ? "1 side" : `${count} sides`}` : "Choose sides first"}</button>${chosen().length > 1 ? html` <span class="hint">${chosenWords()}</span>` : nothing}</p>
      ${faults.length ? html`<p>${wrongs(faults, "sides-wrong")}</p>` : nothing}
    </form>
    ${entry.items.length ? html`<details class="part" ?open=${hasFaults(entry)}><summary>Entries of the job file (${entry.items.length})</summary>${body({ ...entry, items: entry.items, template: entry.template })}</details>` : nothing}`;
}
