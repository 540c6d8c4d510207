// Pens and hatches of the drawing, in screen pixels, in the colours of the page.
const WEIGHTS = { hair: 0.6, thin: 0.9, medium: 1.4, heavy: 2.2, outline: 3 };
const DASHES = { solid: [], hidden: [8, 4], centre: [24, 4, 4, 4], phantom: [24, 4, 4, 4, 4, 4], dotted: [2, 4] };

export function inks() {
  const style = getComputedStyle(document.documentElement);
  const take = (name) => style.getPropertyValue(name).trim();
  return { ink: take("--ink"), accent: take("--accent"), grey: take("--line"), paper: take("--sheet"), hair: take("--hair"), soft: take("--soft"), letter: take("--letter") };
}

// A stroke in metres drawn with a pen of pixels: widths and dashes are divided by the scale.
export function pen(c, scale, colours, { w = "thin", l = "solid", i = "ink" }) {
  c.lineWidth = WEIGHTS[w] / scale;
  c.setLineDash(DASHES[l].map((d) => d / scale));
  c.strokeStyle = colours[i];
}

// A hatch as a small picture that repeats; "solid" is the ink itself.
const made = new Map();
export function hatch(c, name, colour) {
  if (name === "solid") return colour;
  const key = `${name} ${colour}`;
  if (made.has(key)) return made.get(key);
  const tile = document.createElement("canvas");
  const side = name === "faint" ? 14 : 10;
  tile.width = tile.height = side;
  const d = tile.getContext("2d");
  d.strokeStyle = d.fillStyle = colour;
  d.lineWidth = 1;
  const slant = (up) => {
    d.beginPath();
    for (const shift of [-side, 0, side]) {
      d.moveTo(shift, up ? side : 0);
      d.lineTo(shift + side, up ? 0 : side);
    }
    d.stroke();
  };
  if (name === "dots" || name === "faint" || name === "concrete") {
    d.fillRect(1, 1, 1.5, 1.5);
    if (name !== "faint") d.fillRect(side / 2 + 1, side / 2 + 1, 1.5, 1.5);
  } else {
    if (name !== "back") slant(true);
    if (name === "back" || name === "cross" || name === "board") slant(false);
  }
  made.set(key, c.createPattern(tile, "repeat"));
  return made.get(key);
}

export function forget() {
  made.clear();
}
