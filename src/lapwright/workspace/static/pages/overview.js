// The sheet "overview": what the job comes to, and what is still to be given.
import { html, nothing, render } from "../lit/lit-html.js";
import { job } from "../core/job.js";
import { show } from "../core/show.js";

const page = document.getElementById("overview");
render(html`<div id="working"></div><div id="summary"></div>`, page);
const at = (key) => `/jobs/${encodeURIComponent(job.name)}/${key}`;

const tally = (status, count, words) => html`<a class="status ${status} ${count ? "" : "none"}" href=${at(`checks#${status}`)}>${count} ${words}</a>`;

function draw(found) {
  const { pass, fail, unknown } = found.checks;
  render(html`
    <table><caption>What it comes to</caption><tbody>
      <tr><th scope="row">Areas</th><td>${found.areas.join(", ")}</td></tr>
      <tr><th scope="row">Laid out</th><td><a href=${at("roof")}>${found.pieces} pieces, ${found.laps} laps, ${found.rolls} rolls</a></td></tr>
      <tr><th scope="row">Crew days</th><td><a href=${at("days")}>${found.days || "none: weather or crew are not given"}</a></td></tr>
      <tr><th scope="row">Checks</th><td><span class="tally">${tally("pass", pass, "passed")} ${tally("fail", fail, "failed")} ${tally("unknown", unknown, "unknown")}</span></td></tr>
    </tbody></table>
    ${found.warnings.length ? html`<h2>To know besides</h2><ul>${found.warnings.map((text) => html`<li>${text}</li>`)}</ul>` : nothing}
    ${found.mended.length ? html`<h2>Mended on the way in</h2><ul>${found.mended.map((text) => html`<li>${text}</li>`)}</ul>` : nothing}`,
  document.getElementById("summary"));
}

show("summary", { place: document.getElementById("working"), draw, refused: () => render(html`<p><a class="button" href=${at("describe")}>Go on describing the job</a></p>`, document.getElementById("summary")) });
