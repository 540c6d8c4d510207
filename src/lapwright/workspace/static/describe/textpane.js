// The job file as text, with its line numbers and what is wrong at which line; saved when typing pauses.
import { html, nothing, render } from "../lit/lit-html.js";
import { editMade, job, on, takeTheirs } from "../core/job.js";

const PAUSE = 600;

export function textPane() {
  const element = document.createElement("div");
  element.className = "textpane";
  render(html`<div class="paper"><div class="gutter" aria-hidden="true"><div></div></div><textarea spellcheck="false" wrap="off" autocapitalize="off" autocomplete="off" aria-label="The job file" aria-describedby="text-state"></textarea></div><pre class="printed" aria-hidden="true"></pre>
    <p id="text-state" class="hint" role="status"></p><div class="conflict"></div><div class="wrong-lines"></div>`, element);
  const [area, numbers, said, conflict, wrong] = ["textarea", ".gutter > div", ".hint", ".conflict", ".wrong-lines"].map((name) => element.querySelector(name));
  let base = job.digest; // of the text that was typed over
  let isTyped = false;
  let timer = 0;

  const state = (words) => { said.textContent = words; };

  function showNumbers() {
    const marked = new Set(job.faults.map((fault) => fault.line));
    const count = area.value.split("\n").length;
    numbers.textContent = Array.from({ length: count }, (_, k) => `${marked.has(k + 1) && !isTyped ? "wrong ▲ " : ""}${k + 1}`).join("\n");
    numbers.style.transform = `translateY(${-area.scrollTop}px)`;
  }

  function showWrong() {
    const count = job.faults.length;
    render(html`<h2>${count ? `${count} to put right` : "Nothing is wrong in it"}</h2>${count ? html`<ul class="faults">${job.faults.map((fault) => html`<li>${fault.line ? html`<button type="button" class="line" @click=${() => goTo(fault.line)}>line ${fault.line}</button>` : nothing} ${fault.key ? html`<code>${fault.key}</code>` : nothing}
      <span>needs ${fault.needs}${fault.read ? html`; read: <code>${fault.read}</code>` : nothing}${fault.write ? html`; write: <code>${fault.write}</code>` : nothing}</span></li>`)}</ul>` : nothing}`, wrong);
  }

  function goTo(number) {
    const lines = area.value.split("\n");
    const line = Math.min(Math.max(1, number), lines.length);
    const from = lines.slice(0, line - 1).join("\n").length + (line > 1 ? 1 : 0);
    area.focus({ preventScroll: true });
    area.setSelectionRange(from, from + lines[line - 1].length);
    area.scrollTop = (line - 3) * Number.parseFloat(getComputedStyle(area).lineHeight);
    element.scrollIntoView({ block: "nearest" });
  }

  // What the file says, wherever nothing typed waits to be saved.
  function take() {
    if (!isTyped) {
      base = job.digest;
      if (area.value !== job.text) {
        const [top, start, end] = [area.scrollTop, area.selectionStart, area.selectionEnd];
        area.value = job.text;
        area.setSelectionRange(start, end);
        area.scrollTop = top;
      }
    }
    showNumbers();
    showWrong();
  }

  function tellConflict() {
    document.getElementById("moved").hidden = true; // told here, with what can be done about it
    state("changed elsewhere while you typed: your text is here, and not saved");
    const mine = async () => { await takeTheirs(); base = job.digest; render(nothing, conflict); save(); };
    const theirs = async () => { isTyped = false; render(nothing, conflict); await takeTheirs(); take(); state(""); };
    render(html`<div class="notice" role="alert"><p>The file was changed elsewhere while you typed. Your text still stands here and is not saved; nothing was overwritten.</p>
      <p><button type="button" @click=${mine}>Save my text over it</button> <button type="button" @click=${theirs}>Take the file as it is now</button></p><p class="hint">Either can be taken back.</p></div>`, conflict);
  }

  async function save() {
    clearTimeout(timer);
    if (!isTyped) return;
    const text = area.value;
    try {
      await editMade("job file typed", () => {
        if (job.digest !== base) throw Object.assign(new Error("moved"), { status: 409 });
        return [{ edit: "text", text }];
      });
      base = job.digest;
      if (area.value === text) isTyped = false;
      state("saved");
      take();
    } catch (refusal) {
      if (refusal.status === 409) tellConflict();
      else state(`not saved: ${refusal.faults?.[0]?.needs || refusal.message}`);
    }
  }

  area.addEventListener("input", () => {
    isTyped = true;
    state("not saved yet");
    showNumbers();
    clearTimeout(timer);
    timer = setTimeout(save, PAUSE);
  });
  area.addEventListener("blur", save);
  area.addEventListener("scroll", () => { numbers.style.transform = `translateY(${-area.scrollTop}px)`; });
  addEventListener("beforeprint", () => { // a text field prints what of it is in sight
    element.querySelector(".printed").textContent = area.value.split("\n").map((line, k) => `${String(k + 1).padStart(4)}  ${line}`).join("\n");
  });
  addEventListener("pagehide", save);
  on("changed", take);
  on("steps", take);
  if (job.text !== null) take();
  return { element, goTo };
}
