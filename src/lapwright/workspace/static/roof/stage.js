// The canvas and what hands do on it: pan, zoom, point, measure; by mouse, finger and keys.  Drawn once a frame at most.
import { draw } from "./draw.js";
import { forget } from "./pens.js";
import { Place } from "./place.js";

const STEP = 60; // pixels, of an arrow key

// state: as draw.js takes it; pointed(thing) is called for what lies under the pointer, chosen(thing) for a click,
// measured(point) for a click of the tape [m].
export class Stage {
  constructor(canvas, state, { pointed, chosen, measured }) {
    Object.assign(this, { canvas, state, pointed, chosen, measured, model: null, place: new Place(), pointers: new Map(), isAsked: false, isFitted: false });
    new ResizeObserver(() => this.resize()).observe(canvas.parentElement);
    for (const kind of ["pointerdown", "pointermove", "pointerup", "pointercancel", "pointerleave", "wheel", "keydown"]) {
      canvas.addEventListener(kind, (event) => this[kind](event), { passive: false });
    }
    matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => { forget(); this.ask(); });
    document.fonts.ready.then(() => this.ask());
    this.resize();
  }

  show(model) {
    const before = this.model?.view.box.join();
    this.model = model;
    if (!this.isFitted || before !== model.view.box.join()) this.fit();
    this.ask();
  }

  fit() {
    if (!this.model) return;
    this.place.fit(this.model.view.box);
    this.isFitted = true;
    this.ask();
  }

  resize() {
    const { clientWidth: width, clientHeight: height } = this.canvas.parentElement;
    const ratio = Math.min(devicePixelRatio || 1, 2);
    if (!width || !height) return;
    Object.assign(this.canvas, { width: Math.round(width * ratio), height: Math.round(height * ratio) });
    const first = this.place.width === 1;
    Object.assign(this.place, { width, height });
    if (first) this.fit();
    this.ask();
  }

  ask() {
    if (this.isAsked || !this.model) return;
    this.isAsked = true;
    requestAnimationFrame(() => {
      this.isAsked = false;
      draw(this.canvas, this.model, this.place, this.state);
    });
  }

  spot(event) {
    const box = this.canvas.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  }

  under(spot) {
    const [x, y] = this.place.plan(...spot);
    const { names, layers, laid } = this.state;
    const shown = (thing) => {
      if (thing.kind === "piece") return names.includes(thing.name) && thing.sequence <= laid;
      if (thing.kind === "joint") return layers.has("joints") && names.includes(thing.name);
      if (thing.kind === "detail") return layers.has("details");
      return layers.has("laps") && names.includes(thing.name);
    };
    return this.model?.at(x, y, 8 / this.place.scale, shown) ?? null;
  }

  pointerdown(event) {
    this.canvas.setPointerCapture(event.pointerId);
    this.pointers.set(event.pointerId, this.spot(event));
    this.moved = 0;
  }

  pointermove(event) {
    const now = this.spot(event);
    const before = this.pointers.get(event.pointerId);
    if (!before) {
      if (!this.state.isMeasuring) this.over(this.under(now));
      else if (this.state.measured.length === 1) this.measured(this.place.plan(...now), true);
      return;
    }
    const others = [...this.pointers].filter(([id]) => id !== event.pointerId);
    if (others.length === 1) {
      const far = (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1]) || 1;
      const [, other] = others[0];
      this.place.zoom(far(now, other) / far(before, other), (now[0] + other[0]) / 2, (now[1] + other[1]) / 2);
    }
    const share = others.length ? 0.5 : 1;
    this.place.pan((now[0] - before[0]) * share, (now[1] - before[1]) * share);
    this.moved += Math.abs(now[0] - before[0]) + Math.abs(now[1] - before[1]);
    this.pointers.set(event.pointerId, now);
    this.ask();
  }

  pointerup(event) {
    this.pointers.delete(event.pointerId);
    if (this.moved > 5) return;
    const spot = this.spot(event);
    if (this.state.isMeasuring) this.measured(this.place.plan(...spot), false);
    else this.chosen(this.under(spot));
  }

  pointercancel(event) {
    this.pointers.delete(event.pointerId);
    this.moved = 99;
  }

  pointerleave() {
    this.over(null);
  }

  over(thing) {
    if (this.state.over === (thing?.id ?? "")) return;
    this.state.over = thing?.id ?? "";
    this.canvas.title = thing ? thing.id : "";
    this.pointed(thing);
    this.ask();
  }

  wheel(event) {
    event.preventDefault();
    this.place.zoom(Math.exp(-event.deltaY * (event.deltaMode ? 0.05 : 0.0015)), ...this.spot(event));
    this.ask();
  }

  keydown(event) {
    const ways = { ArrowLeft: [STEP, 0], ArrowRight: [-STEP, 0], ArrowUp: [0, STEP], ArrowDown: [0, -STEP] };
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (ways[event.key]) this.place.pan(...ways[event.key]);
    else if (event.key === "+" || event.key === "=") this.place.zoom(1.25);
    else if (event.key === "-") this.place.zoom(0.8);
    else if (event.key === "0") this.fit();
    else if (event.key === "Enter" || event.key === " ") this.chosen(this.under([this.place.width / 2, this.place.height / 2]));
    else return;
    event.preventDefault();
    this.ask();
  }

  // Brings a thing to the middle, near enough to be read.
  goTo(thing) {
    const points = thing.corners ?? thing.line ?? [thing.x, thing.y];
    const xs = points.filter((_, k) => k % 2 === 0), ys = points.filter((_, k) => k % 2 === 1);
    const middle = (list) => (Math.min(...list) + Math.max(...list)) / 2;
    if (this.place.scale < 18) this.place.zoom(18 / this.place.scale);
    this.place.centre(middle(xs), middle(ys));
    this.ask();
  }
}
