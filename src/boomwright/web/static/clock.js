// The time of the moving pictures: a phase that runs, slows, stops and is stepped by hand.

import { write } from "/static/writing.js";

const STEP = Math.PI / 12;
const SLOWEST = 20; // seconds a period
const FASTEST = 0.5;

export class Clock {
  constructor(onTick) {
    this.onTick = onTick;
    this.phase = 0;
    this.drawn = [];
    const node = (id) => document.getElementById(id);
    [this.button, this.when, this.pace] = [node("run"), node("when"), node("pace")];
    this.button.addEventListener("click", () => this.run(!this.running));
    node("step-on").addEventListener("click", () => this.step(1));
    node("step-back").addEventListener("click", () => this.step(-1));
    this.pace.addEventListener("input", () => this.setPace());
    this.setPace();
    // Who asked for less motion starts with a still picture and steps it by hand.
    this.run(!matchMedia("(prefers-reduced-motion: reduce)").matches);
  }

  setPace() {
    this.period = SLOWEST * (FASTEST / SLOWEST) ** (this.pace.valueAsNumber / 100);
    this.pace.setAttribute("aria-valuetext", `one period in ${this.period.toFixed(1)} s`);
  }

  run(yes) {
    this.running = yes;
    this.button.textContent = yes ? "Stop" : "Run";
    this.button.setAttribute("aria-pressed", String(yes));
    if (yes) {
      this.last = null;
      requestAnimationFrame((now) => this.frame(now));
    }
  }

  step(direction) {
    this.run(false);
    this.set(Math.round(this.phase / STEP + direction) * STEP);
  }

  set(phase) {
    this.phase = ((phase % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
    this.onTick(this.phase);
    if (!this.running) this.say();
  }

  frame(now) {
    if (!this.running) return;
    const passed = this.last === null ? 0 : Math.min(now - this.last, 250);
    this.last = now;
    // Read by the benchmark: the moments of the last frames.
    this.drawn.push(now);
    if (this.drawn.length > 600) this.drawn.shift();
    this.set(this.phase + (2 * Math.PI * passed) / 1000 / this.period);
    if (now - (this.said ?? 0) > 200) {
      this.said = now;
      this.say();
    }
    requestAnimationFrame((next) => this.frame(next));
  }

  say() {
    const degrees = Math.round((this.phase * 180) / Math.PI) % 360;
    const text = `${degrees}° of the period`;
    write(this.when, text);
  }
}
