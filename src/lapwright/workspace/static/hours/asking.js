// A part of the page that asks a view when it is told to, the older question given up.
import { render } from "../lit/lit-html.js";
import { view } from "../core/api.js";
import { job } from "../core/job.js";
import { tellRefusal } from "../core/show.js";

// options(): of the question, or null for none; draw(value or null).  wait: how long to wait for another call [ms].
export function asking(name, { place, options, draw, wait = 0 }) {
  let stop = null, timer = 0;
  async function now() {
    stop?.abort();
    const asked = options();
    if (!asked) { stop = null; return draw(null); }
    const mine = (stop = new AbortController());
    try {
      const value = await view(job.name, name, asked, { signal: mine.signal });
      if (stop === mine) draw(value);
    } catch (refusal) {
      if (stop === mine && refusal.name !== "AbortError") tellRefusal(place, refusal, now);
    }
  }
  return () => {
    clearTimeout(timer);
    timer = setTimeout(now, wait);
  };
}
