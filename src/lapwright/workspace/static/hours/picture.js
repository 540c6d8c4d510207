// A picture of the hours on its canvas: pointing, and a cursor that the keys move.
import { colours, PRINT } from "./hatches.js";
import { Grid } from "./grid.js";
import { paint } from "./paint.js";

const STEP = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
const clamp = (value, least, most) => Math.max(least, Math.min(most, value));

export class Picture {
  // told: moved({operation, day, hour}) where the cursor goes, over(the same or null) where the pointer is, opened(day).
  constructor(frame, told) {
    this.frame = frame;
    this.canvas = frame.querySelector("canvas");
    this.cursor = frame.querySelector(".cursor");
    this.told = told;
    this.grid = null;
    this.width = 0; // of the frame, measured again where the page says so
    this.canvas.addEventListener("keydown", (event) => this.key(event));
    this.canvas.addEventListener("pointermove", (event) => told.over(this.under(event)));
    this.canvas.addEventListener("pointerleave", () => told.over(null));
    this.canvas.addEventListener("click", (event) => { const at = this.under(event); if (at) told.moved(at); });
    this.canvas.addEventListener("dblclick", (event) => { const at = this.under(event); if (at) told.opened(at.day); });
  }

  // view: of the hours; kind, operation, day: what of it; marks: windows of the days shown, or null.  Painted where new.
  show(view, { kind, operation, day }, marks) {
    const width = this.width ||= this.frame.parentElement.clientWidth - 8;
    const grid = new Grid(view, kind, operation, day, width);
    const drawn = [view, marks, kind, width, ...grid.rows.map((row) => `${row.operation} ${row.first}`)];
    const isSame = this.drawn?.length === drawn.length && drawn.every((each, k) => each === this.drawn[k]);
    Object.assign(this, { grid, marks, drawn });
    if (!isSame) this.paint();
  }

  paint(isPrinted = false) {
    if (this.grid) paint(this.canvas, this.grid, isPrinted ? PRINT : colours(), this.marks);
  }

  under(event) {
    const at = this.grid?.at(event.offsetX, event.offsetY);
    return at ? { operation: this.grid.rows[at.row].operation, day: at.day, hour: at.hour } : null;
  }

  // Puts the cursor on an hour; isFollowed: the frame scrolls to it.
  point({ operation, day, hour }, isFollowed) {
    const row = this.grid ? this.grid.rowOf(operation, day) : -1;
    this.cursor.hidden = row < 0;
    if (row < 0) return;
    const [x, y, wide, tall] = this.grid.box(this.grid.rows[row], day, hour);
    const style = this.cursor.style;
    [style.left, style.top, style.width, style.height] = [x - 3, y - 3, wide + 6, tall + 6].map((value) => `${value}px`);
    this.place = { row, day, hour };
    if (isFollowed) this.cursor.scrollIntoView({ block: "nearest", inline: "nearest" });
  }

  key(event) {
    if (!this.grid || !this.place || event.altKey || event.ctrlKey || event.metaKey) return;
    if (event.key === "Enter") { event.preventDefault(); return this.told.opened(this.place.day); }
    const next = this.step(event.key);
    if (!next) return;
    event.preventDefault();
    const { operation, first, days } = this.grid.rows[next.row];
    const day = next.isOutside ? next.day : clamp(next.day, first, first + days - 1);
    this.told.moved({ operation, day, hour: clamp(next.hour, 0, 23) }, true);
  }

  // Arrows move by day and hour, in the day's picture by hour and operation; page keys by row, Home and End in the day.
  step(key) {
    const { row, day, hour } = this.place;
    const rows = this.grid.rows, isDay = this.grid.kind === "day";
    if (key === "Home") return { row, day, hour: 0 };
    if (key === "End") return { row, day, hour: 23 };
    const page = key === "PageUp" ? -1 : key === "PageDown" ? 1 : isDay && STEP[key] ? -STEP[key][1] : 0;
    if (page) {
      const to = clamp(row + page, 0, rows.length - 1);
      return { row: to, day: day - rows[row].first + rows[row].from - rows[to].from + rows[to].first, hour };
    }
    if (!STEP[key]) return null;
    const [across, up] = STEP[key];
    if (isDay) return { row, day, hour: hour + across };
    if (!across) return { row, day, hour: hour + up };
    const next = clamp(day + across, 0, this.grid.view.days.length - 1);
    const to = this.grid.rowOf(rows[row].operation, next);
    return { row: to < 0 ? row : to, day: next, hour, isOutside: to < 0 };
  }
}
