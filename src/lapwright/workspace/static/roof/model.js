// The roof as the server gave it, made ready to be drawn and pointed at: paths in metres, pieces in the order of laying,
// and what lies near a point.
const CELL = 4; // metres: the roof is divided into squares of this side to find what is near a point

export class Model {
  constructor(view) {
    this.view = view;
    this.pieces = view.plies.flatMap((ply, p) => ply.pieces.map(([id, sequence, ...at]) => ({ kind: "piece", id, sequence, corners: at.slice(0, 8), shows: at.slice(8), ply: p, name: ply.ply, area: ply.area })));
    this.pieces.sort((a, b) => a.sequence - b.sequence);
    this.last = this.pieces.length;
    this.laps = view.laps.map(([id, kind, area, name, ...line]) => ({ kind: "lap", lap: kind, id, area, name, line }));
    this.joints = view.joints.map(([id, area, name, x, y]) => ({ kind: "joint", id, area, name, x, y }));
    this.details = view.details.map(([id, kind, area, name, ...line]) => ({ kind: "detail", detail: kind, id, area, name, line }));
    this.byId = new Map([...this.pieces, ...this.laps, ...this.joints, ...this.details].map((each) => [each.id, each]));
    this.index();
    this.paths = new Map();
  }

  index() {
    this.cells = new Map();
    const put = (thing, xs, ys) => {
      const [w, e, s, n] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)].map((v) => Math.floor(v / CELL));
      for (let i = w; i <= e; i++) for (let j = s; j <= n; j++) {
        const key = i * 100003 + j;
        if (!this.cells.has(key)) this.cells.set(key, []);
        this.cells.get(key).push(thing);
      }
    };
    const even = (list) => list.filter((_, k) => k % 2 === 0);
    const odd = (list) => list.filter((_, k) => k % 2 === 1);
    for (const piece of this.pieces) put(piece, even(piece.corners), odd(piece.corners));
    for (const lap of this.laps) put(lap, even(lap.line), odd(lap.line));
    for (const joint of this.joints) put(joint, [joint.x], [joint.y]);
    for (const detail of this.details) put(detail, even(detail.line), odd(detail.line));
  }

  // What is nearest to a point, within reach [m], of what `shown` lets pass: T-joints first, then laps and details, then
  // the uppermost piece.
  at(x, y, reach, shown) {
    const near = new Set();
    for (const dx of [-reach, 0, reach]) for (const dy of [-reach, 0, reach]) {
      for (const thing of this.cells.get(Math.floor((x + dx) / CELL) * 100003 + Math.floor((y + dy) / CELL)) ?? []) near.add(thing);
    }
    let best = null, closest = reach;
    for (const thing of near) {
      if (thing.kind === "piece" || !shown(thing)) continue;
      const far = thing.kind === "joint" ? Math.hypot(thing.x - x, thing.y - y) * 0.5 : away(thing.line, x, y);
      if (far < closest) [best, closest] = [thing, far];
    }
    if (best) return best;
    for (const thing of near) {
      if (thing.kind !== "piece" || !shown(thing) || !holds(thing.corners, x, y)) continue;
      if (!best || thing.ply > best.ply || (thing.ply === best.ply && thing.sequence > best.sequence)) best = thing;
    }
    return best;
  }

  // A path kept under a key, made once.
  path(key, make) {
    if (!this.paths.has(key)) this.paths.set(key, make());
    return this.paths.get(key);
  }
}

export function ring(path, points) {
  for (let k = 0; k < points.length; k += 2) path[k ? "lineTo" : "moveTo"](points[k], points[k + 1]);
  path.closePath();
  return path;
}

export function line(path, points) {
  for (let k = 0; k < points.length; k += 2) path[k ? "lineTo" : "moveTo"](points[k], points[k + 1]);
  return path;
}

export function away([ax, ay, bx = ax, by = ay], x, y) {
  const [dx, dy] = [bx - ax, by - ay];
  const along = dx || dy ? Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy))) : 0;
  return Math.hypot(x - ax - along * dx, y - ay - along * dy);
}

export function holds(corners, x, y) {
  let inside = false;
  for (let k = 0, before = corners.length - 2; k < corners.length; before = k, k += 2) {
    const [ax, ay, bx, by] = [corners[k], corners[k + 1], corners[before], corners[before + 1]];
    if ((ay > y) !== (by > y) && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) inside = !inside;
  }
  return inside;
}
