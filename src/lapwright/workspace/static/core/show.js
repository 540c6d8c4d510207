// A view of the job on its page: asked for whenever the job changes, the older question given up; how far it is, and
// what can't be planned, told in words.
import { html, nothing, render } from "../lit/lit-html.js";
import { view } from "./api.js";
import { job, on } from "./job.js";

// What is not given yet has a field that takes it; the file's own words for it help nobody who describes a job.
const MISSING = /^the key [^:]+: /;
const isMissing = (fault) => !fault.read && MISSING.test(fault.needs);

// The faults of a job, each with where it stands and what to write.
export function faultList(faults) {
  const sheet = `/jobs/${encodeURIComponent(job.name)}`;
  return html`<ul class="faults">${faults.map((fault) => isMissing(fault) ? html`<li>still to be given:
    <a href=${`${sheet}/describe#at=${encodeURIComponent(fault.key)}`}>${fault.needs.replace(MISSING, "")}</a></li>` : html`<li>
    ${fault.key ? html`<a href="/jobs/${encodeURIComponent(job.name)}/file#line-${fault.line}"><code>${fault.key}</code></a>` : nothing}
    ${fault.line ? html`<span class="hint">line ${fault.line}</span>` : nothing}
    needs ${fault.needs}${fault.read ? html`; read: <code>${fault.read}</code>` : nothing}
    ${fault.write ? html`<br>write: <code>${fault.write}</code>` : nothing}</li>`)}</ul>`;
}

// name: of the view; options(): its options now; draw(value, isDraft): puts it on the page.  Gives a function that asks
// again, for when an option changed.
export function show(name, { place, options = () => ({}), draw, refused }) {
  let stop = null;
  async function ask() {
    stop?.abort();
    const mine = (stop = new AbortController());
    const tell = (words) => { if (stop === mine) working(place, words, () => mine.abort()); };
    try {
      tell("being worked out…");
      const value = await view(job.name, name, options(), { tell, draft: (part) => stop === mine && draw(part, true), signal: mine.signal });
      if (stop !== mine) return;
      render(nothing, place);
      draw(value, false);
    } catch (refusal) {
      if (stop !== mine) return;
      if (refusal.name === "AbortError") render(html`<div class="working"><p>Stopped. <button type="button" @click=${ask}>Go on</button></p></div>`, place);
      else tellRefusal(place, refusal, ask);
      refused?.(refusal);
    }
  }
  on("changed", ask);
  return ask;
}

function working(place, words, stop) {
  render(html`<div class="working" role="status"><p>${words} <button type="button" @click=${stop}>Stop</button></p></div>`, place);
}

export function tellRefusal(place, refusal, again) {
  const count = refusal.faults?.length ?? 0;
  render(html`<div class="notice" role="alert"><p>${refusal.message}${count ? html`: ${count} ${count === 1 ? "thing" : "things"} to put right` : nothing}</p>
    ${count ? faultList(refusal.faults) : nothing}
    ${again && !count ? html`<p><button type="button" @click=${again}>Once more</button></p>` : nothing}</div>`, place);
}
