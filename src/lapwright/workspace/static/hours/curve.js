// The surface of a day or a week with its spread, beside air and dew point, against the limits of an operation.
import { html, nothing, svg } from "../lit/lit-html.js";

const WIDE = 900, TALL = 330, LEFT = 46, RIGHT = 128, TOP = 14, FOOT = 42;

// found: of the view `hoursday`; operation: whose limits and windows are shown; at: hours after the first, of the cursor.
export function curve(found, operation, at) {
  const { curve: lines } = found;
  const count = lines.hours.length;
  const x = (hour) => LEFT + (hour / count) * (WIDE - LEFT - RIGHT);
  const y = (value) => TOP + ((lines.to - value) / (lines.to - lines.from)) * (TALL - TOP - FOOT);
  const limits = found.limits.filter((each) => each.operations.includes(operation));
  const marks = found.marks[operation] ?? [];
  const words = `Surface temperature with its spread, air and dew point, ${found.title}; the table below holds the same in words.`;
  return html`<div class="scroll" tabindex="0" role="region" aria-label="Curve of ${found.title}"><svg class="curve" viewBox="0 0 ${WIDE} ${TALL}" role="img" aria-label=${words}>
    ${marks.map(([from, to]) => svg`<rect class="window" x=${x(from)} y=${TOP} width=${x(to) - x(from)} height=${TALL - TOP - FOOT}></rect>`)}
    ${lines.ticks.map((value) => svg`<line class="rule" x1=${LEFT} x2=${WIDE - RIGHT} y1=${y(value)} y2=${y(value)}></line><text class="right" x=${LEFT - 6} y=${y(value) + 4}>${value}</text>`)}
    <text x="2" y="12">${lines.unit}</text>
    ${hours(lines, x)}
    ${bands(lines, x, y)}
    ${limits.map((each) => svg`<line class="limit" x1=${LEFT} x2=${WIDE - RIGHT} y1=${y(each.at)} y2=${y(each.at)}></line>`)}
    ${limits.map((each) => svg`<text x=${WIDE - RIGHT + 4} y=${y(each.at) + 4}>${each.words.split(":")[0]}</text>`)}
    ${["dew", "air", "surface"].map((name) => svg`<path class=${name} d=${path(lines[name], x, y)}></path>`)}
    ${lines.measure.map((hour) => svg`<path class="measure" d="M${x(hour + 0.5) - 3} ${TALL - FOOT + 9} l3 -8 l3 8 z"></path>`)}
    ${marks.flat().map((hour) => svg`<line class="mark" x1=${x(hour)} x2=${x(hour)} y1=${TOP - 6} y2=${TALL - FOOT}></line>`)}
    ${at === null ? nothing : svg`<line class="here" x1=${x(at + 1)} x2=${x(at + 1)} y1=${TOP} y2=${TALL - FOOT}></line>`}
  </svg></div>${key()}`;
}

// A reading stands at the end of its hour; a gap where there is none.
function path(values, x, y) {
  let isOn = false;
  return values.map((value, hour) => {
    if (value === null) { isOn = false; return ""; }
    const step = `${isOn ? "L" : "M"}${x(hour + 1).toFixed(1)} ${y(value).toFixed(1)}`;
    isOn = true;
    return step;
  }).join("");
}

// The spread, a band for each run of hours in which it is known.
function bands(lines, x, y) {
  const runs = [[]];
  lines.low.forEach((low, hour) => {
    if (low === null || lines.high[hour] === null) runs.push([]);
    else runs.at(-1).push(hour);
  });
  const at = (hour, value) => `${x(hour + 1).toFixed(1)} ${y(value).toFixed(1)}`;
  return runs.filter((run) => run.length > 1).map((run) => svg`<path class="spread" d="M${[...run.map((hour) => at(hour, lines.high[hour])), ...run.toReversed().map((hour) => at(hour, lines.low[hour]))].join("L")}Z"></path>`);
}

function hours(lines, x) {
  const isDay = lines.days.length === 1;
  const foot = TALL - FOOT;
  const shown = lines.hours.map((hour, k) => [hour, k]).filter(([hour]) => Number(hour) % (isDay ? 2 : 12) === 0);
  return [
    ...shown.map(([hour, k]) => svg`<line class="rule" x1=${x(k)} x2=${x(k)} y1=${foot} y2=${foot + 4}></line>${isDay || hour !== "00" ? svg`<text class="middle" x=${x(k)} y=${foot + 22}>${hour}</text>` : nothing}`),
    ...(isDay ? [] : lines.days.map(([hour, words]) => svg`<line class="rule" x1=${x(hour)} x2=${x(hour)} y1=${TOP} y2=${foot + 8}></line><text x=${x(hour) + 4} y=${foot + 36}>${words}</text>`)),
  ];
}

function key() {
  const line = (kind, words) => html`<li><svg viewBox="0 0 40 12" width="40" height="12" aria-hidden="true"><path class=${kind} d="M0 6L40 6"></path></svg> ${words}</li>`;
  return html`<ul class="legend curve-key">${line("surface", "surface")}<li><svg viewBox="0 0 40 12" width="40" height="12" aria-hidden="true"><path class="spread" d="M1 1L39 1L39 11L1 11Z"></path></svg> its spread over the models</li>
    ${line("air", "air")}${line("dew", "dew point")}${line("limit", "limit")}${line("mark", "first and last safe minute")}<li><svg viewBox="0 0 14 12" width="14" height="12" aria-hidden="true"><path class="measure" d="M4 10l3 -8l3 8z"></path></svg> measure first</li></ul>`;
}
