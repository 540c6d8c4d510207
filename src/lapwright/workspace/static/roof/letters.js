// The lettering of the roof: names of things, words at edges, the fall of each area, numbers of pieces.  Nothing is
// written over something else; what finds no room is left out.
const LETTER = 13; // pixels
const NUMBERED = 15; // a piece's number is written where the piece is at least so many pixels high

export function letters({ c, model, place, state, colours }) {
  c.textAlign = "center";
  c.textBaseline = "middle";
  c.font = `${LETTER}px ${colours.letter}`;
  const taken = [];
  const isTaken = (box) => taken.some((other) => box[0] < other[2] && box[2] > other[0] && box[1] < other[3] && box[3] > other[1]);
  const write = (words, sx, sy, { accent = false, turn = 0 } = {}) => {
    const width = c.measureText(words).width;
    const [w, h] = [Math.abs(Math.cos(turn)) * width + Math.abs(Math.sin(turn)) * LETTER, Math.abs(Math.sin(turn)) * width + Math.abs(Math.cos(turn)) * LETTER];
    const box = [sx - w / 2 - 3, sy - h / 2 - 2, sx + w / 2 + 3, sy + h / 2 + 2];
    if (box[2] < 0 || box[3] < 0 || box[0] > place.width || box[1] > place.height) return true;
    if (isTaken(box)) return false;
    taken.push(box);
    c.save();
    c.translate(sx, sy);
    c.rotate(turn);
    c.fillStyle = colours.paper;
    c.fillRect(-width / 2 - 3, -LETTER / 2 - 2, width + 6, LETTER + 4);
    c.fillStyle = accent ? colours.accent : colours.ink;
    c.fillText(words, 0, 0);
    c.restore();
    return true;
  };
  for (const area of model.view.areas) for (const mark of area.marks) taken.push(boxOf(place, mark));
  for (const area of model.view.areas) for (const mark of area.marks) named(c, place, mark, taken, write);
  for (const found of model.view.loads) if (state.layers.has(found.key)) for (const mark of found.marks) write(mark.words, ...place.screen(...mark.at), { accent: found.key === "zones" });
  if (state.layers.has("words")) for (const area of model.view.areas) for (const edge of area.edges) edgeWords(c, place, edge, write);
  for (const area of model.view.areas) falls(c, place, area, colours, { write, taken, isTaken });
  if (state.layers.has("numbers")) numbers(model, place, state, write, c);
}

// What a thing takes of the screen, so that nothing is written over it.
function boxOf(place, { at, size: [wide, deep] }) {
  const [sx, sy] = place.screen(...at);
  const [w, h] = [Math.max(12, wide * place.scale) / 2, Math.max(12, deep * place.scale) / 2];
  return [sx - w, sy - h, sx + w, sy + h];
}

// The name of a thing: within it where there is room, else beside it.
function named(c, place, mark, taken, write) {
  const box = boxOf(place, mark), [west, north, east, south] = box;
  const [sx, sy] = place.screen(...mark.at), half = c.measureText(mark.words).width / 2 + 5;
  if (east - west > 2 * half && south - north > LETTER + 8) {
    taken.splice(taken.findIndex((each) => each.every((value, k) => value === box[k])), 1);
    write(mark.words, sx, sy);
    taken.push(box);
    return;
  }
  const up = LETTER / 2 + 4;
  for (const [x, y] of [[sx, north - up], [sx, south + up], [east + half, sy], [west - half, sy]]) if (write(mark.words, x, y)) return;
}

function edgeWords(c, place, edge, write) {
  const [ax, ay] = place.screen(edge.line[0], edge.line[1]);
  const [bx, by] = place.screen(edge.line[2], edge.line[3]);
  const long = Math.hypot(bx - ax, by - ay);
  const words = edge.words.find((each) => c.measureText(each).width < long - 8);
  let turn = Math.atan2(by - ay, bx - ax);
  if (turn > Math.PI / 2 + 0.01 || turn <= -Math.PI / 2 + 0.01) turn += Math.PI;
  if (words) write(words, (ax + bx) / 2, (ay + by) / 2, { turn });
}

// The arrow and the words of an area's fall, near its middle where nothing else is written.
function falls(c, place, area, colours, { write, taken, isTaken }) {
  const xs = area.outline.filter((_, k) => k % 2 === 0), ys = area.outline.filter((_, k) => k % 2 === 1);
  const middle = place.screen(xs.reduce((a, b) => a + b) / xs.length, ys.reduce((a, b) => a + b) / ys.length);
  const [dx, dy] = [area.falls[0] * 26, -area.falls[1] * 26];
  const words = `${area.name}, ${area.slope}`;
  const [wide, tall] = [Math.max(Math.abs(dx), c.measureText(words).width / 2) + 8, Math.abs(dy)];
  const room = ([x, y]) => [x - wide, y - tall - 26, x + wide, y + tall + 4];
  const steps = [0, -50, 50, -100, 100, -160, 160, -240, 240];
  const spots = steps.flatMap((north) => steps.map((east) => [east, north])).sort((a, b) => Math.hypot(...a) - Math.hypot(...b)).map(([east, north]) => [middle[0] + east, middle[1] + north]);
  const isInside = ([x, y]) => { const box = room([x, y]); return [[box[0], box[1]], [box[2], box[1]], [box[0], box[3]], [box[2], box[3]]].every((corner) => holds(area, place.plan(...corner))); };
  const arrow = ([x, y]) => [x - Math.abs(dx) - 8, y - tall - 4, x + Math.abs(dx) + 8, y + tall + 4];
  const spot = spots.find((each) => !isTaken(room(each)) && isInside(each));
  const [sx, sy] = spot ?? spots.find((each) => !isTaken(arrow(each)) && holds(area, place.plan(...each))) ?? middle;
  c.strokeStyle = c.fillStyle = colours.ink;
  c.lineWidth = 1.6;
  c.setLineDash([]);
  c.beginPath();
  c.moveTo(sx - dx, sy - dy);
  c.lineTo(sx + dx, sy + dy);
  c.moveTo(sx + dx * 0.55 - dy * 0.22, sy + dy * 0.55 + dx * 0.22);
  c.lineTo(sx + dx, sy + dy);
  c.lineTo(sx + dx * 0.55 + dy * 0.22, sy + dy * 0.55 - dx * 0.22);
  c.stroke();
  if (spot) write(words, sx, sy - 16 - tall);
  taken.push([sx - Math.abs(dx) - 6, sy - tall, sx + Math.abs(dx) + 6, sy + tall]);
}

// A point lies within an area's outline [m].
function holds(area, [x, y]) {
  const p = area.outline;
  let isIn = false;
  for (let k = 0, last = p.length - 2; k < p.length; last = k, k += 2) {
    if (p[k + 1] > y !== p[last + 1] > y && x < ((p[last] - p[k]) * (y - p[k + 1])) / (p[last + 1] - p[k + 1]) + p[k]) isIn = !isIn;
  }
  return isIn;
}

function numbers(model, place, state, write, c) {
  const [west, south, east, north] = place.window();
  const top = state.names.at(-1);
  for (const { name, sequence, shows: [x, y, long, high] } of model.pieces) {
    if (sequence > state.laid) break;
    if (name !== top) continue;
    if (x < west || x > east || y < south || y > north) continue;
    if (Math.min(high, long) * place.scale >= NUMBERED) write(String(sequence), ...place.screen(x, y));
  }
}
