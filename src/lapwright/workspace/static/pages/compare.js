// The sheet "compare": the job as it is beside another file, an earlier step, or a what-if that is not saved.
import { html, nothing, render } from "../lit/lit-html.js";
import { get, view } from "../core/api.js";
import { edit, job, on } from "../core/job.js";
import { faultList, tellRefusal } from "../core/show.js";
import { asked, chooser } from "../compare/choose.js";
import { differing, sides } from "../compare/sides.js";

const page = document.getElementById("compare");
render(html`<form id="choose" novalidate></form><div id="working"></div><p id="heard" class="hidden-words" role="status"></p><section id="sides" aria-label="Both versions"></section>`, page);
const at = (id) => document.getElementById(id);
const state = { way: "what-if", file: "", step: "", values: {}, wrong: {}, listed: null, found: null, stop: null, kept: "" };

function choose() {
  render(chooser(state, choose), at("choose"));
}

function working(words) {
  render(html`<div class="working"><p role="status">${words}</p><p><button type="button" @click=${() => state.stop?.abort()}>Stop</button></p></div>`, at("working"));
}

// Faults at the fields of the what-if; the others are told together.
function told(faults) {
  state.wrong = Object.fromEntries(faults.map((fault) => [fault.key, fault]));
  choose();
  return faults.filter((fault) => state.way !== "what-if" || !state.listed.fields.some((field) => field.path === fault.key));
}

async function compare() {
  state.stop?.abort();
  const mine = (state.stop = new AbortController());
  state.wrong = {};
  choose();
  try {
    render(nothing, at("sides"));
    working("being worked out…");
    const found = await view(job.name, "compare", asked(state), { signal: mine.signal, tell: (words) => state.stop === mine && working(words) });
    if (state.stop !== mine) return;
    state.found = found;
    render(nothing, at("working"));
    show(found);
  } catch (refusal) {
    if (state.stop !== mine) return;
    if (refusal.name === "AbortError") return render(html`<p class="working">Stopped.</p>`, at("working"));
    const rest = told(refusal.faults ?? []);
    if (refusal.faults?.length && !rest.length) render(html`<p class="notice" role="alert">A field can't be used: see there.</p>`, at("working"));
    else tellRefusal(at("working"), refusal, compare);
  }
}

function show(found) {
  at("heard").textContent = found.is_same ? "" : `Set side by side: ${differing(found)}`;
  if (found.is_same) return render(html`<p class="notice" role="status">It says the same as the job: nothing differs.</p>`, at("sides"));
  const rest = told(found.faults);
  render(html`${found.faults.length ? html`<div class="notice" role="alert"><p>This can't be planned as it is: ${found.words}.</p>${rest.length ? faultList(rest) : html`<p>See the fields marked above.</p>`}</div>` : nothing}
    <p>Beside the job as it is: <strong>${found.words}</strong></p>${sides(found)}
    ${found.keep.length ? html`<p><button type="button" class="main" @click=${keep}>Make this the job</button> <span class="hint">one step, which can be taken back</span></p>` : nothing}`, at("sides"));
}

async function keep() {
  const { keep: edits, words } = state.found;
  try {
    state.found = null;
    await edit(words.slice(0, 200), edits);
    state.values = {};
    render(html`<p class="notice" role="status">It is the job now. “Take back” above undoes it.</p>`, at("sides"));
    state.kept = job.digest;
    at("sides").setAttribute("tabindex", "-1");
    at("sides").focus();
  } catch (refusal) {
    tellRefusal(at("working"), refusal);
  }
}

async function load() {
  if (state.kept && job.digest !== state.kept) { // what was said of it holds no longer
    state.kept = "";
    render(nothing, at("sides"));
  }
  try {
    state.listed = await get(`${job.address}/versions`);
    state.file ||= state.listed.files[0]?.name ?? "";
    if (!state.listed.steps.some((each) => each.key === state.step)) state.step = state.listed.steps[0]?.key ?? "";
    choose();
    if (state.found) compare();
  } catch (refusal) {
    tellRefusal(at("working"), refusal, load);
  }
}

at("choose").addEventListener("submit", (event) => { event.preventDefault(); compare(); });
on("changed", load);
if (job.text !== null) load(); // the text was read before this script was
