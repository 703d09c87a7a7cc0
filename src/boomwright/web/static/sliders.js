// Frequency and height: pulled or typed.

import { newGesture } from "/static/link.js";
import { put, set } from "/static/writing.js";

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
    set(this.range, "aria-valuetext", slider.text);
    if (this.gesture) return;
    put(this.range, "min", slider.low);
    put(this.range, "max", slider.high);
    put(this.range, "step", slider.step);
    put(this.range, "value", slider.value);
  }
}
