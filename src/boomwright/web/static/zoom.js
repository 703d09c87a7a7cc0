// A drawing made larger and moved about: keys + and −, wheel with Ctrl, two fingers, drag when enlarged.

const MOST = 16;

export class Zoom {
  constructor(area, { keys = true } = {}) {
    this.area = area;
    this.onChange = () => {};
    this.share = 1;
    this.moved = false;
    this.fingers = new Map();
    area.addEventListener("wheel", (event) => {
      if (!event.ctrlKey && !event.metaKey) return;
      event.preventDefault();
      this.by(event.deltaY > 0 ? 1.25 : 0.8, this.at(event));
    }, { passive: false });
    area.addEventListener("pointerdown", (event) => this.down(event));
    area.addEventListener("pointermove", (event) => this.move(event));
    for (const end of ["pointerup", "pointercancel", "pointerleave"]) area.addEventListener(end, (event) => this.fingers.delete(event.pointerId));
    if (keys) area.addEventListener("keydown", (event) => this.key(event));
  }

  get svg() {
    return this.area.querySelector("svg");
  }

  // The whole drawing, as it was when first seen.
  whole() {
    const { svg } = this;
    if (!svg.dataset.whole) svg.dataset.whole = svg.getAttribute("viewBox");
    return svg.dataset.whole.split(" ").map(Number);
  }

  view() {
    this.whole();
    return this.svg.getAttribute("viewBox").split(" ").map(Number);
  }

  at({ clientX, clientY }) {
    const box = this.svg.getBoundingClientRect();
    const [x, y, wide, high] = this.view();
    return { x: x + ((clientX - box.left) * wide) / box.width, y: y + ((clientY - box.top) * high) / box.height };
  }

  // Enlarges about a point of the drawing; a factor below one comes nearer.
  by(factor, about) {
    const [left, top, wide, high] = this.whole();
    const [x, y] = this.view();
    const share = Math.min(1, Math.max(1 / MOST, this.share * factor));
    const turn = share / this.share;
    this.share = share;
    const point = about ?? { x: x + (wide * share) / turn / 2, y: y + (high * share) / turn / 2 };
    this.put(point.x - (point.x - x) * turn, point.y - (point.y - y) * turn, [left, top, wide, high]);
  }

  put(x, y, [left, top, wide, high]) {
    const w = wide * this.share;
    const h = high * this.share;
    const at = [Math.min(Math.max(x, left), left + wide - w), Math.min(Math.max(y, top), top + high - h)];
    this.svg.setAttribute("viewBox", [...at, w, h].map((each) => +each.toFixed(3)).join(" "));
    this.area.toggleAttribute("data-enlarged", this.share < 1);
    this.onChange();
  }

  back() {
    this.share = 1;
    const whole = this.whole();
    this.put(whole[0], whole[1], whole);
  }

  down(event) {
    this.moved = false;
    this.fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
  }

  move(event) {
    const last = this.fingers.get(event.pointerId);
    if (!last || !this.svg) return;
    if (this.fingers.size === 2) {
      const [other] = [...this.fingers].filter(([id]) => id !== event.pointerId).map(([, place]) => place);
      const before = Math.hypot(last.x - other.x, last.y - other.y);
      const now = Math.hypot(event.clientX - other.x, event.clientY - other.y);
      if (before > 0 && now > 0) this.by(before / now, this.at({ clientX: other.x, clientY: other.y }));
      this.moved = true;
    } else if (this.share < 1) {
      const [x, y, wide] = this.view();
      const unit = wide / this.svg.getBoundingClientRect().width;
      if (Math.hypot(event.clientX - last.x, event.clientY - last.y) > 2) this.moved = true;
      this.put(x - (event.clientX - last.x) * unit, y - (event.clientY - last.y) * unit, this.whole());
    }
    this.fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
  }

  key(event) {
    if (event.ctrlKey || event.metaKey || event.altKey || !this.svg) return;
    if (event.key === "+" || event.key === "=") this.by(0.7);
    else if (event.key === "-") this.by(1 / 0.7);
    else if (event.key === "0") this.back();
    else return;
    event.preventDefault();
  }
}
