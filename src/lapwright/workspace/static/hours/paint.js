// Paints a picture of the hours: a path for each state, so that a year is some four fills.
import { hatch } from "./hatches.js";

const HOURS = 24;
const LETTERS = '"Routed Gothic", "Inter", sans-serif';

// marks: first and last safe minute by operation, in hours after the first day shown; or null.
export function paint(canvas, grid, colours, marks) {
  const sharp = window.devicePixelRatio || 1;
  canvas.width = Math.round(grid.width * sharp);
  canvas.height = Math.round(grid.height * sharp);
  canvas.style.width = `${grid.width}px`;
  canvas.style.height = `${grid.height}px`;
  const c = canvas.getContext("2d");
  c.scale(sharp, sharp);
  c.fillStyle = colours.paper;
  c.fillRect(0, 0, grid.width, grid.height);
  const isFine = grid.kind === "year" || grid.kind === "month";
  const { fills, edges } = shapes(grid);
  for (const [state, path] of fills) {
    const fill = hatch(c, state, isFine, colours, sharp);
    if (fill) { c.fillStyle = fill; c.fill(path); }
  }
  stroke(c, edges, colours.soft, isFine ? 0.5 : 0.8);
  frames(c, grid, colours);
  if (!isFine) words(c, grid, colours);
  crew(c, grid, colours);
  if (marks) windows(c, grid, colours, marks);
  heads(c, grid, colours);
}

function stroke(c, path, colour, width) {
  c.strokeStyle = colour;
  c.lineWidth = width;
  c.stroke(path);
}

// Runs of one state within each day: calls each(row, day, state, hour, many).
function runs(grid, each) {
  for (const row of grid.rows) {
    const states = grid.view.states[row.operation];
    for (let day = row.first; day < row.first + row.days; day++) {
      let from = 0, before = "";
      for (let hour = 0; hour <= HOURS; hour++) {
        const at = hour < HOURS ? grid.index(day, hour) : -1;
        // where clocks go forward an hour is left out: it is drawn as the one before
        const isSkipped = at < 0 && hour > 0 && hour < HOURS - 1 && grid.index(day, hour - 1) >= 0 && grid.index(day, hour + 1) >= 0;
        const state = isSkipped ? before : at < 0 ? "" : states[at];
        if (state === before) continue;
        if (before) each(row, day, before, from, hour - from);
        [from, before] = [hour, state];
      }
    }
  }
}

function shapes(grid) {
  const fills = new Map(), edges = new Path2D();
  runs(grid, (row, day, state, hour, many) => {
    if (!fills.has(state)) fills.set(state, new Path2D());
    const box = grid.box(row, day, hour, many);
    fills.get(state).rect(...box);
    if (state !== "s" && state !== "o") edges.rect(...box);
  });
  return { fills, edges };
}

// The frame of each row, its days or hours, and its marks at 6, 12 and 18 h.
function frames(c, grid, colours) {
  const frame = new Path2D(), hair = new Path2D(), ticks = new Path2D();
  for (const row of grid.rows) {
    const isDay = grid.kind === "day";
    const left = grid.left + (isDay ? 0 : row.from * grid.step), many = isDay ? HOURS : row.days;
    frame.rect(left, row.top, many * grid.step, grid.tall);
    for (let k = 1; k < many; k++) {
      hair.moveTo(left + k * grid.step, row.top);
      hair.lineTo(left + k * grid.step, row.top + grid.tall);
    }
    if (isDay) continue;
    for (const hour of [6, 12, 18]) {
      const y = row.top + (HOURS - hour) * grid.hour;
      ticks.moveTo(left - (hour === 12 ? 5 : 3), y);
      ticks.lineTo(left, y);
    }
  }
  stroke(c, hair, colours.hair, 0.7);
  stroke(c, ticks, colours.ink, 1);
  stroke(c, frame, colours.ink, 1.2);
}

// Where the crew's day begins and ends, and the hours of it in which an instrument is asked first.
function crew(c, grid, colours) {
  const bounds = new Path2D(), first = new Path2D();
  const { crew: at, measure } = grid.view;
  const isDay = grid.kind === "day", hasCrew = at.includes("c");
  for (const row of grid.rows) {
    for (let day = row.first; day < row.first + row.days; day++) {
      for (let hour = 0; hour < HOURS; hour++) {
        const here = grid.index(day, hour);
        if (here < 0) continue;
        const [x, y, wide, tall] = grid.box(row, day, hour);
        if (hour > 0 && here > 0 && at[here] !== at[here - 1]) line(bounds, isDay ? [x, y - 3, x, y + tall + 3] : [x, y + tall, x + wide, y + tall]);
        if (measure[here] === "m" && (at[here] === "c" || !hasCrew)) line(first, isDay ? [x + 1, y + 2.5, x + wide - 1, y + 2.5] : [x + wide - 2, y, x + wide - 2, y + tall]);
      }
    }
  }
  stroke(c, bounds, colours.accent, 1.6);
  stroke(c, first, colours.accent, grid.kind === "year" ? 1.6 : 2.5);
}

function line(path, [x0, y0, x1, y1]) {
  path.moveTo(x0, y0);
  path.lineTo(x1, y1);
}

// The longest safe window as a bracket with its first and last minute.
function windows(c, grid, colours, marks) {
  const path = new Path2D();
  for (const row of grid.rows) {
    for (const [from, to] of marks[row.operation] ?? []) {
      const day = row.first + Math.floor(from / HOURS);
      if (grid.kind === "day") {
        const y = row.top + grid.tall - 2, [x0, x1] = [from, to].map((hour) => grid.left + hour * grid.step);
        line(path, [x0, y, x1, y]);
        for (const x of [x0, x1]) line(path, [x, y - 7, x, y + 3]);
      } else {
        const x = grid.box(row, day, 0)[0] + 4, [y0, y1] = [from, to].map((hour) => row.top + (HOURS - (hour - (day - row.first) * HOURS)) * grid.hour);
        line(path, [x, y0, x, y1]);
        for (const y of [y0, y1]) line(path, [x - 3, y, x + 8, y]);
      }
    }
  }
  stroke(c, path, colours.accent, 3);
}

// The word in every run that has room for it.
function words(c, grid, colours) {
  c.font = `13px ${LETTERS}`;
  c.textAlign = "center";
  c.textBaseline = "middle";
  const name = Object.fromEntries(grid.view.words.map((word) => [word[0], word]));
  runs(grid, (row, day, state, hour, many) => {
    const [x, y, wide, tall] = grid.box(row, day, hour, many);
    const long = c.measureText(name[state]).width + 6;
    if (long > wide || tall < 15) return;
    c.fillStyle = colours.paper;
    c.fillRect(x + wide / 2 - long / 2, y + tall / 2 - 8, long, 16);
    c.fillStyle = colours.ink;
    c.fillText(name[state], x + wide / 2, y + tall / 2 + 1);
  });
}

function heads(c, grid, colours) {
  c.fillStyle = colours.ink;
  c.font = `13px ${LETTERS}`;
  c.textBaseline = "middle";
  c.textAlign = "left";
  for (const row of grid.rows) c.fillText(row.words, 2, row.top + grid.tall / 2, grid.left - 10);
  c.textAlign = "center";
  const [row] = grid.rows;
  if (!row) return;
  const at = (k) => grid.left + (k + 0.5) * grid.step;
  if (grid.kind === "week") for (let k = 0; k < row.days; k++) c.fillText(grid.view.days[row.first + k], at(k), 11);
  else if (grid.kind === "day") for (let hour = 0; hour < HOURS; hour += grid.step >= 19 ? 1 : 2) c.fillText(String(hour), at(hour), 11);
  else for (let date = 1; date <= 31; date++) if (grid.step >= 17 || date === 1 || date % 5 === 0) c.fillText(String(date), at(date - 1), 11);
}
