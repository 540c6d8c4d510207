// Fields as the job's models describe them: label, example, default and origin, and what is wrong, with the mend.
import { html, nothing } from "../lit/lit-html.js";
import { live } from "../lit/directives/live.js";
import { make, now, redraw, save } from "./state.js";

export const idOf = (path) => "f-" + path.replace(/[^A-Za-z0-9]+/g, "-").replace(/-+$/, "");

// What is wrong, in words, with what to write; put(value) where it can be put in by a button.
export function wrongs(faults, id, put) {
  if (!faults.length) return nothing;
  return html`<span class="wrongs" id=${id}>${faults.map((fault) => html`<span class="wrong">${fault.plain ?? `needs ${fault.needs}`}${fault.read ? html`; read: <code>${fault.read}</code>` : nothing}${fault.write && !(put && fault.value) && (put || fault.read) ? html`; write: <code>${fault.write}</code>` : nothing}</span>
    ${put && fault.value ? html`<button type="button" class="mend" @click=${(event) => { event.target.closest(".field")?.querySelector("input, select")?.focus(); put(fault.value); }}>Write ${fault.value}</button>` : nothing}`)}</span>`;
}

const PLAIN = ["text", "text, kept as typed", "one of", "walk"];

function hint(field, id) {
  const words = [field.meaning, PLAIN.includes(field.kind) || field.choices.length ? "" : field.kind];
  if (field.example && !field.choices.length) words.push(html`e.g. <code>${field.example}</code>`);
  if (field.default) words.push(html`default <code>${field.default}</code>${field.origin ? ` (${field.origin})` : ""}${field.value && field.value !== field.default ? html`, <b>replaced</b>` : nothing}`);
  return html`<span class="hint ${field.default && field.origin ? "" : "is-over-it"}" id=${id}>${words.filter(Boolean).map((word, k) => html`${k ? " · " : ""}${word}`)}</span>`;
}

const exampleOf = (field) => (field.default ? `default ${field.default}` : field.example ? `e.g. ${field.example}` : "");

// One control.  value: what it shows; take(value): what to do with a new one; input(value): while it is typed.
function control(field, { id, value, take, input, described, isWrong }) {
  if (field.choices.length) {
    const isKnown = !value || field.choices.some(([word]) => word === value);
    return html`<select id=${id} name=${field.key} aria-describedby=${described} aria-invalid=${isWrong} .value=${live(value)} @change=${(event) => take(event.target.value)}>
      <option value="" ?selected=${!value}>${field.default ? `default: ${field.choices.find(([word]) => word === field.default)?.[1] ?? field.default.replaceAll("_", " ")}` : "not given"}</option>
      ${field.choices.map(([word, words]) => html`<option value=${word} ?selected=${word === value}>${words}</option>`)}
      ${isKnown ? nothing : html`<option value=${value} selected>${value}</option>`}</select>`;
  }
  return html`<input id=${id} name=${field.key} autocomplete="off" spellcheck="false" aria-describedby=${described} aria-invalid=${isWrong} ?required=${field.needed} placeholder=${exampleOf(field)}
    .value=${live(value)} @input=${(event) => input(event.target.value)} @change=${(event) => take(event.target.value.trim())}>`;
}

// A field that saves itself when it is left.
export function field(each) {
  const id = idOf(each.path);
  if (!each.is_text) return html`<div class="field"><span class="label">${each.name}</span><span class="hint">given in a longer form: see the job file</span>${wrongs(each.faults, `${id}-wrong`)}</div>`;
  const typed = now.typed.get(each.path);
  const faults = [...(now.failed.get(each.path) || []), ...each.faults];
  const take = (value) => save(each.path, value, each.name, each.value);
  const input = (value) => now.typed.set(each.path, { value, isSaved: false });
  return html`<div class="field ${faults.length ? "is-wrong" : ""}"><label for=${id}>${each.name}${each.needed ? html` <span class="needed">needed</span>` : nothing}</label>
    ${control(each, { id, value: typed ? typed.value : each.value, take, input, described: `${id}-hint ${id}-wrong`, isWrong: faults.length > 0 })}
    ${hint(each, `${id}-hint`)}${wrongs(faults, `${id}-wrong`, take)}</div>`;
}

// A field of something that is not there yet: values are gathered in a table until they are added together.
export function gathered(each, values, prefix) {
  const id = idOf(`${prefix}-${each.key}`);
  const take = (value) => { values[each.key] = value; redraw(); };
  const value = values[each.key] ?? each.value;
  return html`<div class="field"><label for=${id}>${each.name}${each.needed ? html` <span class="needed">needed</span>` : nothing}</label>
    ${control(each, { id, value, take, input: (typed) => { values[each.key] = typed; }, described: `${id}-hint`, isWrong: false })}
    ${hint(each, `${id}-hint`)}</div>`;
}

export const valuesOf = (fields, values) => Object.fromEntries(fields.map((each) => [each.key, (values[each.key] ?? each.value).trim()]).filter(([, value]) => value));

// The faults at a block itself, not at one of its fields.
export const ownFaults = (block) => {
  const faults = [...(now.failed.get(block.path) || []), ...block.faults];
  return faults.length ? html`<p>${wrongs(faults, `${idOf(block.path)}-own`)}</p>` : nothing;
};

export const hasFaults = (block) => block.faults.length > 0 || ["fields", "blocks", "items"].some((name) => (block[name] || []).some((each) => each.faults?.length || hasFaults(each)));

export const countFaults = (block) => (block ? block.faults.length + ["fields", "blocks", "items"].flatMap((name) => block[name] || []).reduce((sum, each) => sum + countFaults(each), 0) : 0);

const folds = new Set(); // paths of the blocks that began folded
const unfolded = new Set(); // those of them that stand open

// A block: its fields, and what stands below it.  What began folded stays a fold: nothing jumps under whoever types.
export function block(each, extra = {}, isOpen = false) {
  const inner = extra[each.key]?.(each) ?? body(each, extra);
  if (hasFaults(each)) unfolded.add(each.path);
  const isFold = folds.has(each.path) || !(isOpen || each.given || each.needed || extra[each.key] || hasFaults(each));
  if (!isFold) return html`<fieldset class="part"><legend>${each.name}</legend>${each.meaning ? html`<p class="hint">${each.meaning}</p>` : nothing}${ownFaults(each)}${inner}</fieldset>`;
  folds.add(each.path);
  const turned = (event) => { if (event.target === event.currentTarget) unfolded[event.target.open ? "add" : "delete"](each.path); };
  return html`<details class="part" id=${`${idOf(each.path)}-more`} ?open=${unfolded.has(each.path)} @toggle=${turned}><summary>${each.name} <span class="hint">${each.given ? nothing : "nothing given"}</span></summary>${each.meaning ? html`<p class="hint">${each.meaning}</p>` : nothing}${inner}</details>`;
}

const MOST_OF = { plies: 3 }; // a roof has no more: no other one is asked for

export function body(each, extra = {}) {
  if (each.shape === "table") return html`${fields(each.fields)}${each.blocks.map((below) => block(below, extra))}`;
  const isFull = each.items.length >= (MOST_OF[each.key] ?? Infinity);
  return html`${each.items.map((item) => itemOf(each, item, extra))}${isFull ? nothing : adder(each)}`;
}

export const fields = (all) => (all.length ? html`<div class="fields">${all.map(field)}</div>` : nothing);

// One item of a list or of a table of names, with its own way out.
export function itemOf(list, item, extra = {}) {
  const named = item.fields?.find((each) => each.key === "name" || each.key === "plane" || each.key === "ply")?.value;
  const name = list.shape === "named" ? item.key : named || item.name;
  return html`<fieldset class="item"><legend>${name}</legend>${ownFaults(item)}${body(item, extra)}
    <p class="ways">${extra.ways?.(list, item, name) ?? nothing}<button type="button" @click=${() => make(`${name} taken out`, [{ edit: "drop", path: item.path }], list.path)}>Take out ${name}</button></p></fieldset>`;
}

const adding = new Map();
const of = (path) => { if (!adding.has(path)) adding.set(path, {}); return adding.get(path); };

// The form for one more item.  more(values): what else can be done in it.
export function adder(list, more, isFirst = !list.items?.length) {
  const values = of(list.path);
  const kind = values.kind ?? list.template.fields?.find((each) => each.key === "kind")?.value;
  const shown = (list.template.fields || []).filter((each) => !each.of?.length || each.of.includes(kind));
  const isNamed = list.shape === "named";
  async function add(event) {
    event.preventDefault();
    const found = valuesOf(shown, values);
    const name = isNamed ? (values.__name ?? list.template.key).trim() : found.name || list.name;
    const edits = isNamed
      ? Object.entries(found).map(([key, value]) => ({ edit: "set", path: `${list.path}.${quoted(name)}.${key}`, value }))
      : [{ edit: "add", path: list.path, values: found }];
    if (Object.keys(found).length && (await make(`${name} added`, edits, list.path))) adding.set(list.path, {});
  }
  const id = idOf(`${list.path}-new`);
  return html`<form class="adder" novalidate @submit=${add} aria-label=${`One more: ${list.name}`}>
    <p class="hint next">${isFirst ? "The first one" : "One more, if there is one"}</p>
    <div class="fields">${isNamed ? html`<div class="field"><label for=${`${id}-name`}>Name</label><input id=${`${id}-name`} autocomplete="off" .value=${live(values.__name ?? list.template.key)} @input=${(event) => { values.__name = event.target.value; }}></div>` : nothing}
      ${shown.map((each) => gathered(each, values, `${list.path}-new`))}
      <p class="field">${more?.(values, kind) ?? nothing}<button class="add">Add</button></p></div></form>`;
}

export const quoted = (name) => (/^[^\s.[\]"]+$/.test(name) ? name : `"${name.replaceAll("\\", "\\\\").replaceAll('"', '\\"')}"`);

// What can be begun with at one click.
export function starts(step) {
  return step.starts.map((start) => html`<p class="start"><button type="button" @click=${() => make(start.words, start.edits, `step-${step.key}`)}>Take these</button>
    <span><b>${start.words}</b>: ${start.note}. <span class="hint">${start.origin}</span></span></p>`);
}
