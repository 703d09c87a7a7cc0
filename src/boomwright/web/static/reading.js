// Reading exact values off a figure, by pointer or by arrow keys, from the data drawn into it.

import { redraw } from "/static/redraw.js";
import { set } from "/static/writing.js";

const SVG = "http://www.w3.org/2000/svg";
const fixed = (value, digits) => value.toFixed(digits).replace("-", "−");

export class Readers {
  constructor(pictures) {
    this.byName = new Map([...pictures].map((picture) => [picture.dataset.picture, new Reader(picture)]));
  }

  paint({ figures, keys }) {
    for (const [name, svg] of Object.entries(figures)) this.byName.get(name)?.paint(svg, keys[name]);
    const lobes = this.byName.get("lobes");
    if (figures.elevation && lobes) lobes.picture.hidden = !figures.lobes;
  }

  // The figures of the whole band belong to the beam before the last edit until they are redrawn.
  markBehind() {
    for (const [name, reader] of this.byName) {
      // What a search found belongs to the beam it was asked for, and says so itself.
      if (name !== "azimuth" && !reader.picture.closest(".improve")) set(reader.drawing, "data-behind", "");
    }
  }
}

class Reader {
  constructor(picture) {
    this.picture = picture;
    this.keys = picture.querySelector(".keys");
    this.area = picture.querySelector(".reader");
    this.drawing = picture.querySelector(".drawing");
    this.output = picture.querySelector(".reading");
    this.index = null;
    this.area.addEventListener("pointermove", (event) => this.point(event));
    this.area.addEventListener("pointerdown", (event) => this.point(event));
    this.area.addEventListener("keydown", (event) => this.key(event));
    this.area.addEventListener("blur", () => this.leave());
    this.area.addEventListener("pointerleave", () => {
      if (document.activeElement !== this.area) this.leave();
    });
    this.load();
  }

  paint(svg, keys = []) {
    const lines = keys.map((key) => {
      const line = document.createElement("li");
      const label = document.createElement("strong");
      label.textContent = key.label;
      line.append(label, ` ${key.text}`);
      return line;
    });
    const text = lines.map((line) => line.textContent).join("\n");
    if (this.told !== text) this.keys.replaceChildren(...lines);
    this.told = text;
    redraw(this.drawing, svg);
    this.drawing.removeAttribute("data-behind");
    this.load();
    if (this.index !== null) this.show(Math.min(this.index, this.scale.length - 1));
  }

  load() {
    this.svg = this.drawing.querySelector("svg");
    this.read = undefined;
  }

  // What can be read off, taken from the drawing only once somebody reads.
  get plot() {
    if (this.read === undefined) this.read = this.svg ? readPlot(this.svg) : null;
    return this.read;
  }

  get scale() {
    return this.plot ? this.plot.scale : [];
  }

  point(event) {
    if (!this.plot) return;
    const box = this.svg.getBoundingClientRect();
    const unit = this.svg.viewBox.baseVal.width / box.width;
    const x = (event.clientX - box.left) * unit;
    const y = (event.clientY - box.top) * unit;
    const wanted = this.plot.value(x, y);
    if (wanted === null) return;
    this.show(nearest(this.scale, wanted));
  }

  key(event) {
    if (!this.plot || event.target !== this.area) return;
    const last = this.scale.length - 1;
    const step = event.shiftKey ? 10 : 1;
    const from = this.index ?? -1;
    // Down a list goes on, down an axis goes back.
    const up = this.plot.listed ? -step : step;
    const target = {
      ArrowRight: from + step, ArrowUp: from + up, ArrowLeft: from - step, ArrowDown: from - up, Home: 0, End: last,
    }[event.key];
    if (event.key === "Escape") this.leave();
    if (target === undefined) return;
    event.preventDefault();
    const count = this.scale.length;
    this.show(this.plot.round ? ((target % count) + count) % count : Math.max(0, Math.min(last, target)));
  }

  show(index) {
    this.index = index;
    const { text, marks } = this.plot.at(this.scale[index]);
    this.output.textContent = text;
    this.mark(marks);
  }

  mark(marks) {
    this.layer?.remove();
    this.layer = document.createElementNS(SVG, "svg");
    this.layer.setAttribute("class", "cursor");
    this.layer.setAttribute("aria-hidden", "true");
    this.layer.setAttribute("viewBox", this.svg.getAttribute("viewBox"));
    for (const [tag, values] of marks) {
      const node = document.createElementNS(SVG, tag);
      for (const [name, value] of Object.entries(values)) node.setAttribute(name, value);
      this.layer.append(node);
    }
    this.area.append(this.layer);
  }

  leave() {
    this.layer?.remove();
    this.output.textContent = "";
    this.index = null;
  }
}

function nearest(scale, wanted) {
  let best = 0;
  scale.forEach((value, i) => {
    if (Math.abs(value - wanted) < Math.abs(scale[best] - wanted)) best = i;
  });
  return best;
}

function interpolated(xs, ys, x) {
  if (x <= xs[0]) return ys[0];
  for (let i = 1; i < xs.length; i += 1) {
    if (x <= xs[i]) return ys[i - 1] + ((ys[i] - ys[i - 1]) * (x - xs[i - 1])) / (xs[i] - xs[i - 1] || 1);
  }
  return ys.at(-1);
}

const list = (text) => JSON.parse(text);

function readPlot(svg) {
  if (svg.dataset.valueAtRing !== undefined) return readRose(svg);
  if (svg.dataset.centreX !== undefined) return readPolar(svg);
  return readPanels(svg) ?? readThings(svg);
}

// Polar: angle about the centre, a plain value along the radius.
function readRose(svg) {
  const { unit, where, ...data } = svg.dataset;
  const [cx, cy, radius, ring] = [data.centreX, data.centreY, data.radius, data.valueAtRing].map(Number);
  const cuts = [...svg.querySelectorAll("[data-angle][data-value][data-series]")].map((path) => ({
    label: path.dataset.series, angle: list(path.dataset.angle), value: list(path.dataset.value),
  }));
  return {
    scale: Array.from({ length: 360 }, (_, i) => i),
    round: true,
    value: (x, y) => ((Math.atan2(cy - y, x - cx) * 180) / Math.PI + 360) % 360,
    at: (angle) => {
      const turn = (angle * Math.PI) / 180;
      const spot = (r) => ({ x: cx + r * Math.cos(turn), y: cy - r * Math.sin(turn) });
      const end = spot(radius);
      const marks = [["line", { x1: cx, y1: cy, x2: end.x, y2: end.y }]];
      const words = cuts.map((cut) => {
        const value = interpolated([...cut.angle, 360], [...cut.value, cut.value[0]], angle);
        const { x, y } = spot((radius * value) / ring);
        marks.push(["circle", { cx: x, cy: y, r: 3.4 }]);
        return `${cut.label} ${fixed(value, 2)} ${unit}`;
      });
      return { text: `${where} ${fixed(angle, 0)}° · ${words.join(" · ")}`, marks };
    },
  };
}

// Bars, lines and circles that each carry a sentence: what the pointer is nearest to, or one after another.
function readThings(svg) {
  const things = [...svg.querySelectorAll("g > title")].map((title) => {
    const { x, y, width, height } = title.parentNode.getBBox();
    return { text: title.textContent, x, y, width, height };
  });
  if (!things.length) return null;
  const away = ({ x, y, width, height }, px, py) =>
    Math.hypot(Math.max(x - px, 0, px - x - width), Math.max(y - py, 0, py - y - height));
  return {
    scale: things.map((_, i) => i),
    round: false,
    listed: true,
    value: (px, py) => things.reduce((best, each, i) => (away(each, px, py) < away(things[best], px, py) ? i : best), 0),
    at: (index) => {
      const { text, x, y, width, height } = things[index];
      return { text, marks: [["rect", { x: x - 2, y: y - 2, width: width + 4, height: height + 4, fill: "none" }]] };
    },
  };
}

// Polar: angle about the centre, gain along the radius.
function readPolar(svg) {
  const data = svg.dataset;
  const [cx, cy, radius, range, top] = [data.centreX, data.centreY, data.radius, data.rangeDb, data.topDbi].map(Number);
  const cuts = [...svg.querySelectorAll("[data-angle][data-gain][data-series]")].reverse().map((path) => ({
    label: path.dataset.series, angle: list(path.dataset.angle), gain: list(path.dataset.gain), plane: path.dataset.plane,
  }));
  if (!cuts.length) return null;
  const last = cuts[0].angle.at(-1);
  const scale = Array.from({ length: last >= 359 ? 360 : Math.floor(last) + 1 }, (_, i) => i);
  return {
    scale,
    round: last >= 359,
    value: (x, y) => {
      const angle = (Math.atan2(cy - y, x - cx) * 180) / Math.PI;
      return last < 359 ? Math.max(0, Math.min(180, angle < -90 ? 180 : angle)) : (angle + 360) % 360;
    },
    at: (angle) => {
      const turn = (angle * Math.PI) / 180;
      const end = [cx + radius * Math.cos(turn), cy - radius * Math.sin(turn)];
      const marks = [["line", { x1: cx, y1: cy, x2: end[0], y2: end[1] }]];
      const words = cuts.map((cut) => {
        const gain = interpolated(cut.angle, cut.gain, angle);
        const r = radius * Math.min(1, Math.max(0, 1 + (gain - top) / range));
        marks.push(["circle", { cx: cx + r * Math.cos(turn), cy: cy - r * Math.sin(turn), r: 3.4 }]);
        return `${cut.label}: ${fixed(gain, 2)} dBi`;
      });
      const where = cuts[0].plane === "azimuth" ? `${fixed(angle, 0)}° from the heading, counter-clockwise` : `elevation ${fixed(angle, 0)}°`;
      return { text: `${where} · ${words.join(" · ")}`, marks };
    },
  };
}

// Straight axes: one or more panels, each with its own place on the paper.
function readPanels(svg) {
  const panels = [...svg.querySelectorAll("g[data-x-low]")].map((group) => {
    const data = group.dataset;
    return {
      x: [data.xLow, data.xHigh, data.xStart, data.xEnd].map(Number),
      y: [data.yLow, data.yHigh, data.yStart, data.yEnd].map(Number),
      curves: [...group.querySelectorAll("[data-series][data-value]")].reverse().map(readCurve),
    };
  }).filter((panel) => panel.curves.length);
  if (!panels.length) return null;
  // Bars below a chart: what lies over a running value.
  const bars = [...svg.querySelectorAll("[data-hop]")].map(({ dataset }) => ({ label: dataset.hop, low: +dataset.low, high: +dataset.high }));
  const longest = panels.flatMap((panel) => panel.curves).reduce((a, b) => (reach(b) > reach(a) ? b : a));
  const place = ([low, high, start, end], value) => start + ((Math.min(Math.max(value, low), high) - low) / (high - low)) * (end - start);
  return {
    scale: longest.x,
    round: false,
    value: (x) => {
      const { x: axis } = panels.find((panel) => x <= panel.x[3] + 12) ?? panels.at(-1);
      return axis[0] + ((x - axis[2]) / (axis[3] - axis[2])) * (axis[1] - axis[0]);
    },
    at: (x) => {
      const marks = [];
      const words = [];
      for (const panel of panels) {
        const px = place(panel.x, x);
        marks.push(["line", { x1: px, x2: px, y1: panel.y[2], y2: panel.y[3] }]);
        for (const curve of panel.curves) {
          if (x < curve.x[0] - 1e-9 || x > curve.x.at(-1) + 1e-9) continue;
          const value = interpolated(curve.x, curve.y, x);
          const [low, high] = curve.phase ? [-180, 180] : panel.y;
          marks.push(["circle", { cx: px, cy: place([low, high, panel.y[2], panel.y[3]], value), r: 3.4 }]);
          words.push(`${curve.label} ${fixed(value, curve.phase ? 0 : curve.decimals)}${curve.phase ? "°" : curve.unit}`);
        }
      }
      for (const { label, low, high } of bars) {
        if (x >= low - 0.25 && x <= high + 0.25) words.push(`${label} (${fixed(low, 1)} to ${fixed(high, 1)}°)`);
      }
      return { text: `${longest.where(x)} · ${words.join(" · ")}`, marks };
    },
  };
}

const reach = (curve) => curve.x.at(-1) - curve.x[0];

// What the running values of a curve are, by the name they are drawn in with.
const AXES = {
  frequency: { scale: 1e-6, where: (x) => `${fixed(x, 4)} MHz`, decimals: 2 },
  mhz: { scale: 1, where: (x) => `${fixed(x, 3)} MHz`, decimals: 2 },
  elevation: { scale: 1, where: (x) => `elevation ${fixed(x, 1)}°`, decimals: 2, unit: " dBi" },
  height: { scale: 1, where: (x) => `boom at ${fixed(x, 1)} m`, decimals: 2, unit: " dBi" },
  feet: { scale: 1, where: (x) => `boom at ${fixed(x, 1)} ft`, decimals: 2, unit: " dBi" },
  costHeight: { scale: 1, where: (x) => `boom at ${fixed(x, 1)} m`, decimals: 0 },
  costFeet: { scale: 1, where: (x) => `boom at ${fixed(x, 1)} ft`, decimals: 0 },
  distance: { scale: 1, where: (x) => `${fixed(x, 0)} m out`, decimals: 1, unit: " m" },
  distanceFeet: { scale: 1, where: (x) => `${fixed(x, 0)} ft out`, decimals: 1, unit: " ft" },
  ring: { scale: 1, where: (x) => `headings ${fixed(x, 0)}° apart`, decimals: 2, unit: " dBi" },
  ringRatio: { scale: 1, where: (x) => `headings ${fixed(x, 0)}° apart`, decimals: 1, unit: " dB" },
  ringOhm: { scale: 1, where: (x) => `headings ${fixed(x, 0)}° apart`, decimals: 1, unit: " ohm" },
  turn: { scale: 1, where: (x) => `${fixed(x, 0)}° behind`, decimals: 2, unit: " dBi" },
  heading: { scale: 1, where: (x) => `beam at ${fixed(x, 0)}°`, decimals: 1, unit: " dB" },
  along: { scale: 1, where: (x) => `${fixed(x, 3)} m from the boom`, decimals: 3 },
  x: { scale: 1, where: (x) => `at ${fixed(x, 3)}`, decimals: 3 },
};

function readCurve(node) {
  const { series, value, ...data } = node.dataset;
  const name = Object.keys(AXES).find((axis) => data[axis] !== undefined);
  const { scale, where, decimals, unit = "" } = AXES[name];
  return {
    label: series,
    x: list(data[name]).map((number) => number * scale),
    y: list(value),
    where,
    decimals,
    unit,
    phase: series.endsWith(": phase"),
  };
}
