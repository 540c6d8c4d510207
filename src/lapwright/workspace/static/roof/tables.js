// The tables behind the plan: every piece and every lap in words, a part at a time, found by number or id.
import { html, nothing } from "../lit/lit-html.js";

const MOST = 50;

// kind: "piece" or "lap"; look: {words, from} of this table; changed(): draws anew; choose(thing): shows it on the plan.
export function table(model, kind, look, changed, choose) {
  const all = kind === "piece" ? model.pieces : model.laps;
  const words = look.words.trim().toLowerCase();
  const found = words ? all.filter((each) => String(each.sequence ?? "") === words || each.id.toLowerCase().includes(words)) : all;
  const from = Math.min(look.from, Math.max(0, found.length - 1));
  const shown = found.slice(from, from + MOST);
  const go = (to) => () => { look.from = Math.max(0, to); changed(); };
  const type = (event) => { look.words = event.target.value; look.from = 0; changed(); };
  const heads = kind === "piece" ? ["Number", "Area", "Ply", "Id"] : ["Kind", "Area", "Ply", "Id"];
  return html`
    <p class="field"><label for="find-${kind}">Find by ${kind === "piece" ? "number or id" : "id"}</label><input id="find-${kind}" .value=${look.words} @input=${type} autocomplete="off"></p>
    <div class="scroll" tabindex="0" role="region" aria-label=${kind === "piece" ? "Table of pieces" : "Table of laps"}><table>
      <caption>${found.length ? `${from + 1} to ${from + shown.length} of ${found.length}` : "none found"}</caption>
      <thead><tr>${heads.map((head) => html`<th scope="col">${head}</th>`)}<th scope="col"><span class="hidden-words">Show</span></th></tr></thead>
      <tbody>${shown.map((each) => html`<tr><th scope="row">${each.sequence ?? each.lap}</th><td>${each.area}</td><td>${each.name}</td><td>${each.id}</td>
        <td><button type="button" aria-label="show ${each.id}" @click=${() => choose(each)}>show</button></td></tr>`)}</tbody>
    </table></div>
    ${found.length > MOST ? html`<p><button type="button" ?disabled=${from === 0} @click=${go(from - MOST)}>before</button>
      <button type="button" ?disabled=${from + MOST >= found.length} @click=${go(from + MOST)}>after</button></p>` : nothing}`;
}
