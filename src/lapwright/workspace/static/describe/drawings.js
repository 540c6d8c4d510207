// A drawing dropped or chosen: looked into by the server, its layers taken for outlines and for what stands in them.
import { html, nothing } from "../lit/lit-html.js";
import { get, post, send } from "../core/api.js";
import { edit, job } from "../core/job.js";
import { wrongs } from "./fields.js";
import { faultsOf, now, redraw } from "./state.js";

const UNITS = [["", "as the drawing says"], ["in", "inches"], ["ft", "feet"], ["ftUS", "US survey feet"], ["mm", "millimetres"], ["cm", "centimetres"], ["m", "metres"]];
const at = { files: null, uses: [], found: null, taken: new Map(), names: new Map(), sizes: new Map(), unit: "", said: [], faults: [], state: "" };

async function list() {
  const { files, uses } = await get("/api/files");
  Object.assign(at, { files: files.filter((name) => /\.(dxf|geojson|json)$/i.test(name)), uses });
  redraw();
}

// What was given, kept by the server under a name that is free.
export async function give(file) {
  return send(`/api/files/${encodeURIComponent(file.name)}`, file);
}

async function look(make, words) {
  Object.assign(at, { state: words, faults: [], said: [], found: null });
  redraw();
  try {
    at.found = await make();
    const was = takenAlready();
    at.taken.clear();
    at.found.layers.forEach((each) => {
      const before = was.get(each.layer);
      at.taken.set(each.layer, before?.use ?? (at.found.layers.length === 1 ? "outline" : ""));
      if (before?.area) at.names.set(each.layer, before.area);
      if (before?.size) at.sizes.set(each.layer, before.size);
    });
    at.unit = "";
    at.state = `${at.found.file}: ${at.found.layers.length} ${at.found.layers.length === 1 ? "layer" : "layers"}`;
    await list();
  } catch (refusal) {
    Object.assign(at, { faults: faultsOf(refusal), state: "" });
  }
  redraw();
}

// What the job takes its layers for: a later issue of the drawing is taken the same way, until somebody says otherwise.
function takenAlready() {
  const was = new Map();
  const drawn = now.form?.steps[0].blocks.find((each) => each.path === "areas");
  for (const area of drawn?.blocks.find((each) => each.key === "layers")?.items ?? []) {
    const outline = area.fields.find((each) => each.key === "outline")?.value;
    if (outline) was.set(outline, { use: "outline", area: area.key });
    for (const list of area.blocks) {
      for (const layer of list.items ?? []) {
        const said = (name) => layer.fields.find((each) => each.key === name)?.value;
        const use = said("kind") || layer.fields[0]?.value || (list.key === "pipes" ? "pipe" : "");
        was.set(layer.key, { use, size: said("height") || said("diameter") || "" });
      }
    }
  }
  return was;
}

const dropped = (event) => {
  event.preventDefault();
  event.currentTarget.classList.remove("is-over");
  const file = event.dataTransfer.files[0];
  if (file) look(() => give(file), `${file.name} is being read…`);
};

async function take() {
  const layers = [...at.taken].filter(([, use]) => use).map(([layer, use]) => ({ layer, use, area: use === "outline" ? (at.names.get(layer) ?? nameOf(layer)).trim() : "", size: saidOf(use) ? (at.sizes.get(layer) ?? "").trim() : "" }));
  Object.assign(at, { faults: [], state: "the layers are being read…" });
  redraw();
  try {
    const found = await post(`${job.address}/drawing`, { file: at.found.file, unit: at.unit, layers });
    await edit(`drawn areas from ${at.found.file}`.slice(0, 200), found.edits);
    Object.assign(at, { said: [...found.words, ...found.mended], state: "taken", found: null });
  } catch (refusal) {
    Object.assign(at, { faults: faultsOf(refusal), state: "" });
  }
  redraw();
}

const nameOf = (layer) => (now.outline?.areas.length === 1 && now.outline.areas[0].source === "none" ? now.outline.areas[0].name : layer);

const saidOf = (use) => at.uses.find(([each]) => each === use)?.[2] ?? "";
const SAID = { height: ["height above the roof", '8"', "200 mm"], diameter: ["inside diameter", '4"', "100 mm"] };

// What the layer is taken for, and what a drawing can't say of it.
function more(each, k) {
  const use = at.taken.get(each.layer);
  if (use === "outline") return html`<label for=${`drawn-name-${k}`}>named</label> <input id=${`drawn-name-${k}`} autocomplete="off" .value=${at.names.get(each.layer) ?? nameOf(each.layer)} @input=${(event) => at.names.set(each.layer, event.target.value)}>`;
  if (!SAID[saidOf(use)]) return nothing;
  const [words, us, metric] = SAID[saidOf(use)];
  return html`<label for=${`drawn-size-${k}`}>${words}</label> <input id=${`drawn-size-${k}`} autocomplete="off" placeholder=${`e.g. ${job.units === "metric" ? metric : us}`} .value=${at.sizes.get(each.layer) ?? ""} @input=${(event) => at.sizes.set(each.layer, event.target.value)}>`;
}

function layers() {
  const found = at.found;
  const isReady = [...at.taken.values()].includes("outline");
  return html`<table><caption>Layers of ${found.file}${found.unit ? `, drawn in ${found.unit}` : ""}</caption><thead><tr><th scope="col">Layer</th><th scope="col">Holds</th><th scope="col">Taken for</th></tr></thead><tbody>
    ${found.layers.map((each, k) => html`<tr><th scope="row">${each.layer}</th><td>${each.holds}</td><td><select aria-label=${`${each.layer} is`} @change=${(event) => { at.taken.set(each.layer, event.target.value); redraw(); }}>
      <option value="" ?selected=${!at.taken.get(each.layer)}>left out</option>${at.uses.map(([use, words]) => html`<option value=${use} ?selected=${at.taken.get(each.layer) === use}>${words}</option>`)}</select>
      ${more(each, k)}</td></tr>`)}</tbody></table>
    <div class="fields"><div class="field"><label for="drawn-unit">Unit of the drawing</label><select id="drawn-unit" @change=${(event) => { at.unit = event.target.value; }}>${UNITS.map(([unit, words]) => html`<option value=${unit} ?selected=${at.unit === unit}>${words}</option>`)}</select></div>
    <p class="field"><button type="button" ?disabled=${!isReady} @click=${take}>${isReady ? "Take these layers" : "Say which layer is the outline"}</button></p></div>`;
}

// The part of the step "roof" that takes a drawing.
export function drawings() {
  if (!at.files) {
    at.files = [];
    list().catch(() => {});
  }
  const read = (event) => { const file = event.target.files[0]; event.target.value = ""; if (file) look(() => give(file), `${file.name} is being read…`); };
  return html`<details class="part" ?open=${Boolean(at.found || at.faults.length || at.said.length)}><summary>From a drawing or a map <span class="hint">DXF or GeoJSON</span></summary>
    <div class="drop" @dragover=${(event) => { event.preventDefault(); event.currentTarget.classList.add("is-over"); }} @dragleave=${(event) => event.currentTarget.classList.remove("is-over")} @drop=${dropped}>
      <p><label for="drawn-file">Drop a file here, or choose one</label> <input id="drawn-file" type="file" accept=".dxf,.geojson,.json" @change=${read}></p>
      ${at.files.length ? html`<p class="ways">In the folder: ${at.files.slice(0, 12).map((name) => html`<button type="button" @click=${() => look(() => get(`/api/files/${encodeURIComponent(name)}/layers`), `${name} is being read…`)}>${name}</button>`)}</p>` : nothing}</div>
    <p role="status" class="hint">${at.state}</p>${at.faults.length ? html`<p role="alert">${wrongs(at.faults, "drawn-wrong")}</p>` : nothing}
    ${at.said.length ? html`<ul>${at.said.map((words) => html`<li>${words}</li>`)}</ul>` : nothing}${at.found ? layers() : nothing}</details>`;
}
