// What a sheet computes while its reader waits: said after a moment, by a clock, with what it took before.

const SOON = 1200; // [ms]
const LONG = 10; // after so many seconds a reader who does not see it is told too
const node = (id) => document.getElementById(id);

export class Busy {
  constructor(bench) {
    this.bench = bench;
    this.key = `boomwright-took-${bench.dataset.slug}`;
    this.start();
  }

  // The plan or what is looked at has changed.
  start() {
    this.begun = performance.now();
    if (!this.clock) this.clock = setInterval(() => this.tick(), 500);
  }

  tick() {
    const gone = performance.now() - this.begun;
    if (gone < SOON) return;
    const seconds = Math.round(gone / 1000);
    const before = +sessionStorage.getItem(this.key);
    const last = before ? `, ${before} s last time` : "";
    const text = `${this.bench.dataset.doing} … ${seconds} s so far${last}`;
    node("busy").textContent = text;
    node("busy").hidden = false;
    if (seconds >= LONG && !node("busy-spoken").textContent) node("busy-spoken").textContent = text;
  }

  done() {
    if (!this.clock) return;
    clearInterval(this.clock);
    this.clock = null;
    const took = Math.round((performance.now() - this.begun) / 1000);
    if (took > 0) sessionStorage.setItem(this.key, took);
    node("busy").hidden = true;
    node("busy-spoken").textContent = "";
  }
}
