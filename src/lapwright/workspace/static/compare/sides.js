// Both versions group by group: rows that differ with the difference in words, the others folded.
import { html, nothing } from "../lit/lit-html.js";

// Roles are written out: on a phone the rows are laid out as blocks, and stay a table for a screen reader.
function rows(name, found, other, caption) {
  const heads = ["What", "As it is", other, "Difference"];
  const row = ([what, mine, theirs, change]) => html`<tr role="row"><th scope="row" role="rowheader">${what}</th><td role="cell" data-head=${heads[1]}>${mine}</td><td role="cell" data-head=${other}>${theirs}</td><td role="cell" class="change">${change || "the same"}</td></tr>`;
  return html`<div class="scroll" tabindex="0" role="region" aria-label=${caption}><table class="sides" role="table"><caption class="hidden-words">${caption}</caption>
    <thead role="rowgroup"><tr role="row">${heads.map((head) => html`<th scope="col" role="columnheader">${head}</th>`)}</tr></thead>
    <tbody role="rowgroup">${found.map(row)}</tbody></table></div>`;
}

function group(one, other) {
  const count = one.same.length;
  return html`<section aria-label=${one.name}><h2>${one.name}</h2>
    ${one.changed.length ? rows(one.name, one.changed, other, `${one.name}: what differs`) : html`<p>Nothing differs.</p>`}
    ${count ? html`<details><summary>${count} ${count === 1 ? "row is" : "rows are"} the same</summary>${rows(one.name, one.same, other, `${one.name}: what is the same`)}</details>` : nothing}</section>`;
}

export function sides(found) {
  return found.groups.map((one) => group(one, found.name));
}

// How many rows differ, for the ear.
export function differing(found) {
  const count = found.groups.reduce((sum, one) => sum + one.changed.length, 0);
  return `${count} ${count === 1 ? "row differs" : "rows differ"}`;
}
