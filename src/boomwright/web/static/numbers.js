// The four numbers, and their spoken form: said once they rest, not at every repaint.

import { write } from "/static/writing.js";

const REST = 1200; // [ms]

const first = (words) => words.split(/[ ,]/)[0];

// A label that still begins with the same word keeps its link to what the word means.
function label(term, words) {
  const link = term.querySelector("a");
  write(link && first(link.textContent) === first(words) ? link : term, words);
}

export class Numbers {
  constructor(root, spoken) {
    this.root = root;
    this.spoken = spoken;
  }

  // While something moves the bands are those of when it last rested, and are drawn fainter.
  paint(numbers, settled) {
    this.root.toggleAttribute("data-settled", settled);
    for (const number of numbers) {
      const node = this.root.querySelector(`[data-number="${number.name}"]`);
      if (!node) continue;
      const parts = ["value", "unit", "band", "note"];
      const stale = !number.value;
      node.toggleAttribute("data-stale", stale);
      if (!stale) label(node.querySelector("dt"), number.label);
      for (const part of parts) {
        if (stale && part !== "note") continue;
        const target = node.querySelector(`.${part}`);
        write(target, number[part]);
      }
    }
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.say(), REST);
  }

  say() {
    const text = [...this.root.querySelectorAll(".number")]
      .map((node) => ["dt", ".value", ".unit", ".band"].map((part) => node.querySelector(part).textContent).join(" "))
      .join("; ");
    write(this.spoken, text);
  }
}
