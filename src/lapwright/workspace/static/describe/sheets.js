// The list of sheets: a data sheet typed once is taken for the next job; a sheet of this job is kept for others.
import { html, nothing } from "../lit/lit-html.js";
import { get, post } from "../core/api.js";
import { job } from "../core/job.js";
import { quoted, wrongs } from "./fields.js";
import { faultsOf, make, now, redraw } from "./state.js";

let kept = null;
let said = "";

async function list() {
  kept = [];
  try {
    kept = (await get("/api/sheets")).sheets;
  } catch (refusal) {
    now.failed.set("sheet-list", faultsOf(refusal));
  }
  redraw();
}

const take = (sheet) => make(`sheet ${sheet.name} taken from the list`, Object.entries(sheet.values).map(([key, value]) => ({ edit: "set", path: `sheets.${quoted(sheet.name)}.${key}`, value })), "sheet-list");

async function keep(name) {
  try {
    kept = (await post("/api/sheets", { job: job.name, sheet: name })).sheets;
    said = `${name} is in the list`;
    now.failed.delete("sheet-list");
  } catch (refusal) {
    now.failed.set("sheet-list", faultsOf(refusal));
  }
  redraw();
}

// What stands above the sheets of the job.
export function sheetList(names) {
  if (kept === null) list();
  const faults = now.failed.get("sheet-list") || [];
  const others = (kept || []).filter((sheet) => !names.includes(sheet.name));
  return html`${others.length ? html`<p>From your list of sheets:</p><ul class="kept">${others.map((sheet) => html`<li><button type="button" @click=${() => take(sheet)}>Take ${sheet.name}</button> ${sheet.words}</li>`)}</ul>` : nothing}
    <p role="status" class="hint">${said}</p>${faults.length ? html`<p>${wrongs(faults, "sheet-list-wrong")}</p>` : nothing}`;
}

export const keepButton = (list, item, name) => (list.path === "sheets" ? html`<button type="button" @click=${() => keep(name)}>Keep ${name} in the list</button>` : nothing);
