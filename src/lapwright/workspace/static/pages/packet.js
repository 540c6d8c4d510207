// The sheet "packet": makes all files of the job at a press, tells how far it is, and lists them to open or to keep.
import { html, nothing, render } from "../lit/lit-html.js";
import { get, view } from "../core/api.js";
import { job, on } from "../core/job.js";
import { tellRefusal } from "../core/show.js";

const page = document.getElementById("packet");
render(html`<div id="standing"></div><div id="steps"></div><div id="files"></div>`, page);
const at = (id) => document.getElementById(id);
let found = null, done = [], stop = null;

const address = (name) => `/jobs/${encodeURIComponent(job.name)}/packet/${encodeURIComponent(name)}`;

function standing() {
  const isThere = found.standing !== "none";
  render(html`<p role="status" class=${isThere && found.standing !== "current" ? "notice" : ""}><strong class=${isThere ? "" : "says"}>${isThere ? html`Packet in <code>${found.folder}</code>: ` : nothing}${found.words}.</strong></p>
    <p><button type="button" class="main" ?disabled=${stop !== null} @click=${make}>${isThere ? "Make the packet anew" : "Make the packet"}</button></p>
      <p class="hint">All files at once, the same as the command line writes; those there before are replaced together.</p>`, at("standing"));
}

function steps(last) {
  render(html`<div class="working"><ol class="done" aria-label="Done so far">${done.map((words) => html`<li>${words}</li>`)}</ol>
    <p role="status">${last}</p>${stop ? html`<p><button type="button" @click=${() => stop.abort()}>Stop</button></p>` : nothing}</div>`, at("steps"));
}

function row(file) {
  return html`<tr><th scope="row"><a href=${address(file.name)} target=${file.opens ? "_blank" : nothing} rel=${file.opens ? "noopener" : nothing} download=${file.opens ? nothing : ""}>${file.name}</a></th>
    <td>${file.what}${file.is_whole ? nothing : html` <span class="wrong">not as it was written: make the packet anew</span>`}</td>
    <td>${file.opens ? "opens in a new tab" : "is kept as a file"}</td><td class="number">${file.size}</td></tr>`;
}

function files() {
  render(!found.files.length ? nothing : html`<div class="scroll" tabindex="0" role="region" aria-label="Files of the packet"><table><caption>Files of the packet</caption>
    <thead><tr><th scope="col">File</th><th scope="col">What it is</th><th scope="col">How it is taken</th><th scope="col" class="number">Size</th></tr></thead>
    <tbody>${found.files.map(row)}</tbody></table></div>`, at("files"));
}

function draw(state) {
  found = state;
  standing();
  files();
}

async function make() {
  stop = new AbortController();
  done = [];
  standing();
  steps("begun…");
  try {
    const state = await view(job.name, "packet", {}, { acts: true, signal: stop.signal, tell(words) { done.push(words); steps("goes on…"); } });
    stop = null;
    steps("The packet is written.");
    draw(state);
    at("files").querySelector("a")?.focus();
  } catch (refusal) {
    stop = null;
    if (refusal.name === "AbortError") steps("Stopped. Nothing was changed in the folder.");
    else tellRefusal(at("steps"), refusal, make);
    standing();
  }
}

// Only the newest answer counts: the job may change while the folder is looked at.
let asked = 0;
async function look() {
  const mine = (asked += 1);
  try {
    const state = await get(`${job.address}/packet`);
    if (mine === asked) draw(state);
  } catch (refusal) {
    tellRefusal(at("standing"), refusal, look);
  }
}

on("changed", look);
if (job.text !== null) look(); // the text was read before this script was
