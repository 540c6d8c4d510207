// The frame of every sheet of a job: steps back and forth, how the file stands, and what others changed.
import { html, render } from "../lit/lit-html.js";
import { job, listen, load, on, redo, takeTheirs, undo } from "./job.js";

const byId = (id) => document.getElementById(id);

function showSteps() {
  const [back, forth] = [byId("undo"), byId("redo")];
  back.disabled = !job.undo;
  forth.disabled = !job.redo;
  back.title = job.undo ? `Take back: ${job.undo} (Ctrl+Z)` : "";
  forth.title = job.redo ? `Make again: ${job.redo} (Ctrl+Shift+Z)` : "";
}

// The title block follows the job file.
function showTitle() {
  for (const key of ["name", "number", "date", "revision"]) byId(`tb-${key}`).textContent = job.title[key] || (key === "name" ? job.name : "–");
}

function showState() {
  byId("saved").textContent = job.state;
  byId("saved").title = job.state;
}

function showMoved() {
  const place = byId("moved");
  place.hidden = false;
  const take = async () => { await takeTheirs(); place.hidden = true; };
  render(html`<p>The file was changed elsewhere after this page read it. Your last change was not saved, and nothing was overwritten.</p>
    <p><button type="button" @click=${take}>Go on from the file as it is now</button></p>`, place);
}

// A field's own Ctrl+Z takes back typing; anywhere else it takes back the last step of the job.
function keys(event) {
  if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "z") return;
  if (event.target.closest("input, textarea, select, [contenteditable]")) return;
  event.preventDefault();
  (event.shiftKey ? redo() : undo()).catch(() => {});
}

// The sheet that is open stands in sight where their row is longer than the screen.
const open = document.querySelector(".sheets [aria-current]");
const row = open?.closest("ol");
if (row && row.scrollWidth > row.clientWidth) row.scrollLeft = open.parentElement.offsetLeft - row.offsetLeft - (row.clientWidth - open.offsetWidth) / 2;

if (job.name) {
  on("changed", showSteps);
  on("changed", showTitle);
  on("steps", showSteps);
  on("state", showState);
  on("moved", showMoved);
  byId("undo").addEventListener("click", () => undo().catch(() => {}));
  byId("redo").addEventListener("click", () => redo().catch(() => {}));
  document.addEventListener("keydown", keys);
  load().then(listen, (refusal) => { byId("saved").textContent = refusal.message; });
}
