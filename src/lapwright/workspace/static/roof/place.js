// Where the plan stands on the screen: scale and shift, both ways, and how they change.
export class Place {
  constructor() {
    Object.assign(this, { scale: 1, x: 0, y: 0, width: 1, height: 1, least: 0.1, most: 2000 });
  }

  // The whole of a box [west, south, east, north, m] in the middle of the screen.
  fit([west, south, east, north], margin = 28, foot = 52) {
    const scale = Math.min((this.width - 2 * margin) / (east - west), (this.height - margin - foot) / (north - south));
    this.scale = Math.max(scale, 1e-3);
    this.least = this.scale / 4;
    this.x = this.width / 2 - this.scale * (west + east) / 2;
    this.y = (this.height + margin - foot) / 2 + this.scale * (south + north) / 2;
  }

  screen(x, y) {
    return [this.x + this.scale * x, this.y - this.scale * y];
  }

  plan(sx, sy) {
    return [(sx - this.x) / this.scale, (this.y - sy) / this.scale];
  }

  zoom(factor, sx = this.width / 2, sy = this.height / 2) {
    const scale = Math.min(this.most, Math.max(this.least, this.scale * factor));
    const ratio = scale / this.scale;
    this.x = sx - (sx - this.x) * ratio;
    this.y = sy - (sy - this.y) * ratio;
    this.scale = scale;
  }

  pan(dx, dy) {
    this.x += dx;
    this.y += dy;
  }

  // What of the plan is on the screen [west, south, east, north].
  window() {
    const [west, north] = this.plan(0, 0);
    const [east, south] = this.plan(this.width, this.height);
    return [west, south, east, north];
  }

  centre(x, y) {
    const [sx, sy] = this.screen(x, y);
    this.pan(this.width / 2 - sx, this.height / 2 - sy);
  }
}
