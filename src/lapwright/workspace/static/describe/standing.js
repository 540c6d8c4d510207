// Openings, pipes and drains: typed by tape distances from the area's first corner, or pointed at on the plan.
import { html, nothing } from "../lit/lit-html.js";
import { get } from "../core/api.js";
import { editMade, job } from "../core/job.js";
import { adder, itemOf, ownFaults } from "./fields.js";
import { areaBlock, areaNow, now, redraw } from "./state.js";
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

// The lists of the area at hand.
export function standing() {
  const area = areaNow();
  if (!area) return html`<p class="hint">They are placed once there is an area.</p>`;
  const block = areaBlock("standing", area.place);
  if (!block) return nothing;
  const ways = (list, item, name) => pointButton("Point at its place", () => pointOld(item, name));
  return html`${ownFaults(block)}${block.blocks.map((list) => html`<fieldset class="part"><legend>${list.name}</legend><p class="hint">${list.meaning}</p>${ownFaults(list)}
    ${list.items.map((item) => itemOf(list, item, { ways }))}
    ${adder(list, (values, kind) => (area.corners.length ? pointButton("Point at its place", () => pointNew(values, kind)) : nothing))}</fieldset>`)}`;
}
