// The plan view under the hand: each element has a handle on the boom and one at its tip, each point
// of a frame has one of its own.
// The handles lie in their own layer, so that a repaint of the drawing never takes the focus.

import { newGesture } from "/static/link.js";
import { lengthText, snapped, STEPS } from "/static/lengths.js";
import { set, write } from "/static/writing.js";

const KEY_RUN = 900; // keys closer together than this are one step of undo [ms]

export class Handles {
  constructor({ drawing, layer, beam, send }) {
    this.drawing = drawing;
    this.layer = layer;
    this.beam = beam;
    this.send = send;
    this.system = "metric";
    this.elements = [];
    this.held = null;
    this.kept = null;
    drawing.addEventListener("pointerdown", (event) => this.grab(event));
    new ResizeObserver(() => this.place()).observe(drawing);
    this.read();
  }

  // Take over a newly drawn plan view; while something is held the drawing stays put.
  paint(svg, elements, system) {
    this.system = system;
    if (this.held) {
      this.kept = [svg, elements, system];
      return;
    }
    this.elements = elements;
    this.drawing.innerHTML = svg;
    this.read();
  }

  read() {
    this.svg = this.drawing.querySelector("svg");
    if (!this.svg) return;
    const box = this.svg.viewBox.baseVal;
    const data = this.svg.dataset;
    this.frame = { width: box.width, height: box.height, scale: +data.scale, x: +data.originX, y: +data.originY };
    const groups = [...this.svg.querySelectorAll("g[data-element]")];
    this.groups = groups;
    this.values = groups.map((group) => ({
      label: group.dataset.label,
      position: +group.dataset.place,
      length: 2 * +group.dataset.halfLength,
      tip: group.dataset.tip?.split(" ").map(Number),
    }));
    this.corners = [];
    for (const { dataset } of this.svg.querySelectorAll("circle[data-corner]")) {
      this.corners[+dataset.corner] = { label: dataset.point, x: +dataset.x, y: +dataset.y };
    }
    if (this.layer.childElementCount !== 2 * groups.length + this.corners.length) this.build();
    this.place();
  }

  build() {
    this.layer.replaceChildren();
    this.nodes = this.values.map((_, index) => ({
      boom: this.makeHandle(index, "boom"),
      tip: this.makeHandle(index, "tip"),
    }));
    this.cornerNodes = this.corners.map((_, index) => this.makeHandle(index, "corner"));
  }

  makeHandle(index, part) {
    const node = document.createElement("div");
    node.className = "handle";
    node.tabIndex = 0;
    node.dataset.part = part;
    node.dataset[part === "corner" ? "corner" : "element"] = index;
    node.setAttribute("role", "slider");
    node.setAttribute("aria-orientation", part === "tip" ? "vertical" : "horizontal");
    node.setAttribute("aria-valuemin", part === "tip" ? "0" : "-100");
    node.setAttribute("aria-valuemax", "100");
    const tag = document.createElement("span");
    tag.className = "tag";
    tag.setAttribute("aria-hidden", "true");
    node.append(tag);
    node.addEventListener("pointerdown", (event) => this.hold(event, index, part));
    node.addEventListener("keydown", (event) => this.key(event, index, part));
    this.layer.append(node);
    return node;
  }

  place(only = null) {
    if (!this.svg || !this.nodes) return;
    const { width, height, scale, x, y } = this.frame;
    this.placeCorners();
    this.values.forEach((value, index) => {
      if (only !== null && only !== index) return;
      const left = `${((x + scale * value.position) / width) * 100}%`;
      const { boom, tip } = this.nodes[index];
      boom.style.left = left;
      boom.style.top = `${(y / height) * 100}%`;
      const grown = (value.length - 2 * +this.groups[index].dataset.halfLength) / 2;
      const [tipX, tipY] = value.tip
        ? [value.tip[0] + grown * value.tip[2], value.tip[1] + grown * value.tip[3]]
        : [value.position, value.length / 2];
      tip.style.left = `${((x + scale * tipX) / width) * 100}%`;
      tip.style.top = `${((y - scale * tipY) / height) * 100}%`;
      const far = x + scale * value.position > width * 0.6;
      for (const node of [boom, tip]) node.classList.toggle("left", far);
      this.say(boom, `${value.label}, place along the boom`, value.position);
      this.say(tip, `${value.label}, length from tip to tip`, value.length);
    });
  }

  placeCorners() {
    const { width, height, scale, x, y } = this.frame;
    this.corners.forEach((corner, index) => {
      const node = this.cornerNodes[index];
      node.style.left = `${((x + scale * corner.x) / width) * 100}%`;
      node.style.top = `${((y - scale * corner.y) / height) * 100}%`;
      node.classList.toggle("left", x + scale * corner.x > width * 0.6);
      this.say(node, `${corner.label}, place along the boom`, corner.x);
      const text = `${lengthText(corner.x, this.system)} along, ${lengthText(corner.y, this.system)} across`;
      node.setAttribute("aria-valuetext", text);
      node.firstChild.textContent = text;
    });
  }

  say(node, label, metres) {
    const text = lengthText(metres, this.system);
    set(node, "aria-label", label);
    set(node, "aria-valuenow", metres.toFixed(4));
    set(node, "aria-valuetext", text);
    write(node.firstChild, text);
  }

  // A press on the drawing itself: near a tip it is the tip, else the whole element.
  grab(event) {
    const point = event.target.closest("circle[data-corner]");
    if (point && event.button === 0) {
      this.hold(event, +point.dataset.corner, "corner");
      return;
    }
    const group = event.target.closest("g[data-element]");
    if (!group || event.button !== 0) return;
    const index = +group.dataset.element;
    this.measure();
    const across = Math.abs(this.point(event).y);
    const half = this.values[index].length / 2;
    this.hold(event, index, half - across < Math.min(0.12 * half, 0.6) ? "tip" : "boom");
  }

  // Asked for while held, the drawing's place would have the page laid out once more a move.
  measure() {
    this.box = this.svg.getBoundingClientRect();
  }

  point(event) {
    const { box } = this;
    const { width, scale, x, y } = this.frame;
    const unit = width / box.width;
    return { x: ((event.clientX - box.left) * unit - x) / scale, y: (y - (event.clientY - box.top) * unit) / scale };
  }

  hold(event, index, part) {
    if (event.button !== 0 || this.held) return;
    event.preventDefault();
    const node = part === "corner" ? this.cornerNodes[index] : this.nodes[index][part];
    this.measure();
    const start = this.point(event);
    const value = part === "corner" ? { ...this.corners[index] } : { ...this.values[index] };
    const side = start.y < 0 ? -1 : 1;
    this.held = { index, part, gesture: newGesture(), start, value, side, moved: false };
    node.classList.add("held");
    // Whose moves they are is settled: the page need not be laid out to find what lies below.
    node.setPointerCapture(event.pointerId);
    node.focus({ preventScroll: true });
    // Moves as they come are asked for at once; the drawing follows with the next frame.
    const ask = (e) => this.drag(e);
    const move = (e) => {
      this.drag(e);
      if (part === "corner") this.placeCorners();
      else this.follow(index);
    };
    const measure = () => this.measure();
    const end = () => {
      removeEventListener("scroll", measure, true);
      removeEventListener("pointerrawupdate", ask);
      removeEventListener("pointermove", move);
      removeEventListener("pointerup", end);
      removeEventListener("pointercancel", end);
      node.classList.remove("held");
      this.release();
    };
    addEventListener("scroll", measure, true);
    addEventListener("pointerrawupdate", ask);
    addEventListener("pointermove", move);
    addEventListener("pointerup", end);
    addEventListener("pointercancel", end);
  }

  drag(event) {
    const { index, part, start, value, side } = this.held;
    const at = this.point(event);
    const steps = STEPS[this.system];
    const step = event.shiftKey ? steps.fine : steps.step;
    if (part === "corner") {
      const across = value.y ? Math.max(snapped(value.y + side * (at.y - start.y), step), step) : 0;
      this.askCorner(index, snapped(value.x + at.x - start.x, step), across, this.held.gesture, event.timeStamp);
      return;
    }
    const grown = value.tip
      ? value.tip[2] * (at.x - start.x) + value.tip[3] * side * (at.y - start.y)
      : side * (at.y - start.y);
    const wanted = part === "boom"
      ? value.position + at.x - start.x
      : Math.max(value.length + 2 * grown, steps.coarse);
    this.ask(index, part, snapped(wanted, step), this.held.gesture, event.timeStamp);
  }

  // Take a value, and ask for what follows from it.
  ask(index, part, metres, gesture, at) {
    const value = this.values[index];
    const name = part === "boom" ? "position" : "length";
    if (value[name] === metres) return;
    value[name] = metres;
    const edit = part === "boom"
      ? { kind: "move", beam: this.beam, element: index, position: metres }
      : { kind: "lengthen", beam: this.beam, element: index, length: metres };
    this.send(edit, { gesture, key: `${part}${index}`, at });
  }

  askCorner(index, x, y, gesture, at) {
    const corner = this.corners[index];
    if (corner.x === x && corner.y === y) return;
    Object.assign(corner, { x, y });
    this.send({ kind: "corner", beam: this.beam, point: index, x, y }, { gesture, key: `corner${index}`, at });
  }

  // Show an element where its value says, without waiting for the answer.
  follow(index) {
    this.shift(index);
    this.place(index);
  }

  shift(index) {
    const { scale, y } = this.frame;
    const group = this.groups[index];
    const drawn = { position: +group.dataset.place, length: 2 * +group.dataset.halfLength };
    const { position, length } = this.values[index];
    const along = scale * (position - drawn.position);
    const stretch = this.values[index].tip ? 1 : length / drawn.length;
    group.setAttribute("transform", `translate(${along} ${y * (1 - stretch)}) scale(1 ${stretch})`);
  }

  release() {
    this.held = null;
    const kept = this.kept;
    this.kept = null;
    if (kept) this.paint(...kept);
  }

  key(event, index, part) {
    const steps = STEPS[this.system];
    const directions = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1, PageDown: -1, PageUp: 1 };
    const direction = directions[event.key];
    if (!direction || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    const step = event.key.startsWith("Page") ? steps.coarse : event.shiftKey ? steps.fine : steps.step;
    if (part === "corner") {
      this.keyCorner(event, index, direction * step);
      return;
    }
    const value = this.values[index];
    const now = part === "boom" ? value.position : value.length;
    const run = `${part}${index}`;
    if (this.run !== run || event.timeStamp - this.lastKey > KEY_RUN) this.runGesture = newGesture();
    this.run = run;
    this.lastKey = event.timeStamp;
    const wanted = part === "tip" ? Math.max(now + direction * step, steps.coarse) : now + direction * step;
    this.ask(index, part, snapped(wanted, steps.fine), this.runGesture, event.timeStamp);
    this.follow(index);
  }

  // Arrows to the sides move a point along the boom, up and down across it.
  keyCorner(event, index, by) {
    const { fine } = STEPS[this.system];
    const { x, y } = this.corners[index];
    const sideways = event.key === "ArrowLeft" || event.key === "ArrowRight";
    const run = `corner${index}`;
    if (this.run !== run || event.timeStamp - this.lastKey > KEY_RUN) this.runGesture = newGesture();
    this.run = run;
    this.lastKey = event.timeStamp;
    const across = y && !sideways ? Math.max(snapped(y + by, fine), fine) : y;
    this.askCorner(index, sideways ? snapped(x + by, fine) : x, across, this.runGesture, event.timeStamp);
    this.placeCorners();
  }

  // The plan refused: go back to what is drawn.
  settle() {
    if (this.held) return;
    this.read();
    this.groups.forEach((group) => group.removeAttribute("transform"));
  }
}
