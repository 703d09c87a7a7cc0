// The pattern in space: a surface whose distance from the middle is the gain, turned by hand.

import { colour, mixed, rgb } from "/static/colours.js";

const RANGE = 30; // dB from the surface's largest radius to its middle
const LOOKS = { corner: [-125, 28], above: [-90, 89], side: [-90, 0], front: [180, 0] };
const STEP = 6;
const signed = (value, digits) => value.toFixed(digits).replace("-", "−");

export class SolidView {
  constructor(figure) {
    this.area = figure.querySelector(".solid");
    this.canvas = figure.querySelector("canvas");
    this.labels = figure.querySelector(".labels");
    this.scale = figure.querySelector("#gain-scale");
    this.words = figure.querySelector("#solid-words");
    [this.turn, this.tilt] = LOOKS.corner;
    this.zoom = 1;
    this.area.addEventListener("keydown", (event) => this.key(event));
    this.area.addEventListener("pointerdown", (event) => this.hold(event));
    this.area.addEventListener("wheel", (event) => {
      if (!event.ctrlKey && document.activeElement !== this.area) return;
      event.preventDefault();
      this.resize(event.deltaY < 0 ? 1.1 : 1 / 1.1);
    }, { passive: false });
    figure.querySelectorAll("[data-look]").forEach((button) =>
      button.addEventListener("click", () => {
        [this.turn, this.tilt] = LOOKS[button.dataset.look];
        this.paint();
      }),
    );
    new ResizeObserver(() => this.paint()).observe(this.area);
  }

  load(solid) {
    this.solid = solid;
    this.top = Math.max(...solid.gain_dbi.flat());
    const radius = (gain) => Math.max(0, 1 + (gain - this.top) / RANGE);
    this.points = solid.gain_dbi.map((row, e) => {
      const up = (solid.elevation_deg[e] * Math.PI) / 180;
      return row.map((gain, a) => {
        const round = (solid.azimuth_deg[a] * Math.PI) / 180;
        const r = radius(gain);
        return [r * Math.cos(up) * Math.cos(round), r * Math.cos(up) * Math.sin(round), r * Math.sin(up), r];
      });
    });
    this.fillScale();
    this.paint();
  }

  // Colours of a relative gain, deepest at the maximum.
  shade(share) {
    return mixed(mixed(this.paper, this.cool, 0.35 + 0.65 * share), this.warm, Math.max(0, share - 0.8) * 5 * 0.85);
  }

  fillScale() {
    [this.paper, this.cool, this.warm, this.ink, this.grid] = ["paper", "series-1", "accent", "ink", "grid"].map(colour);
    const rows = [0, -3, -10, -20, -30].map((below) => {
      const row = document.createElement("li");
      const swatch = document.createElement("span");
      swatch.className = "swatch";
      swatch.style.background = rgb(this.shade(1 + below / RANGE));
      row.append(swatch, `${signed(this.top + below, 1)} dBi`, below ? ` (${signed(below, 0)} dB)` : " (maximum)");
      return row;
    });
    this.scale.replaceChildren(...rows);
  }

  key(event) {
    const moves = { ArrowLeft: [-STEP, 0], ArrowRight: [STEP, 0], ArrowUp: [0, STEP], ArrowDown: [0, -STEP] };
    const move = moves[event.key];
    if (move) this.turnBy(...move);
    else if (event.key === "+" || event.key === "=") this.resize(1.1);
    else if (event.key === "-") this.resize(1 / 1.1);
    else if (event.key === "Home") {
      [this.turn, this.tilt, this.zoom] = [...LOOKS.corner, 1];
      this.paint();
    } else return;
    event.preventDefault();
    this.say();
  }

  turnBy(round, up) {
    this.turn = (this.turn + round + 540) % 360 - 180;
    this.tilt = Math.min(Math.max(this.tilt + up, -90), 90);
    this.paint();
  }

  resize(factor) {
    this.zoom = Math.min(Math.max(this.zoom * factor, 0.5), 4);
    this.paint();
  }

  say() {
    const ahead = ((this.turn + 360) % 360).toFixed(0);
    this.words.textContent = `Seen from ${ahead}° round the heading, ${signed(this.tilt, 0)}° up.`;
  }

  hold(event) {
    if (event.button !== 0) return;
    event.preventDefault();
    this.area.focus({ preventScroll: true });
    let [x, y] = [event.clientX, event.clientY];
    const id = event.pointerId;
    const move = (e) => {
      if (e.pointerId !== id) return;
      this.turnBy((x - e.clientX) * 0.5, (e.clientY - y) * 0.5);
      [x, y] = [e.clientX, e.clientY];
    };
    const end = () => {
      removeEventListener("pointermove", move);
      removeEventListener("pointerup", end);
      removeEventListener("pointercancel", end);
      this.say();
    };
    addEventListener("pointermove", move);
    addEventListener("pointerup", end);
    addEventListener("pointercancel", end);
  }

  // To the right, up, and towards the eye, for an eye that stands at turn and tilt.
  camera() {
    const [a, b] = [(this.turn * Math.PI) / 180, (this.tilt * Math.PI) / 180];
    const [ca, sa, cb, sb] = [Math.cos(a), Math.sin(a), Math.cos(b), Math.sin(b)];
    return ([x, y, z]) => [-x * sa + y * ca, -x * ca * sb - y * sa * sb + z * cb, x * ca * cb + y * sa * cb + z * sb];
  }

  faces() {
    const eye = this.camera();
    const seen = this.points.map((row) => row.map((point) => [...eye(point), point[3]]));
    const light = eye([-0.5, 0.35, 0.8]);
    const faces = [];
    for (let e = 0; e < seen.length - 1; e += 1) {
      for (let a = 0; a < seen[e].length - 1; a += 1) {
        const corners = [seen[e][a], seen[e][a + 1], seen[e + 1][a + 1], seen[e + 1][a]];
        const share = (corners[0][3] + corners[1][3] + corners[2][3] + corners[3][3]) / 4;
        if (share < 0.01) continue;
        const depth = corners[0][2] + corners[1][2] + corners[2][2] + corners[3][2];
        faces.push({ corners, share, depth, light: lit(corners, light) });
      }
    }
    return faces.sort((one, two) => one.depth - two.depth);
  }

  paint() {
    if (!this.solid) return;
    const box = this.area.getBoundingClientRect();
    const fine = Math.min(devicePixelRatio || 1, 2);
    const [width, height] = [Math.round(box.width * fine), Math.round(box.height * fine)];
    if (!width || !height) return;
    if (this.canvas.width !== width) this.canvas.width = width;
    if (this.canvas.height !== height) this.canvas.height = height;
    const context = this.canvas.getContext("2d");
    context.clearRect(0, 0, width, height);
    this.draw(context, width, height);
    this.placeLabels(box);
  }

  draw(context, width, height) {
    const size = 0.44 * Math.min(width, height) * this.zoom;
    const low = this.solid.elevation_deg[0] >= 0 ? 0.68 : 0.5;
    this.centre = { x: width / 2, y: height * (this.tilt > 60 ? 0.5 : low), size, width };
    const at = ([x, y]) => [this.centre.x + x * size, this.centre.y - y * size];
    for (const stroke of this.strokes(false)) line(context, stroke, at, width);
    for (const { corners, share, light } of this.faces()) {
      context.beginPath();
      corners.forEach((corner, i) => context[i ? "lineTo" : "moveTo"](...at(corner)));
      context.closePath();
      const tone = mixed(this.shade(share), light > 0 ? this.paper : this.ink, Math.abs(light) * 0.28);
      context.fillStyle = context.strokeStyle = rgb(tone);
      context.globalAlpha = 0.86;
      context.fill();
      context.globalAlpha = 0.5;
      context.lineWidth = 0.6;
      context.stroke();
    }
    context.globalAlpha = 1;
    for (const stroke of this.strokes(true)) line(context, stroke, at, width);
  }

  // Horizon ring and axes below, the beam itself on top.
  strokes(over) {
    const eye = this.camera();
    const made = [];
    if (!over) {
      for (const radius of [1 - 20 / RANGE, 1 - 10 / RANGE, 1]) {
        made.push({ points: Array.from({ length: 73 }, (_, i) => eye([radius * Math.cos((i * Math.PI) / 36), radius * Math.sin((i * Math.PI) / 36), 0])), tone: this.grid, wide: 1 });
      }
      made.push({ points: [eye([0, 0, 0]), eye([1.14, 0, 0])], tone: this.warm, wide: 1.6 });
      return made;
    }
    const { elements, wavelength } = this.solid;
    const middle = (Math.min(...elements.map((e) => e[0])) + Math.max(...elements.map((e) => e[0]))) / 2;
    const scale = 0.55 / wavelength;
    const spot = (along, across) => eye([(along - middle) * scale, across * scale, 0]);
    const places = elements.map((e) => e[0]);
    made.push({ points: [spot(Math.min(...places), 0), spot(Math.max(...places), 0)], tone: this.ink, wide: 1.4 });
    for (const [place, half, role] of elements) {
      made.push({ points: [spot(place, -half), spot(place, half)], tone: role === "driven" ? this.warm : this.ink, wide: 2 });
    }
    return made;
  }

  placeLabels(box) {
    const eye = this.camera();
    const fine = this.canvas.width / box.width;
    const spots = [["heading", [1.22, 0, 0]], ["left", [0, 1.12, 0]], ["up", [0, 0, 1.12]]];
    while (this.labels.childElementCount < spots.length) this.labels.append(document.createElement("span"));
    spots.forEach(([word, point], i) => {
      const [x, y] = eye(point);
      const node = this.labels.children[i];
      node.textContent = word;
      node.style.left = `${(this.centre.x + x * this.centre.size) / fine}px`;
      node.style.top = `${(this.centre.y - y * this.centre.size) / fine}px`;
    });
  }
}

function lit(corners, light) {
  const [p, q, r] = [corners[0], corners[2], corners[3]];
  const a = [q[0] - p[0], q[1] - p[1], q[2] - p[2]];
  const b = [r[0] - corners[1][0], r[1] - corners[1][1], r[2] - corners[1][2]];
  const n = [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
  const size = Math.hypot(...n) || 1;
  return (n[0] * light[0] + n[1] * light[1] + n[2] * light[2]) / size;
}

function line(context, { points, tone, wide }, at, width) {
  context.beginPath();
  points.forEach((point, i) => context[i ? "lineTo" : "moveTo"](...at(point)));
  context.strokeStyle = rgb(tone);
  context.lineWidth = (wide * Math.max(width, 400)) / 600;
  context.stroke();
}
