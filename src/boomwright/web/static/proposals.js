// A change shown before it is made: what will be measured before and after, what is re-cut, and
// two keys. Every proposal of the page comes through here.

import { framed } from "/static/tables.js";

const quiet = (text) => Object.assign(document.createElement("p"), { textContent: text, className: "quiet" });

export class Proposals {
  constructor({ tell, send }) {
    this.tell = tell;
    this.send = send;
    this.box = document.getElementById("proposal");
    this.body = document.getElementById("proposal-body");
    this.state = document.getElementById("proposal-state");
    this.take = document.getElementById("proposal-take");
    this.take.addEventListener("click", () => this.taken());
    document.getElementById("proposal-leave").addEventListener("click", () => this.box.close());
    this.box.addEventListener("close", () => this.from?.isConnected && this.from.focus());
    document.addEventListener("click", (event) => {
      const button = event.target.closest?.("button[data-propose]");
      if (button) this.show(JSON.parse(button.dataset.propose), button);
    });
  }

  show(edit, from = document.activeElement) {
    this.edit = edit;
    this.from = from;
    this.begun = performance.now();
    this.body.replaceChildren();
    this.take.disabled = true;
    this.box.showModal();
    clearInterval(this.clock);
    const tick = () => {
      const gone = Math.round((performance.now() - this.begun) / 1000);
      this.state.textContent = `Solving the match and checking the plan, before and after …${gone > 2 ? ` ${gone} s so far` : ""}`;
    };
    tick();
    this.clock = setInterval(tick, 1000);
    this.tell({ kind: "propose", edit });
  }

  paint({ label, tables, refused }) {
    clearInterval(this.clock);
    if (!this.box.open) return;
    if (refused) {
      this.state.textContent = refused;
      return;
    }
    this.state.textContent = `${label[0].toUpperCase()}${label.slice(1)}: nothing is changed yet. Taken, it is one step of undo.`;
    this.body.replaceChildren(
      ...tables.flatMap((each) => (each.note ? [framed(each), quiet(each.note)] : [framed(each)])),
    );
    this.take.disabled = false;
    this.take.focus();
  }

  taken() {
    this.box.close();
    this.send(this.edit);
  }
}
