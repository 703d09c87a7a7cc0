// The lobes as the beam goes up: one frame a height, drawn from the height-angle map's data.
// It never starts by itself; where motion is unwelcome it is stepped by the slider only.

import { save, svgToGif } from "/static/exports.js";

const SVG = "http://www.w3.org/2000/svg";
const WIDTH = 460, HEIGHT = 262, CX = 230, CY = 236, RADIUS = 205, RANGE = 40;
const FRAME = 110;
const fixed = (value, digits) => value.toFixed(digits).replace("-", "−");

function add(parent, tag, values, text) {
  const node = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(values)) node.setAttribute(name, value);
  if (text !== undefined) node.textContent = text;
  parent.append(node);
  return node;
}

export class Film {
  constructor(place, map) {
    this.heights = JSON.parse(map.dataset.heights);
    this.angles = JSON.parse(map.dataset.elevations);
    this.gains = JSON.parse(map.dataset.gains);
    this.top = Number(map.dataset.topDbi);
    this.unit = Number(map.dataset.xUnit) || 1;
    this.slider = place.querySelector("#film-height");
    this.button = place.querySelector("#film-play");
    this.words = place.querySelector("#film-words");
    this.slider.max = this.heights.length - 1;
    this.draw(place.querySelector("#film-stage"));
    this.still = matchMedia("(prefers-reduced-motion: reduce)");
    this.button.hidden = this.still.matches;
    this.still.addEventListener("change", () => {
      this.stop();
      this.button.hidden = this.still.matches;
    });
    this.button.addEventListener("click", () => (this.timer ? this.stop() : this.play()));
    this.slider.addEventListener("input", () => {
      this.stop();
      this.show(+this.slider.value);
    });
    place.querySelector("#film-save").addEventListener("click", (event) => this.leave(event.target));
    place.hidden = false;
    const own = document.querySelector("#height-range");
    this.show(this.nearest(own ? +own.value : this.heights[0]));
  }

  nearest(height) {
    return this.heights.reduce((best, value, i) => (Math.abs(value - height) < Math.abs(this.heights[best] - height) ? i : best), 0);
  }

  draw(stage) {
    stage.replaceChildren();
    const svg = add(stage, "svg", { viewBox: `0 0 ${WIDTH} ${HEIGHT}`, role: "img", "aria-label": "Elevation pattern, the heading to the right" });
    for (const down of [0, 3, 10, 20, 30]) {
      const r = RADIUS * (1 - down / RANGE);
      add(svg, "path", { d: `M${CX - r},${CY}A${r},${r} 0 0 1 ${CX + r},${CY}`, fill: "none", stroke: "var(--grid)", "stroke-width": down ? 0.6 : 1 });
      if (down === 3) continue;
      add(svg, "text", { x: CX - r, y: CY + 14, "font-size": 13, fill: "var(--quiet)", "text-anchor": down ? "middle" : "start" }, down ? `−${down} dB` : `${fixed(this.top, 1)} dBi`);
    }
    for (let angle = 0; angle <= 90; angle += 15) {
      const turn = (angle * Math.PI) / 180;
      add(svg, "line", { x1: CX, y1: CY, x2: CX + RADIUS * Math.cos(turn), y2: CY - RADIUS * Math.sin(turn), stroke: "var(--grid)", "stroke-width": 0.5 });
      add(svg, "text", { x: CX + (RADIUS + 14) * Math.cos(turn), y: CY - (RADIUS + 10) * Math.sin(turn) + 3, "font-size": 13, fill: "var(--quiet)", "text-anchor": "middle" }, `${angle}°`);
    }
    add(svg, "line", { x1: CX - RADIUS, y1: CY, x2: CX + RADIUS, y2: CY, stroke: "var(--ink)", "stroke-width": 1 });
    this.curve = add(svg, "path", { fill: "var(--series-1)", "fill-opacity": 0.18, stroke: "var(--series-1)", "stroke-width": 1.8, "stroke-linejoin": "round" });
    this.dot = add(svg, "circle", { r: 4, fill: "var(--accent)" });
  }

  at(angle, gain) {
    const r = RADIUS * Math.max(0, 1 + (gain - this.top) / RANGE);
    const turn = (angle * Math.PI) / 180;
    return [CX + r * Math.cos(turn), CY - r * Math.sin(turn)];
  }

  show(index) {
    this.index = index;
    const row = this.gains[index];
    const points = this.angles.map((angle, i) => this.at(angle, row[i]).map((v) => v.toFixed(1)).join(","));
    this.curve.setAttribute("d", `M${CX},${CY}L${points.join(" ")}Z`);
    const best = row.reduce((found, value, i) => (value > row[found] ? i : found), 0);
    const [x, y] = this.at(this.angles[best], row[best]);
    this.dot.setAttribute("cx", x);
    this.dot.setAttribute("cy", y);
    const height = this.unit === 1 ? `${fixed(this.heights[index], 1)} m` : `${fixed(this.heights[index] / this.unit, 1)} ft`;
    this.slider.value = index;
    this.slider.setAttribute("aria-valuetext", height);
    this.words.textContent = `Boom at ${height}: strongest ${fixed(row[best], 1)} dBi at ${fixed(this.angles[best], 0)}°`;
  }

  async leave(button) {
    this.stop();
    const at = this.index;
    button.disabled = true;
    const svg = this.curve.ownerSVGElement;
    svg.setAttribute("width", WIDTH);
    svg.setAttribute("height", HEIGHT);
    save(await svgToGif(svg, this.heights.length, (i) => this.show(i)), "lobes-by-height.gif");
    svg.removeAttribute("width");
    svg.removeAttribute("height");
    this.show(at);
    button.disabled = false;
  }

  play() {
    this.button.textContent = "Pause";
    this.button.setAttribute("aria-pressed", "true");
    if (this.index === this.heights.length - 1) this.show(0);
    this.timer = setInterval(() => {
      if (!this.slider.isConnected || this.index >= this.heights.length - 1) this.stop();
      else this.show(this.index + 1);
    }, FRAME);
  }

  stop() {
    clearInterval(this.timer);
    this.timer = null;
    this.button.textContent = "Play";
    this.button.setAttribute("aria-pressed", "false");
  }
}
