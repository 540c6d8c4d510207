// A figure's form: a field for each thing it asks, with its bounds, an example, and what is wrong with it.
import { html, nothing } from "../lit/lit-html.js";
import { live } from "../lit/directives/live.js";

const big = (words) => words.charAt(0).toUpperCase() + words.slice(1);

function control(option, value, wrong, put) {
  const id = `f-${option.name}`, describedby = `${id}-hint ${id}-wrong`;
  if (option.kind === "flag") return html`<input type="checkbox" id=${id} .checked=${live(value !== undefined)} aria-describedby=${describedby} @change=${(event) => put(option.name, event.target.checked ? "yes" : undefined)}>`;
  if (option.choices.length) return html`<select id=${id} aria-invalid=${wrong ? "true" : "false"} aria-describedby=${describedby} .value=${live(value ?? option.default)} @change=${(event) => put(option.name, event.target.value)}>
    ${value === undefined && !option.default ? html`<option value="">choose…</option>` : nothing}${option.choices.map((choice) => html`<option value=${choice} ?selected=${(value ?? option.default) === choice}>${choice.replaceAll("_", " ")}</option>`)}</select>`;
  return html`<input id=${id} type="text" autocomplete="off" spellcheck="false" maxlength="200" placeholder=${option.default || option.write} .value=${live(value ?? "")} aria-invalid=${wrong ? "true" : "false"} aria-describedby=${describedby} @input=${(event) => put(option.name, event.target.value)}>`;
}

function hint(option) {
  const parts = [option.kind === "flag" || option.choices.length ? "" : option.default ? `${option.default} where left empty` : option.is_needed ? `such as ${option.write}` : `may be left empty, such as ${option.write}`, option.bounds];
  return parts.filter(Boolean).join("; ");
}

// wrong: fault by option; put(name, text): a field changed, undefined where a flag is taken away.
export function fields(form, values, wrong, put) {
  return form.options.map((option) => {
    const fault = wrong[option.name];
    return html`<div class="field ${option.kind === "flag" ? "tick" : ""}"><label for="f-${option.name}">${big(option.help)}</label>
      ${control(option, values[option.name], fault, put)}<span class="hint" id="f-${option.name}-hint">${hint(option)}</span>
      <span class="wrong" id="f-${option.name}-wrong">${fault ? html`${fault.read ? html`“${fault.read}” can't be used; needs ` : "needs "}${fault.needs}${fault.write ? html`. Write: <code>${fault.write}</code>` : nothing}` : nothing}</span></div>`;
  });
}
