// Where every hour stands in a picture.  Year: a row a month, a day a column, its 24 hours from below upwards.  Month and
// week: a row an operation, the same way.  Day: a row an operation, its hours from left to right.
// Days and hours are those of the crew's clock.
const HOURS = 24;
const ZERO = "0".charCodeAt(0);

// The place in a view's texts of an hour of the crew's clock; -1 where the clock or the weather has none.  Of an hour
// that comes twice it is the first.  The weather itself stands in standard time all year.
export function placeOf(view, day, hour) {
  const at = day * HOURS + hour - view.first;
  const place = [at - 1, at, at + 1].find((each) => each >= 0 && each < view.hours && view.clock.charCodeAt(each) - ZERO === hour);
  return place ?? -1;
}

const LEFT = { year: 36, month: 84, week: 84, day: 84 };
const HEAD = 22, FOOT = 6, GAP = { year: 9, month: 9, week: 9, day: 6 };
const HOUR = { year: 4, month: 4, week: 6 };
const ACROSS = { year: 31, month: 31, week: 7, day: 24 };
const LEAST = { year: 9, month: 9, week: 42, day: 14 }, MOST = { year: 26, month: 34, week: 120, day: 44 };
const BAND = 34;

export class Grid {
  // view: of the hours; kind: year, month, week or day; operation: of the year's picture; day: its place; width: to be had [px].
  constructor(view, kind, operation, day, width) {
    Object.assign(this, { view, kind, day });
    this.left = LEFT[kind];
    const room = Math.floor((width - this.left - 2) / ACROSS[kind]);
    this.step = Math.min(MOST[kind], Math.max(LEAST[kind], room));
    this.hour = HOUR[kind];
    this.tall = kind === "day" ? BAND : HOURS * this.hour;
    this.rows = this.places(operation).map((row, k) => ({ ...row, top: HEAD + k * (this.tall + GAP[kind]) }));
    this.width = this.left + ACROSS[kind] * this.step + 2;
    this.height = HEAD + this.rows.length * (this.tall + GAP[kind]) + FOOT;
  }

  places(operation) {
    const { view, day } = this;
    if (this.kind === "year") return view.months.map((month) => ({ operation, words: month.name, first: month.first, days: month.days, from: month.date - 1 }));
    const month = view.months.findLast((each) => each.first <= day);
    const [first, days, from] = this.kind === "month" ? [month.first, month.days, month.date - 1] : this.kind === "week" ? [weekOf(day), Math.min(7, view.days.length - weekOf(day)), 0] : [day, 1, 0];
    return view.operations.map((each) => ({ operation: each.key, words: each.words, first, days, from }));
  }

  // The place of an hour in the view's texts; -1 where there is none.
  index(day, hour) {
    return placeOf(this.view, day, hour);
  }

  // Left, top, width and height of `many` hours of a day from `hour` on.
  box(row, day, hour, many = 1) {
    if (this.kind === "day") return [this.left + hour * this.step, row.top, many * this.step, this.tall];
    return [this.left + (row.from + day - row.first) * this.step, row.top + (HOURS - hour - many) * this.hour, this.step, many * this.hour];
  }

  // The row, day and hour at a point; null where there is none.
  at(x, y) {
    const row = this.rows.findIndex((each) => y >= each.top && y < each.top + this.tall);
    const across = Math.floor((x - this.left) / this.step);
    if (row < 0 || across < 0) return null;
    const { first, days, from, top } = this.rows[row];
    const day = this.kind === "day" ? first : first + across - from;
    const hour = this.kind === "day" ? across : HOURS - 1 - Math.floor((y - top) / this.hour);
    return day >= first && day < first + days && hour >= 0 && hour < HOURS ? { row, day, hour } : null;
  }

  // The row in which a day of an operation stands; -1 where none does.
  rowOf(operation, day) {
    return this.rows.findIndex((row) => row.operation === operation && day >= row.first && day < row.first + row.days);
  }
}

export const weekOf = (day) => day - (day % 7);
