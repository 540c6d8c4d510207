// The what-if sliders: they change what is looked at, in memory; the job file only by the button.
import { html, nothing } from "../lit/lit-html.js";

// view: of the hours; options: what is asked for now, by option, as the answer may be of an earlier question; set(option,
// text or null for the job's own); put(), drop(): into the file, or as the job has it.
export function whatif(view, options, { set, put, drop }) {
  const isOther = view.sliders.some((each) => placeOf(each, options) !== each.own);
  return html`<fieldset class="whatif"><legend>What if</legend>
    ${view.sliders.map((each) => slider(each, placeOf(each, options), set))}
    <div class="said" role="status">${isOther ? html`<p><strong>What if: not in the job file</strong></p>` : html`<p class="hint">As the job has it.</p>`}</div>
    ${isOther ? html`<p class="buttons"><button type="button" class="main" @click=${put}>Put it in the job file</button> <button type="button" @click=${drop}>As the job has it</button></p>` : nothing}</fieldset>`;
}

function placeOf(each, options) {
  const place = each.steps.indexOf(options[each.option]);
  return place < 0 ? each.own : place;
}

function slider(each, at, set) {
  const moved = (event) => {
    const place = Number(event.target.value);
    set(each.option, place === each.own ? null : each.steps[place]);
  };
  const id = `if-${each.option}`;
  return html`<div class="field"><label for=${id}>${each.words}</label>
    <input id=${id} type="range" min="0" max=${each.steps.length - 1} step="1" .value=${String(at)} aria-valuetext=${each.shown[at]} @input=${moved}>
    <output for=${id}>${each.shown[at]}</output>${at !== each.own ? html` <span class="hint">the job has ${each.shown[each.own]}</span>` : nothing}</div>`;
}
