// The job that the page is about: its text as last seen, its changes one after the other, and word of those of others.
import { get, post } from "./api.js";

const name = document.body.dataset.job;
const address = `/api/jobs/${encodeURIComponent(name)}`;
const told = new EventTarget();
let last = Promise.resolve();

export const job = { name, address, units: document.body.dataset.units, digest: document.body.dataset.digest, text: null, faults: [], undo: "", redo: "", title: null, state: "as on disk" };

// kind: "changed" (text, faults or digest are new), "state" (saving, saved, wrong), "moved" (changed elsewhere).  Who
// begins to listen for "changed" when the text is there already is told of it as well.
export function on(kind, listen) {
  told.addEventListener(kind, (event) => listen(event.detail));
  if (kind === "changed" && job.text !== null) queueMicrotask(() => listen(job));
}

function tell(kind, detail) {
  told.dispatchEvent(new CustomEvent(kind, { detail }));
}

function state(words) {
  job.state = words;
  tell("state", words);
}

function take(found) {
  const isNew = found.digest !== job.digest || job.text === null;
  Object.assign(job, { text: found.text, digest: found.digest, faults: found.faults, undo: found.undo, redo: found.redo, title: found.title, units: found.title.units });
  document.body.dataset.digest = found.digest;
  if (isNew) tell("changed", job);
  else tell("steps", job);
}

export async function load() {
  take(await get(`${address}/text`));
  return job;
}

// Changes wait for one another, so that each is made from the text that the one before left.
function inLine(make) {
  const next = last.then(make, make);
  last = next.catch(() => {});
  return next;
}

async function change(way, value) {
  state("saving…");
  try {
    const found = await post(`${address}/${way}`, { seen: job.digest, ...value });
    take(found);
    state("saved");
    return found;
  } catch (refusal) {
    state(refusal.status === 409 ? "changed elsewhere" : "not saved");
    if (refusal.status === 409) tell("moved", { found: refusal.found, way, value });
    throw refusal;
  }
}

// edits: as plan/desk/editsjson.py reads them; words: what they do, as "take back" names it.
export const edit = (words, edits) => inLine(() => change("edits", { words, edits }));
// make(): asks the server for the edits, once those before are saved: they are made for the text as it stands then.
export const editMade = (words, make) => inLine(async () => {
  const edits = await make();
  return edits.length ? change("edits", { words, edits }) : null;
});
export const set = (path, value, words) => edit(words || `${path} set`, [{ edit: "set", path, value }]);
// Which step it was is said: on this sheet it may be out of sight.
const step = (way, done) => inLine(async () => {
  const words = job[way];
  await change(way, {});
  if (words) state(`${done}: ${words}`);
});
export const undo = () => step("undo", "taken back");
export const redo = () => step("redo", "made again");
export const settled = () => last;

// The file as it stands now is taken as seen; what was not saved is given up.
export async function takeTheirs() {
  await load();
  state("as on disk");
}

// Word of changes made by another tab, an editor or another tool.  A tab that is not seen gives its line back: a
// browser holds only a few to one server, and the tabs that are seen need them.
export function listen() {
  let source = null;
  const turn = () => {
    source?.close();
    source = document.hidden ? null : heard(new EventSource(`${address}/changes`));
  };
  document.addEventListener("visibilitychange", turn);
  turn();
}

function heard(source) {
  source.onmessage = async (event) => {
    const { digest } = JSON.parse(event.data);
    await last;
    if (digest === job.digest || job.text === null) return;
    if (!digest) return state("the job file is not there any more");
    await load();
    state("changed elsewhere, taken over");
  };
  source.onerror = () => state("the server does not answer");
  source.onopen = () => { if (job.state === "the server does not answer") state("as on disk"); };
  return source;
}
