// A map of the coasts to point at a place, by pointer or by keys.

import { Zoom } from "/static/zoom.js";

const SVG = "http://www.w3.org/2000/svg";

export class PlaceMap {
  constructor(box, take) {
    this.svg = box.querySelector("svg");
    this.says = box.querySelector("[data-map-says]");
    this.take = take;
    this.degree = +this.svg.dataset.degree;
    this.top = +this.svg.dataset.top;
    this.at = { latitude: 50, longitude: 10 };
    this.cross = document.createElementNS(SVG, "path");
    this.cross.setAttribute("class", "cross");
    this.svg.append(this.cross);
    this.zoom = new Zoom(box.querySelector(".drawing"), { keys: false });
    const area = box.querySelector(".drawing");
    area.addEventListener("click", (event) => this.click(event));
    area.addEventListener("keydown", (event) => this.key(event));
    this.zoom.onChange = () => this.draw();
    this.draw();
  }

  click(event) {
    if (this.zoom.moved) return;
    const { x, y } = this.zoom.at(event);
    this.put(90 - (y - this.top) / this.degree, x / this.degree - 180);
    this.choose();
  }

  key(event) {
    const step = (event.shiftKey ? 5 : 1) * Math.max(this.zoom.share, 0.1);
    const [up, right] = { ArrowUp: [step, 0], ArrowDown: [-step, 0], ArrowRight: [0, step], ArrowLeft: [0, -step] }[event.key] ?? [];
    if (up !== undefined) this.put(this.at.latitude + up, this.at.longitude + right);
    else if (event.key === "Enter") this.choose();
    else if (event.key === "+" || event.key === "=") this.zoom.by(0.5, this.paper());
    else if (event.key === "-") this.zoom.by(2, this.paper());
    else return;
    event.preventDefault();
  }

  put(latitude, longitude) {
    this.at = { latitude: Math.max(-85, Math.min(85, latitude)), longitude: ((longitude + 540) % 360) - 180 };
    this.draw();
    this.says.textContent = this.words();
  }

  words() {
    const { latitude, longitude } = this.at;
    return `${Math.abs(latitude).toFixed(2)} ${latitude < 0 ? "S" : "N"}, ${Math.abs(longitude).toFixed(2)} ${longitude < 0 ? "W" : "E"}`;
  }

  paper() {
    return { x: (this.at.longitude + 180) * this.degree, y: this.top + (90 - this.at.latitude) * this.degree };
  }

  draw() {
    const { x, y } = this.paper();
    const arm = 9 * this.zoom.share;
    this.cross.setAttribute("d", `M${x - arm} ${y}H${x + arm}M${x} ${y - arm}V${y + arm}`);
    this.cross.setAttribute("stroke-width", 2 * this.zoom.share);
  }

  choose() {
    this.take(this.words());
    this.says.textContent = `Taken: ${this.words()}`;
  }
}
