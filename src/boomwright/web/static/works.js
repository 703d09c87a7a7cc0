// Long work: its name, how far it is, the time left, and a way out; what came of it stays until put away.

const STATES = { running: "", stopping: "stopping …", done: "done", stopped: "stopped", failed: "failed" };

function made(tag, text = "", more = {}) {
  return Object.assign(document.createElement(tag), { textContent: text }, more);
}

function clock(seconds) {
  return seconds < 90 ? `${seconds} s` : `${Math.round(seconds / 60)} min`;
}

export class Works {
  constructor(tell) {
    this.tell = tell;
    this.box = document.getElementById("works");
    this.list = document.getElementById("works-list");
    this.spoken = document.getElementById("works-spoken");
    this.rows = new Map();
    // What sticks to the top of the window, and what an anchor leads to, stays below it.
    const tall = () => document.documentElement.style.setProperty("--works", `${this.box.offsetHeight}px`);
    new ResizeObserver(tall).observe(this.box);
  }

  paint(works) {
    for (const [number, row] of this.rows) {
      if (works.some((work) => work.number === number)) continue;
      row.remove();
      this.rows.delete(number);
    }
    // What stands on the sheet that is seen need not be told of.
    const here = (work) => work.state === "done" && new URL(work.address, location).pathname === location.pathname;
    for (const work of works.filter(here)) this.tell({ kind: "tend", action: "close", number: work.number });
    for (const work of works) this.show(work);
    this.box.hidden = works.every(here);
  }

  show(work) {
    let row = this.rows.get(work.number);
    if (!row) {
      row = this.add(work);
      this.rows.set(work.number, row);
    }
    const on = work.state === "running";
    const { name, words, bar, key, there } = row.parts;
    name.textContent = work.name;
    const left = work.left === null ? (work.gone > 9 ? `, ${clock(work.gone)} so far` : "") : `, about ${clock(work.left)} left`;
    words.textContent = [STATES[work.state], work.text + (on ? left : "")].filter(Boolean).join(": ");
    bar.hidden = !on;
    if (work.share === null) bar.removeAttribute("value");
    else bar.value = work.share;
    key.textContent = on ? "Cancel" : "Put away";
    key.disabled = work.state === "stopping";
    key.setAttribute("aria-label", `${key.textContent}: ${work.name}`);
    there.hidden = work.state !== "done";
    there.href = work.address;
    if (row.dataset.state !== work.state && row.dataset.state) this.spoken.textContent = `${work.name}: ${STATES[work.state]}`;
    row.dataset.state = work.state;
    key.onclick = () => this.tell({ kind: "tend", action: on ? "stop" : "close", number: work.number });
  }

  add(work) {
    const row = made("li");
    const parts = {
      name: made("strong"), words: made("span"), bar: made("progress", "", { max: 1 }),
      there: made("a", "Show it"), key: made("button", "", { type: "button" }),
    };
    parts.bar.setAttribute("aria-label", work.name);
    row.append(...Object.values(parts));
    row.parts = parts;
    this.list.append(row);
    return row;
  }
}
