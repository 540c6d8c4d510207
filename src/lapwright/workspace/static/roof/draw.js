// Draws the roof on a canvas: what is laid of the plies that are shown, laps, joints, what lies on the roof, lettering.
import { letters } from "./letters.js";
import { line, ring } from "./model.js";
import { hatch, inks, pen } from "./pens.js";

// state: {names: plies shown, layers: Set of keys, laid: how many pieces, chosen: id, measured: points, over: id}
export function draw(canvas, model, place, state) {
  const c = canvas.getContext("2d");
  const ratio = canvas.width / place.width;
  const colours = inks();
  c.setTransform(1, 0, 0, 1, 0, 0);
  c.fillStyle = colours.paper;
  c.fillRect(0, 0, canvas.width, canvas.height);
  const scene = { c, model, place, state, colours, ratio };
  toPlan(scene);
  for (const key of ["zones", "staging"]) if (state.layers.has(key)) layer(scene, key);
  for (const name of state.names) ply(scene, name);
  if (state.layers.has("details")) details(scene);
  for (const area of model.view.areas) items(scene, area.drawn, `area ${area.name}`);
  if (state.layers.has("water")) layer(scene, "water");
  marked(scene);
  c.setTransform(ratio, 0, 0, ratio, 0, 0);
  letters(scene);
  bar(scene);
}

function toPlan({ c, place, ratio }) {
  c.setTransform(place.scale * ratio, 0, 0, -place.scale * ratio, place.x * ratio, place.y * ratio);
}

// The ground of a ply: its pieces are cut to the outline of their area.
function within(scene, area, make) {
  const { c, model } = scene;
  c.save();
  c.clip(model.path(`outline ${area}`, () => {
    const found = model.view.areas.find((each) => each.name === area);
    const path = ring(new Path2D(), found.outline);
    for (const hole of found.holes) ring(path, hole);
    return path;
  }), "evenodd");
  make();
  c.restore();
}

function ply(scene, name) {
  const { c, model, state, colours, place } = scene;
  const laid = Math.min(state.laid, model.last);
  for (const area of model.view.areas.map((each) => each.name)) {
    within(scene, area, () => {
      if (laid < model.last || state.names.length > 1) {
        c.fillStyle = colours.paper;
        c.fill(model.path(`fill ${area} ${name} ${laid}`, () => pieces(model, area, name, laid)));
      }
      pen(c, place.scale, colours, { w: "hair", i: laid < model.last ? "ink" : "grey" });
      c.stroke(model.path(`fill ${area} ${name} ${laid}`, () => pieces(model, area, name, laid)));
      if (laid < model.last) return;
      if (state.layers.has("laps")) laps(scene, area, name);
    });
    if (state.layers.has("joints") && laid === model.last) joints(scene, area, name);
  }
}

function pieces(model, area, name, laid) {
  if (model.paths.size > 400) model.paths.clear();
  const path = new Path2D();
  for (const piece of model.pieces) {
    if (piece.sequence > laid) break;
    if (piece.area === area && piece.name === name) ring(path, piece.corners);
  }
  return path;
}

function laps(scene, area, name) {
  const { c, model, colours, place } = scene;
  const of = (kind) => model.path(`laps ${kind} ${area} ${name}`, () => model.laps.filter((lap) => lap.lap === kind && lap.area === area && lap.name === name).reduce((path, lap) => line(path, lap.line), new Path2D()));
  pen(c, place.scale, colours, { w: "thin" });
  c.stroke(of("side"));
  pen(c, place.scale, colours, { w: "heavy" });
  c.stroke(of("end"));
  pen(c, place.scale, colours, { w: "thin" });
  c.stroke(model.path(`cuts ${area} ${name}`, () => model.view.plies.filter((each) => each.area === area && each.ply === name).flatMap((each) => each.cuts).reduce((path, [, ...cut]) => line(path, cut), new Path2D())));
}

function joints(scene, area, name) {
  const { c, model, colours, place } = scene;
  const radius = Math.min(4, Math.max(1.8, place.scale * 0.17)) / place.scale;
  if (place.scale < 4) return;
  pen(c, place.scale, colours, { w: "thin", i: "accent" });
  c.beginPath();
  const [west, south, east, north] = place.window();
  for (const { x, y, area: a, name: n } of model.joints) {
    if (a !== area || n !== name || x < west || x > east || y < south || y > north) continue;
    c.moveTo(x + radius, y);
    c.arc(x, y, radius, 0, 7);
  }
  c.stroke();
}

function details({ c, model, colours, place }) {
  pen(c, place.scale, colours, { w: "medium", l: "hidden" });
  c.stroke(model.path("details", () => model.details.filter((each) => each.line.length === 4).reduce((path, each) => line(path, each.line), new Path2D())));
}

function layer(scene, key) {
  const found = scene.model.view.loads.find((each) => each.key === key);
  if (found) items(scene, found.drawn, key);
}

// The list of strokes, hatches and circles that the packet draws from, in its own order.
function items({ c, model, colours, place }, drawn, key) {
  drawn.forEach((item, k) => {
    if (item.k === "line") {
      pen(c, place.scale, colours, item);
      c.stroke(model.path(`${key} ${k}`, () => line(new Path2D(), item.p)));
    } else if (item.k === "fill") {
      c.fillStyle = hatch(c, item.h, colours[item.i]);
      if (typeof c.fillStyle !== "string") c.fillStyle.setTransform(new DOMMatrix().scale(1 / place.scale));
      c.fill(model.path(`${key} ${k}`, () => item.p.reduce((path, each) => ring(path, each), new Path2D())), "evenodd");
    } else {
      pen(c, place.scale, colours, item);
      c.beginPath();
      c.arc(item.p[0], item.p[1], item.r, 0, 7);
      if (item.f) { c.fillStyle = colours[item.f]; c.fill(); }
      c.stroke();
    }
  });
}

// What is pointed at and what is chosen, and the tape.
function marked({ c, model, state, colours, place }) {
  for (const [id, w] of [[state.over, "medium"], [state.chosen, "outline"]]) {
    const thing = model.byId.get(id);
    if (!thing) continue;
    pen(c, place.scale, colours, { w, i: "accent" });
    c.beginPath();
    if (thing.kind === "piece") ring(c, thing.corners);
    else if (thing.kind === "joint") c.arc(thing.x, thing.y, 7 / place.scale, 0, 7);
    else if (thing.line.length === 2) c.arc(thing.line[0], thing.line[1], 7 / place.scale, 0, 7);
    else line(c, thing.line);
    c.stroke();
  }
  if (state.measured.length) {
    pen(c, place.scale, colours, { w: "medium", i: "accent", l: "hidden" });
    c.beginPath();
    line(c, [...state.measured, ...(state.reach ? [state.reach] : [])].flat());
    c.stroke();
  }
}

// Bar scale and north arrow, as on a sheet.
function bar({ c, model, place, colours }) {
  const fits = model.view.bar.filter((each) => each.m * place.scale <= 180);
  const chosen = fits.at(-1);
  c.strokeStyle = c.fillStyle = colours.ink;
  c.lineWidth = 1.5;
  c.setLineDash([]);
  c.textAlign = "left";
  c.textBaseline = "bottom";
  if (chosen) {
    const [x, y, long] = [14, place.height - 14, chosen.m * place.scale];
    c.fillStyle = colours.paper;
    c.fillRect(x - 6, y - 20, long + c.measureText(chosen.words).width + 20, 26);
    c.fillStyle = colours.ink;
    c.strokeRect(x, y - 5, long, 5);
    c.fillRect(x, y - 5, long / 2, 5);
    c.fillText(chosen.words, x + long + 6, y + 2);
  }
  const [nx, ny] = [place.width - 24, 20];
  c.beginPath();
  c.moveTo(nx, ny + 26);
  c.lineTo(nx, ny);
  c.lineTo(nx - 5, ny + 11);
  c.moveTo(nx, ny);
  c.lineTo(nx + 5, ny + 11);
  c.stroke();
  c.textAlign = "center";
  c.fillText("N", nx, ny + 42);
}
