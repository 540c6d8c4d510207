// What the sheet "describe" holds while it is filled in: the form and outline as last told, what is typed and not yet
// saved, what is chosen on the plan.
import { get, post } from "../core/api.js";
import { edit, job, set } from "../core/job.js";

export const now = {
  form: null,
  outline: null,
  walks: [], // each area's walk as the file has it
  area: 0,
  sides: new Map(), // an area's place -> numbers of its sides that are chosen
  typed: new Map(), // path -> {value, isSaved}
  failed: new Map(), // path -> faults of an edit that could not be made
  pick: null, // what a place is being pointed for: {kind, path, words, done(place)}
};
const told = new EventTarget();
let isDue = false;

export function onDraw(listen) {
  told.addEventListener("draw", listen);
}

// At once, for a field that the next key goes to.
export const drawNow = () => told.dispatchEvent(new Event("draw"));

export function onLoaded(listen) {
  told.addEventListener("loaded", listen);
}

export function redraw() {
  if (isDue) return;
  isDue = true;
  requestAnimationFrame(() => {
    isDue = false;
    told.dispatchEvent(new Event("draw"));
  });
}

let working = null;
let after = null;
// Form and outline as they stand now, asked one after the other: who asks while an answer is on its way gets the next.
export function reload() {
  if (!working) {
    working = take().finally(() => { working = null; });
    return working;
  }
  after ||= working.catch(() => {}).then(() => { after = null; return reload(); });
  return after;
}

async function take() {
  const saved = [...now.typed].filter(([, typed]) => typed.isSaved);
  const [form, outline] = await Promise.all([get(`${job.address}/form`), get(`${job.address}/outline`)]);
  const walks = outline.areas.map((area) => area.legs.map((leg) => leg.text).join(", "));
  Object.assign(now, { form, outline, walks });
  saved.forEach(([path, typed]) => { if (now.typed.get(path) === typed) now.typed.delete(path); });
  now.area = Math.min(now.area, Math.max(0, outline.areas.length - 1));
  now.sides = new Map(outline.areas.map((area) => [area.place, new Set([...chosenOf(area.place)].filter((side) => side <= area.sides.length))]));
  told.dispatchEvent(new Event("loaded"));
  redraw();
}

let preview = null;
// The outline with a walk as it is typed just now.
export async function previewWalk(area, walk) {
  preview?.abort();
  const mine = (preview = new AbortController());
  try {
    const outline = await post(`${job.address}/outline`, { area, walk }, mine.signal);
    if (preview === mine) { now.outline = outline; redraw(); }
  } catch (refusal) {
    if (refusal.name !== "AbortError") throw refusal;
  }
}

export const stopPreview = () => { preview?.abort(); preview = null; };

// Saves what a field holds; what can't be put into the file is told at the field.
export async function save(path, value, name, was) {
  if (value === was) { now.typed.delete(path); now.failed.delete(path); return redraw(); }
  const typed = { value, isSaved: false };
  now.typed.set(path, typed);
  try {
    if (value === "") await edit(`${name}: taken out`, [{ edit: "drop", path }]);
    else await set(path, value, `${name}: ${value}`.slice(0, 200));
    now.failed.delete(path);
    typed.isSaved = true;
    await reload();
  } catch (refusal) {
    now.failed.set(path, faultsOf(refusal).map((fault) => ({ ...fault, value: fault.value || (refusal.status === 409 ? value : "") })));
    redraw();
  }
}

// Edits that are made at once, told at a place where they can't be.
export async function make(words, edits, path = "") {
  try {
    await edit(words.slice(0, 200), edits);
    now.failed.delete(path);
    return true;
  } catch (refusal) {
    now.failed.set(path, faultsOf(refusal));
    redraw();
    return false;
  }
}

export function faultsOf(refusal) {
  if (refusal.faults?.length) return refusal.faults;
  return [{ key: "", plain: refusal.message, needs: "", read: "", write: "", value: "" }];
}

// The sides chosen of an area; of all areas, which one form speaks of at once.
export const chosenOf = (place) => now.sides.get(place) ?? new Set();
export const chosen = () => [...now.sides].filter(([, sides]) => sides.size).sort(([one], [two]) => one - two);

export const areaNow = () => now.outline?.areas[now.area] || null;
export const stepOf = (key) => now.form.steps.find((step) => step.key === key);
// The block of an area in a step, and a list in it.
export const areaBlock = (key, place) => stepOf(key).blocks.find((block) => block.path === `roof[${place}]`);
export const listOf = (block, name) => block?.blocks.find((each) => each.key === name);
