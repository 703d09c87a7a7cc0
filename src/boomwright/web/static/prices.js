// The owner's price list: a price typed goes into the file beside the plan, a list dropped becomes it.

import { sentence } from "/static/fields.js";

const node = (id) => document.getElementById(id);

export class PriceList {
  constructor({ send, beam }) {
    Object.assign(this, { send, beam, typed: null });
    this.fold = node("price-list");
    this.rows = node("price-rows");
    this.fold.addEventListener("toggle", () => this.list());
    this.rows.addEventListener("change", (event) => this.write(event.target));
    this.rows.addEventListener("keydown", (event) => this.key(event));
    node("price-file").addEventListener("change", (event) => this.take(event.target.files[0]));
    const drop = node("price-drop");
    drop.addEventListener("dragover", (event) => event.preventDefault());
    drop.addEventListener("drop", (event) => {
      event.preventDefault();
      this.take(event.dataTransfer.files[0]);
    });
  }

  // The rows as list and bill now have them; not while something typed is not written yet.
  async list() {
    if (!this.fold.open) return;
    const answer = await fetch(`/prices?of=${this.beam}`);
    if (!answer.ok) return;
    const html = await answer.text();
    if ([...this.rows.querySelectorAll("input")].some((each) => each.value !== each.defaultValue)) return;
    const active = this.rows.contains(document.activeElement) ? document.activeElement : null;
    const [item, cell] = [active?.closest(".price")?.dataset.item, active?.dataset.cell];
    this.rows.innerHTML = html;
    // Rows that came after the list was asked for pushed what the address names out of sight.
    if (location.hash === `#${this.fold.id}` && !this.rows.dataset.shown) this.fold.scrollIntoView();
    this.rows.dataset.shown = "";
    if (active) this.row(item)?.querySelector(`[data-cell="${cell}"]`)?.focus();
  }

  row(item) {
    return [...this.rows.querySelectorAll(".price")].find((each) => each.dataset.item === item);
  }

  key(event) {
    if (event.key === "Enter" && event.target.dataset.cell) {
      event.preventDefault();
      this.write(event.target);
    } else if (event.key === "Escape" && event.target.dataset.cell) {
      event.target.value = event.target.defaultValue;
      event.target.removeAttribute("aria-invalid");
    }
  }

  write(input) {
    const row = input.closest(".price");
    if (!row || input.value === input.defaultValue) return;
    const cells = { item: row.dataset.item, unit: row.dataset.unit };
    for (const each of row.querySelectorAll("[data-cell]")) cells[each.dataset.cell] = each.value.trim().replace(/^(\d+),(\d+)$/, "$1.$2");
    // Day and supplier alone are no price yet.
    if (!cells.low && !cells.likely && !cells.high && row.dataset.waits !== undefined) return;
    const amount = ["low", "likely", "high"].includes(input.dataset.cell);
    // Typed with one figure, a price follows that figure.
    const old = row.querySelector("[data-cell=likely]").defaultValue;
    for (const name of ["low", "high"]) {
      const other = row.querySelector(`[data-cell=${name}]`);
      if (input.dataset.cell === "likely" && other.value === old) cells[name] = cells.likely;
    }
    if (amount && row.querySelector("[data-cell=dated]").value === row.querySelector("[data-cell=dated]").defaultValue) cells.dated = "";
    this.typed = row;
    this.send({ kind: "price", cells });
  }

  // True when the answer was to a price typed here.
  answered({ place, faults }) {
    if (place !== "prices" || !this.typed) return false;
    const row = this.typed;
    this.typed = null;
    for (const input of row.querySelectorAll("[aria-invalid]")) input.removeAttribute("aria-invalid");
    node("price-problem")?.remove();
    if (!faults.length) {
      for (const input of row.querySelectorAll("input")) input.defaultValue = input.value;
      return true;
    }
    // Beside what was typed: the top of a long list is out of sight.
    const text = faults.map((fault) => sentence(fault, { placed: true })).join(" ");
    row.append(Object.assign(document.createElement("p"), { className: "problem", id: "price-problem", role: "alert", textContent: text }));
    for (const fault of faults) {
      const cell = row.querySelector(`[data-cell="${CSS.escape(fault.path.split(".").at(-1))}"]`);
      cell?.setAttribute("aria-invalid", "true");
      cell?.setAttribute("aria-describedby", "price-problem");
    }
    return true;
  }

  async take(file) {
    if (!file) return;
    const says = node("price-says");
    says.textContent = `Reading ${file.name} …`;
    const answer = await fetch(`/prices.json?${new URLSearchParams({ name: file.name })}`, { method: "POST", body: file });
    const told = await answer.json();
    says.textContent = answer.ok ? told.text : sentence(told.error);
    node("price-file").value = "";
  }
}
