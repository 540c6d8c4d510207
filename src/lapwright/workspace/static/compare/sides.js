// Both versions group by group: rows that differ with the difference in words, the others folded.
import { html, nothing } from "../lit/lit-html.js";

function rows(name, found, other, caption) {
  return html`<div class="scroll" tabindex="0" role="region" aria-label=${caption}><table class="sides"><caption class="hidden-words">${caption}</caption>
    <thead><tr><th scope="col">What</th><th scope="col">As it is</th><th scope="col">${other}</th><th scope="col">Difference</th></tr></thead>
    <tbody>${found.map(([what, mine, theirs, change]) => html`<tr><th scope="row">${what}</th><td>${mine}</td><td>${theirs}</td><td class="change">${change || "the same"}</td></tr>`)}</tbody></table></div>`;
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
