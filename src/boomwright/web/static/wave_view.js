// One moving picture: the drawn frame below, the painted field upon it, the marks on top, a probe.

import { colour } from "/static/colours.js";
import { Field } from "/static/field.js";

const SVG = "http://www.w3.org/2000/svg";
const signed = (value, digits) => value.toFixed(digits).replace("-", "−");

export class WaveView {
  constructor(figure) {
    this.figure = figure;
    this.level = figure.dataset.wave === "level";
    this.drawing = figure.querySelector(".drawing");
    this.canvas = figure.querySelector("canvas");
    this.above = figure.querySelector(".above");
    this.probe = figure.querySelector(".probe");
    this.output = figure.querySelector(".reading-line");
    this.seen = true;
    new IntersectionObserver((entries) => {
      this.seen = entries.at(-1).isIntersecting;
      this.paint(this.phase ?? 0);
    }).observe(this.canvas);
    this.probe.addEventListener("pointermove", (event) => this.point(event));
    this.probe.addEventListener("pointerdown", (event) => this.point(event));
    this.probe.addEventListener("keydown", (event) => this.key(event));
  }

  load(svg, grid, shown) {
    this.drawing.innerHTML = svg;
    this.svg = this.drawing.querySelector("svg");
    this.field = new Field(grid);
    const view = this.svg.viewBox.baseVal;
    const [x, y, width, height] = this.svg.dataset.plot.split(" ").map(Number);
    this.plot = { x, y, width, height };
    for (const node of [this.canvas, this.probe]) {
      node.style.left = `${(100 * x) / view.width}%`;
      node.style.top = `${(100 * y) / view.height}%`;
      node.style.width = `${(100 * width) / view.width}%`;
      node.style.height = `${(100 * height) / view.height}%`;
    }
    this.unit = Number(this.svg.dataset.unit);
    this.unitName = this.svg.dataset.unitName;
    const marks = this.svg.querySelector("[data-part='marks']");
    this.overlay = document.createElementNS(SVG, "svg");
    this.overlay.setAttribute("viewBox", this.svg.getAttribute("viewBox"));
    this.overlay.setAttribute("font-family", this.svg.getAttribute("font-family"));
    this.overlay.append(marks);
    this.above.replaceChildren(this.overlay);
    this.hands = [...this.svg.querySelectorAll("[data-hand]")];
    this.canvas.width = this.field.width;
    this.canvas.height = this.field.height;
    this.context = this.canvas.getContext("2d");
    this.image = this.context.createImageData(this.field.width, this.field.height);
    this.pixels = new Uint32Array(this.image.data.buffer);
    this.colours();
    this.sum(shown);
    if (this.place) this.read();
  }

  colours() {
    const packed = ([r, g, b]) => r | (g << 8) | (b << 16);
    this.plus = packed(colour("series-1"));
    this.minus = packed(colour("accent"));
  }

  sum(shown) {
    if (!this.field) return;
    this.field.sum(shown);
    this.overlay.querySelectorAll("[data-share]").forEach((mark) => {
      mark.setAttribute("opacity", shown(Number(mark.dataset.share)) ? "1" : "0.3");
    });
    this.hands.forEach((hand) => hand.setAttribute("opacity", shown(Number(hand.dataset.hand)) ? "1" : "0.3"));
    if (this.place) this.read();
  }

  paint(phase) {
    this.phase = phase;
    if (!this.field || !this.seen) return;
    this.field.paint(this.pixels, phase, this.plus, this.minus);
    this.context.putImageData(this.image, 0, 0);
    const turn = (-phase * 180) / Math.PI;
    for (const hand of this.hands) {
      hand.setAttribute("transform", `rotate(${turn.toFixed(2)} ${hand.dataset.x} ${hand.dataset.y})`);
    }
  }

  point(event) {
    if (!this.field) return;
    const box = this.probe.getBoundingClientRect();
    const { u0, u1, v0, v1 } = this.field;
    this.place = [
      u0 + ((event.clientX - box.left) / box.width) * (u1 - u0),
      v1 - ((event.clientY - box.top) / box.height) * (v1 - v0),
    ];
    this.read();
  }

  key(event) {
    const move = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[event.key];
    if (!move || !this.field) return;
    event.preventDefault();
    const { u0, u1, v0, v1, nu, nv } = this.field;
    this.place ??= [(u0 + u1) / 2, (v0 + v1) / 2];
    const far = event.shiftKey ? 5 : 1;
    this.place = [
      Math.min(Math.max(this.place[0] + (far * move[0] * (u1 - u0)) / (nu - 1), u0), u1),
      Math.min(Math.max(this.place[1] + (far * move[1] * (v1 - v0)) / (nv - 1), v0), v1),
    ];
    this.read();
  }

  read() {
    const [u, v] = this.place;
    const { strength, phase } = this.field.at(u, v);
    const along = `${signed(u / this.unit, 1)} ${this.unitName} along the heading`;
    const up = this.level ? `${signed(v / this.unit, 1)} ${this.unitName} to the left` : `${signed(v / this.unit, 1)} ${this.unitName} up`;
    this.output.textContent = `${along}, ${up}: ${strength.toPrecision(3)} V/m peak, phase ${signed(phase, 0)}° against the feed current`;
    const { x, y, width, height } = this.plot;
    const { u0, u1, v0, v1 } = this.field;
    if (!this.cross) {
      this.cross = document.createElementNS(SVG, "circle");
      this.cross.setAttribute("r", "5");
      this.cross.setAttribute("class", "cross");
    }
    this.cross.setAttribute("cx", x + ((u - u0) / (u1 - u0)) * width);
    this.cross.setAttribute("cy", y + height - ((v - v0) / (v1 - v0)) * height);
    if (this.cross.parentNode !== this.overlay) this.overlay.append(this.cross);
  }
}
