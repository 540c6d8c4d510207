// Where the words of the plan go: beside what they speak of, clear of one another and of what stands there.
const BY_LETTER = 7.6; // px of width, at the size they are lettered
const HIGH = 15;
const NUMBER = 20;
const ALONG = [0.5, 0.38, 0.62, 0.26, 0.74];

const boxAt = ([x, y], [wide, high]) => [x - wide / 2, y - high / 2, x + wide / 2, y + high / 2];
const meet = (one, two) => one[0] < two[2] && two[0] < one[2] && one[1] < two[3] && two[1] < one[3];
const widthOf = (words) => words.length * BY_LETTER + 4;

// A straight line passes through a box.
function isCrossed([left, top, right, low], [[x, y], [ax, ay]]) {
  let [from, to] = [0, 1];
  for (const [start, step, low_, high] of [[x, ax - x, left, right], [y, ay - y, top, low]]) {
    if (!step) { if (start < low_ || start > high) return false; continue; }
    const [one, two] = [(low_ - start) / step, (high - start) / step];
    from = Math.max(from, Math.min(one, two));
    to = Math.min(to, Math.max(one, two));
  }
  return from <= to;
}

// One sheet's labels.  width, height: of the sheet; put(key, places, size): the first place that is free, kept under
// the key; none where there is none, or the first of all where it must stand.
export function sheetOf(width, height) {
  const taken = [];
  const lines = [];
  const found = new Map();
  const isFree = (box) => box[0] >= 0 && box[1] >= 0 && box[2] <= width && box[3] <= height && !taken.some((each) => meet(each, box)) && !lines.some((each) => isCrossed(box, each));
  return {
    block: (at, size) => taken.push(boxAt(at, size)),
    line: (from, to) => lines.push([from, to]),
    put(key, places, size, must = false) {
      const place = places.find((each) => isFree(boxAt(each, size))) ?? (must ? places[0] : null);
      if (place) { taken.push(boxAt(place, size)); found.set(key, place); }
    },
    at: (key) => found.get(key),
  };
}

// By how much the words along a side are turned, so that they are read from below or from the right [degrees].
export function turnOf(from, to) {
  const turn = (Math.atan2(to[1] - from[1], to[0] - from[0]) * 180) / Math.PI;
  return turn > 89.9 ? turn - 180 : turn <= -90.1 ? turn + 180 : turn;
}

// Number and length of a side from one place to another [px]; `out` points away from the roof.
export function putSide(sheet, key, [from, to], out, { number, length }) {
  const on = (share, by) => [from[0] + (to[0] - from[0]) * share + out[0] * by, from[1] + (to[1] - from[1]) * share + out[1] * by];
  if (number) sheet.put(`${key}-no`, [...ALONG.map((share) => on(share, 22)), ...ALONG.map((share) => on(share, -18))], [NUMBER, NUMBER], true);
  if (!length) return;
  const turn = (turnOf(from, to) * Math.PI) / 180;
  const [along, across] = [Math.abs(Math.cos(turn)), Math.abs(Math.sin(turn))];
  const size = [widthOf(length) * along + HIGH * across, widthOf(length) * across + HIGH * along];
  const reach = HIGH / 2;
  sheet.put(`${key}-length`, [...ALONG.map((share) => on(share, 34 + reach)), ...ALONG.map((share) => on(share, 12 + reach)), ...ALONG.map((share) => on(share, -12 - reach))], size);
}

// The name of what stands at a place, as far from its middle as it is large: above, below, beside it.
export function putName(sheet, key, [x, y], name, [wide, high], first) {
  const own = widthOf(name);
  const [side, up] = [(wide + own) / 2 + 4, high / 2 + 9];
  sheet.put(key, [...(first ? [first] : []), [x, y - up], [x, y + up], [x + side, y], [x - side, y], [x + side, y - up], [x - side, y - up], [x + side, y + up], [x - side, y + up]], [own, HIGH]);
}

const STEP = 12;

// What is said of a whole area, in it, as near to its middle as there is room.
export function putInside(sheet, key, ring, size) {
  const [xs, ys] = [ring.map((p) => p[0]), ring.map((p) => p[1])];
  const [x, y] = [(Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2];
  const places = [];
  for (let right = Math.min(...xs) + size[0] / 2; right <= Math.max(...xs) - size[0] / 2; right += STEP) {
    for (let down = Math.min(...ys) + size[1] / 2; down <= Math.max(...ys) - size[1] / 2; down += STEP) if (isInside(ring, [right, down])) places.push([right, down]);
  }
  const away = (p) => Math.hypot(p[0] - x, p[1] - y);
  sheet.put(key, [...(isInside(ring, [x, y]) ? [[x, y]] : []), ...places.sort((one, two) => away(one) - away(two))], size);
}

function isInside(ring, [x, y]) {
  let is = false;
  ring.forEach(([ax, ay], k) => {
    const [bx, by] = ring[(k + 1) % ring.length];
    if (ay > y !== by > y && x < ax + ((bx - ax) * (y - ay)) / (by - ay)) is = !is;
  });
  return is;
}
