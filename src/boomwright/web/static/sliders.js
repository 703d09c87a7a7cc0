// Frequency and height: pulled or typed.

import { newGesture } from "/static/link.js";

export class Slider {
  constructor(name, { fields, edit, send }) {
    this.name = name;
    this.fields = fields;
    this.range = document.getElementById(`${name}-range`);
    this.gesture = 0;
    this.range.addEventListener("input", (event) => {
      this.gesture ||= newGesture();
      send(edit(this.range.valueAsNumber), { gesture: this.gesture, key: name, at: event.timeStamp });
    });
    this.range.addEventListener("change", () => {
      this.gesture = 0;
    });
  }

  paint(slider) {
    this.fields.show(this.name, slider.text);
    this.range.setAttribute("aria-valuetext", slider.text);
    if (this.gesture) return;
    this.range.min = slider.low;
    this.range.max = slider.high;
    this.range.step = slider.step;
    this.range.value = slider.value;
  }
}
