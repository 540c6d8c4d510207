// A table as the packet has it: {head, rows, right, bold, starts}; a cell may be a list of parts.
import { html, nothing } from "../lit/lit-html.js";
import { glue } from "./glue.js";

const words = (cell) => (Array.isArray(cell) ? cell.map((part, k) => html`${k ? "; " : ""}${words(part)}`) : glue(cell));

// caption: what it shows; more: a column behind the others, {head, cell(row, k), under(row, k): a row below, or nothing}.
export function table(found, caption, more) {
  if (!found || !found.rows.length) return nothing;
  const right = new Set(found.right), bold = new Set(found.bold), starts = new Set(found.starts);
  const side = (k) => (right.has(k) ? "number" : "");
  return html`<div class="scroll" tabindex="0" role="region" aria-label=${caption}><table><caption>${caption}</caption>
    <thead><tr>${found.head.map((head, k) => html`<th scope="col" class=${side(k)}>${head || html`<span class="hidden-words">what</span>`}</th>`)}${more ? html`<th scope="col" class=${more.side ?? ""}>${more.head}</th>` : nothing}</tr></thead>
    <tbody>${found.rows.map((row, at) => html`<tr class="${bold.has(at) ? "bold" : ""} ${starts.has(at) ? "start" : ""}">${row.map((cell, k) => html`<td class=${side(k)}>${words(cell)}</td>`)}${more ? more.cell(row, at) : nothing}</tr>${more?.under?.(row, at) ?? nothing}`)}</tbody></table></div>`;
}
