// A figure's curve: a line over two ruled axes, each mark with its words; the same as a table behind it.
import { html, nothing, svg } from "../lit/lit-html.js";

const W = 560, H = 260, LEFT = 92, RIGHT = 22, TOP = 14, FOOT = 50;
const x = (share) => LEFT + share * (W - LEFT - RIGHT);
const y = (share) => H - FOOT - share * (H - FOOT - TOP);

export function curve(found) {
  if (!found) return nothing;
  const line = found.points.map(([a, b]) => `${x(a).toFixed(1)},${y(b).toFixed(1)}`).join(" ");
  return html`<figure><figcaption>${found.up}</figcaption>
    <svg class="curve" viewBox="0 0 ${W} ${H}" role="img" aria-label="Curve: ${found.up} by ${found.along}; the table below holds it in numbers">
      ${found.marks_up.map(([at, words]) => svg`<line class="rule" x1=${LEFT} x2=${W - RIGHT} y1=${y(at)} y2=${y(at)}/><text x=${LEFT - 8} y=${y(at) + 5} text-anchor="end">${words}</text>`)}
      ${found.marks_along.map(([at, words]) => svg`<line class="rule" x1=${x(at)} x2=${x(at)} y1=${TOP} y2=${H - FOOT}/><text x=${x(at)} y=${H - FOOT + 18} text-anchor=${at > 0.93 ? "end" : "middle"}>${words}</text>`)}
      <path class="axis" d="M${LEFT},${TOP}V${H - FOOT}H${W - RIGHT}"/><polyline class="line" points=${line}/>
      <text class="along" x=${(LEFT + W - RIGHT) / 2} y=${H - 8} text-anchor="middle">${found.along}</text></svg>
    <details><summary>The curve in numbers</summary><table><caption>${found.up}</caption><thead><tr><th scope="col">${found.along}</th><th scope="col">${found.up}</th></tr></thead>
      <tbody>${found.rows.map(([along, up]) => html`<tr><td>${along}</td><td>${up}</td></tr>`)}</tbody></table></details></figure>`;
}
