// The Improve block of the Beam sheet: wishes, search with time left, result, comparison, trade-off.

import { fillTable, framed, table } from "/static/tables.js";

const node = (id) => document.getElementById(id);

export class Improve {
  constructor({ propose, tell, beam, readers }) {
    this.beam = beam;
    this.readers = readers;
    this.tell = tell;
    this.running = false;
    const block = node("improve");
    block.addEventListener("toggle", () => block.open && this.look());
    for (const action of ["start", "resume", "compare", "tolerate"]) {
      node(`improve-${action}`).addEventListener("click", () => {
        this.run(true);
        node("improve-found").hidden = true;
        node("improve-state").textContent = "Setting up.";
        tell({ kind: "improve", action });
      });
    }
    node("improve-cancel").addEventListener("click", () => this.cancel());
    document.addEventListener("keydown", (event) => {
      if (event.key === "Escape" && this.running) this.cancel();
    });
    node("improve-take").addEventListener("click", () => {
      propose({ kind: "take" });
    });
    const choice = node("trade-off-choice");
    const take = () => {
      const [curve, number] = choice.value.split(".").map(Number);
      propose({ kind: "take", beam, curve, number });
    };
    node("trade-off-take").addEventListener("click", take);
    node("trade-off").addEventListener("click", (event) => {
      const point = event.target.closest("[data-choice]");
      if (!point) return;
      choice.value = point.dataset.choice;
      take();
    });
  }

  cancel() {
    node("improve-cancel").disabled = true;
    node("improve-state").textContent = "Stopping; the best so far is being checked.";
    this.tell({ kind: "improve", action: "cancel" });
  }

  look() {
    this.tell({ kind: "improve", action: "look" });
  }

  // The plan was changed: what was drawn and found is of another beam.
  changed() {
    if (node("improve").open) this.look();
  }

  run(on) {
    this.running = on;
    for (const action of ["start", "resume", "compare", "tolerate"]) node(`improve-${action}`).disabled = on;
    node("improve-cancel").hidden = !on;
    node("improve-cancel").disabled = false;
    node("improve-bar").hidden = !on;
    node("improve-bar").removeAttribute("value");
  }

  paint(message) {
    if (message.state === "trade-off") this.paintTradeOff(message);
    else if (message.state === "running") {
      if (!this.running) this.run(true);
      if (message.share !== null) node("improve-bar").value = message.share;
      if (!message.stopping) node("improve-state").textContent = message.text;
    } else if (message.state === "found") {
      this.run(false);
      node("improve-state").textContent = message.text;
      node("improve-figures").replaceChildren(table(message.figures));
      node("improve-elements").replaceChildren(table(message.elements));
      node("improve-notices").replaceChildren(...message.notices.map((text) => filled("li", text)));
      node("improve-found").hidden = false;
      node("improve-take").focus();
    } else if (message.state === "known") {
      this.paintKnown(message);
    } else if (message.state === "refused" || message.state === "done") {
      this.run(false);
      node("improve-state").textContent = message.text;
    } else if (message.state === "no-trade-off") {
      node("trade-off").replaceChildren(filled("p", message.text));
      node("trade-off-choice").replaceChildren();
      node("trade-off-take").disabled = true;
      this.wishes(message);
    }
  }

  paintKnown({ unfinished, facts, pictures, tables }) {
    node("improve-unfinished").textContent = unfinished;
    node("improve-unfinished").hidden = node("improve-resume").hidden = !unfinished;
    node("improve-known").hidden = !facts.length && !tables.length;
    node("improve-facts").replaceChildren(
      ...facts.map(([label, value]) => {
        const row = document.createElement("div");
        row.append(filled("dt", label), filled("dd", value));
        return row;
      }),
    );
    node("improve-tables").replaceChildren(
      ...tables.flatMap((each) => (each.note ? [framed(each), filled("p", each.note)] : [framed(each)])),
    );
    node("improve-pictures").hidden = !pictures.length;
    const figures = Object.fromEntries(pictures.map(({ name, svg }) => [name, svg]));
    this.readers.paint({ figures, keys: {} });
    for (const { name, table: numbers } of pictures) fillTable(name, numbers);
  }

  paintTradeOff(message) {
    node("trade-off").innerHTML = message.svg;
    node("trade-off-caption").textContent = message.caption;
    node("trade-off-table").replaceChildren(table(message.table));
    const before = node("trade-off-choice").value;
    const points = [...node("trade-off").querySelectorAll("[data-choice]")];
    points.sort((a, b) => a.dataset.boom - b.dataset.boom || b.dataset.gain - a.dataset.gain);
    node("trade-off-choice").replaceChildren(
      ...points.map((point) => {
        const option = filled("option", point.querySelector("title").textContent);
        option.value = point.dataset.choice;
        return option;
      }),
    );
    if (before) node("trade-off-choice").value = before;
    node("trade-off-take").disabled = !points.length;
    this.wishes(message);
  }

  wishes(message) {
    node("improve-wish").textContent = message.wish_words;
    for (const [place, text] of Object.entries(message.wishes)) {
      const input = document.querySelector(`#improve input[data-place="${CSS.escape(place)}"]`);
      if (input && input !== document.activeElement && input.getAttribute("aria-invalid") !== "true") {
        input.value = input.defaultValue = input.dataset.shown = text;
        delete input.dataset.typed;
      }
    }
  }
}

function filled(name, text) {
  const made = document.createElement(name);
  made.textContent = text;
  return made;
}
