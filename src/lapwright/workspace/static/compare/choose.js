// What the job is held against: three ways, and the fields of each.
import { html, nothing } from "../lit/lit-html.js";
import { live } from "../lit/directives/live.js";

const WAYS = [["what-if", "A what-if, not saved"], ["step", "An earlier step of this job"], ["file", "Another job of the folder"]];

// The options of the view for what is chosen.
export function asked(state) {
  if (state.way === "file") return { with: "file", of: state.file };
  if (state.way === "step") return { with: "step", of: state.step };
  return { with: "what-if", values: JSON.stringify(state.values) };
}

function field(one, k, state) {
  const id = `w-${k}`, fault = state.wrong[one.path], value = state.values[one.path] ?? one.now;
  const put = (event) => { state.values[one.path] = event.target.value; };
  return html`<div class="field"><label for=${id}>${one.label}</label>
    ${one.choices.length ? html`<select id=${id} @change=${put}>${one.choices.map((choice) => html`<option value=${choice} ?selected=${choice === value}>${choice.replaceAll("_", " ")}${choice === one.now ? ", as it is" : ""}</option>`)}</select>`
      : html`<input id=${id} type="text" autocomplete="off" maxlength="200" placeholder=${one.write} .value=${live(value)} aria-invalid=${fault ? "true" : "false"} aria-describedby=${`${id}-wrong`} @input=${put}>`}
    <span class="wrong" id=${`${id}-wrong`}>${fault ? html`needs ${fault.needs}${fault.write ? html`. Write: <code>${fault.write}</code>` : nothing}` : nothing}</span></div>`;
}

function pick(state, key, rows, none) {
  if (!rows.length) return html`<p class="hint">${none}</p>`;
  return html`<p class="field"><label for="pick">Which</label><select id="pick" @change=${(event) => { state[key] = event.target.value; }}>${rows.map(([value, words]) => html`<option value=${value} ?selected=${value === state[key]}>${words}</option>`)}</select></p>`;
}

export function chooser(state, redraw) {
  if (!state.listed) return nothing;
  const { files, steps, fields } = state.listed;
  const isThere = state.way === "what-if" ? fields.length : state.way === "step" ? steps.length : files.length;
  return html`<fieldset><legend>The job as it is, beside</legend>
    <div class="ways">${WAYS.map(([way, words]) => html`<label class="way"><input type="radio" name="way" value=${way} .checked=${live(state.way === way)} @change=${() => { state.way = way; redraw(); }}> ${words}</label>`)}</div>
    ${state.way === "what-if" ? html`<div class="grid">${fields.map((one, k) => field(one, k, state))}</div>` : nothing}
    ${state.way === "step" ? pick(state, "step", steps.map((each) => [each.key, each.words]), "There is no earlier step yet: every change of the job becomes one.") : nothing}
    ${state.way === "file" ? pick(state, "file", files.map((each) => [each.name, each.words ? `${each.words} (${each.name}.yaml)` : `${each.name}.yaml`]), "There is no other job in this folder.") : nothing}
    <p><button class="main" ?disabled=${!isThere}>Set them side by side</button></p></fieldset>`;
}
