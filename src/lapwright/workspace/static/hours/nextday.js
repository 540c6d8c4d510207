// The next day in the words of the morning sheet: go, wait or stop, and by when.
import { html, nothing } from "../lit/lit-html.js";
import { job } from "../core/job.js";
import { table } from "../core/table.js";

// What the line says after its verdict, which stands in a box before it.
const rest = ({ verdict, line }) => (line.toLowerCase().startsWith(verdict.toLowerCase()) ? line.slice(verdict.length).replace(/^[\s:,]+/, "") : line);

const list = (words) => (words?.length ? html`<ul>${words.map((each) => html`<li>${each}</li>`)}</ul>` : nothing);

// By which weather: the job's year, or the forecast that was kept beside the job.
function sources(found, by) {
  if (!found.kept) return html`<p class="hint">By the job's weather year. A forecast asked for with <code>lapwright morning ${job.name}.yaml --forecast nws</code> is kept beside the job, and can be chosen here then.</p>`;
  return html`<p class="field"><label for="next-from">Weather</label><select id="next-from" @change=${(event) => by(event.target.value)}><option value="" ?selected=${!found.from}>the job's weather year</option><option value="forecast" ?selected=${found.from === "forecast"}>the forecast kept in ${found.kept}</option></select></p>`;
}

// found: of the view `nextday`; chosen(date): another day is asked for; by(weather): other weather is.
export function nextday(found, chosen, by) {
  const day = html`<div class="fields"><p class="field"><label for="next-date">Day</label><input id="next-date" type="date" min=${found.held[0] ?? nothing} max=${found.held[1] ?? nothing} .value=${found.date} @change=${(event) => chosen(event.target.value)}></p>${sources(found, by)}</div>`;
  if (!found.page) return html`${day}<p class="notice">${found.why}.</p>`;
  const { page } = found;
  return html`${day}<h3>${page.date}</h3>${page.weather.map((line) => html`<p><strong>${line}</strong></p>`)}
    <p class="verdict"><span class="go ${page.overall.verdict}">${page.overall.verdict.toUpperCase()}</span> ${rest(page.overall)}</p>
    ${page.overall.why ? html`<p>${page.overall.why}</p>` : nothing}<p>${page.crew} ${page.decide}</p>
    ${operations(page)}
    ${page.measure ? html`<p>${page.measure}</p>` : nothing}
    ${table(page.table, "Hour by hour")}<p class="hint">${page.under_table}</p>
    ${[page.open, page.warm, page.carry].map(list)}${list(page.unknown)}${list(page.cautions)}${list(page.notes)}`;
}

function operations(page) {
  return html`<div class="scroll" tabindex="0" role="region" aria-label="Operations of the day"><table class="strip"><caption>Operations</caption>
    <thead><tr><th scope="col">Operation</th><th scope="col">Say</th><th scope="col">How</th><th scope="col">From</th><th scope="col">To</th>${page.hours.map((hour) => html`<th scope="col">${hour}</th>`)}<th scope="col">Why</th></tr></thead>
    <tbody>${page.operations.map((row) => html`<tr><th scope="row">${row.names}</th><td>${row.verdict}</td><td>${row.how}</td><td>${row.from}</td><td>${row.to}</td>${row.cells.map((cell) => html`<td class="swatch-cell"><span class="swatch ${cell === "none" ? "unknown" : cell}"></span><span class="hidden-words">${cell}</span></td>`)}<td class="why">${row.why}</td></tr>`)}</tbody></table></div>`;
}
