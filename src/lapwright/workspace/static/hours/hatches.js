// The hatches of the hours, fine enough for an hour of four pixels: warm dots, heat strokes that rise, shut solid,
// unknown strokes that fall; an open hour is left clear.
const FINE = { w: [4, dots], h: [5, rising], u: [6, falling] };
const WIDE = { w: [7, dots], h: [8, rising], u: [9, falling] };

function dots(c, side) {
  c.beginPath();
  c.arc(side / 2, side / 2, side > 5 ? 1.3 : 0.9, 0, 7);
  c.fill();
}

function rising(c, side) {
  slant(c, side, side, 0);
}

function falling(c, side) {
  slant(c, side, 0, side);
}

function slant(c, side, from, to) {
  c.beginPath();
  for (const shift of [-side, 0, side]) {
    c.moveTo(shift, from);
    c.lineTo(shift + side, to);
  }
  c.stroke();
}

// What fills the hours of a state (its letter); null for the clear one.  sharp: device pixels to one of the page.
export function hatch(c, state, isFine, colours, sharp) {
  if (state === "s") return colours.grey;
  const found = (isFine ? FINE : WIDE)[state];
  if (!found) return null;
  const [side, draw] = found;
  const tile = document.createElement("canvas");
  tile.width = tile.height = Math.round(side * sharp);
  const t = tile.getContext("2d");
  t.scale(tile.width / side, tile.width / side);
  t.strokeStyle = t.fillStyle = colours.ink;
  t.lineWidth = isFine ? 0.9 : 1.2;
  draw(t, side);
  const pattern = c.createPattern(tile, "repeat");
  pattern.setTransform(new DOMMatrix().scale(side / tile.width));
  return pattern;
}

export const PRINT = { ink: "#000", accent: "#000", grey: "#999", paper: "#fff", hair: "#bbb", soft: "#333" };

export function colours() {
  const style = getComputedStyle(document.documentElement);
  const take = (name) => style.getPropertyValue(name).trim();
  return { ink: take("--ink"), accent: take("--accent"), grey: take("--line"), paper: take("--sheet"), hair: take("--hair"), soft: take("--soft") };
}
