// Beside the plan: which plies and layers are shown, the order of laying, the tape, the card, and the aims to choose from.
import { html, nothing } from "../lit/lit-html.js";

const LAYERS = [["laps", "laps and corner cuts"], ["joints", "T-joints"], ["numbers", "numbers of pieces"], ["details", "strips, flashings, metal"], ["words", "words at edges"]];

export function panel({ model, state, card, tape, acts }) {
  const { names, counts, loads } = model.view;
  const shown = state.names.length === names.length && names.length > 1 ? "all" : state.names[0];
  const ply = (key, words) => html`<label class="pick"><input type="radio" name="ply" .checked=${shown === key} @change=${() => acts.ply(key)}>${words}</label>`;
  const tick = (key, words) => html`<label class="pick"><input type="checkbox" .checked=${state.layers.has(key)} @change=${() => acts.layer(key)}>${words}</label>`;
  return html`
    <section class="card" aria-live="polite" aria-label="What is chosen">${card ? html`<h2>${card.title}</h2><dl>${card.rows.map(([name, words]) => html`<div><dt>${name}</dt><dd>${words}</dd></div>`)}</dl>` : html`<p class="hint">Point at a piece, lap or T-joint and click for its card.</p>`}</section>
    <fieldset><legend>Plies</legend>${names.map((name) => ply(name, name))}${names.length > 1 ? ply("all", "stacked") : nothing}</fieldset>
    <fieldset><legend>Shown</legend>${LAYERS.map(([key, words]) => tick(key, words))}${loads.map((each) => tick(each.key, each.name.toLowerCase()))}</fieldset>
    ${loads.filter((each) => state.layers.has(each.key) && each.words.length).map((each) => html`<details><summary>${each.name} in words</summary><ul>${each.words.map((words) => html`<li>${words}</li>`)}</ul></details>`)}
    <fieldset><legend>Order of laying</legend>
      <label for="laid">Laid so far: <output>${state.laid}</output> of ${model.last} pieces</label>
      <input id="laid" type="range" min="0" max=${model.last} .value=${String(state.laid)} @input=${(event) => acts.laid(Number(event.target.value))}>
      <p><button type="button" aria-label="one piece back" @click=${() => acts.laid(state.laid - 1)}>− 1</button> <button type="button" aria-label="one piece more" @click=${() => acts.laid(state.laid + 1)}>+ 1</button> <button type="button" @click=${acts.run}>${state.isRunning ? "hold" : "lay it"}</button></p>
    </fieldset>
    <p><button type="button" aria-pressed=${state.isMeasuring ? "true" : "false"} @click=${acts.measure}>tape</button> <span role="status">${tape}</span></p>
    <p class="counts">${model.view.draft ? html`<strong>First layout; the search goes on.</strong> ` : nothing}${model.view.pieces} pieces; ${counts.rolls} rolls, at least ${counts.rolls_at_least}; ${counts.end_laps} end laps, at least ${counts.end_laps_at_least}.</p>`;
}

// The aims side by side.  found: null until asked for.
export function aims(found, lay, ask) {
  if (!found) return html`<p><button type="button" @click=${ask}>Lay it out for the other aims too, to compare</button></p>`;
  return html`<div class="scroll" tabindex="0" role="region" aria-label="Aims side by side"><table><caption>Rolls against end laps</caption>
    <thead><tr><th scope="col">Aim</th>${found.head.map((head) => html`<th scope="col" class="number">${head}</th>`)}<th scope="col"><span class="hidden-words">Choose</span></th></tr></thead>
    <tbody><tr><th scope="row">any layout, at least</th>${found.least.map((cell) => html`<td class="number">${cell}</td>`)}<td></td></tr>
    ${found.rows.map((row) => html`<tr aria-current=${row.aim === found.aim ? "true" : nothing}><th scope="row">${row.words}</th>${row.cells.map((cell) => html`<td class="number">${cell}</td>`)}
      <td>${row.aim === found.aim ? "chosen" : row.is_laid ? html`<button type="button" @click=${() => lay(row.aim)}>lay this</button>` : "can't be laid"}</td></tr>`)}</tbody></table></div>`;
}
