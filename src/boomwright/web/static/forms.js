// The forms of the plan: the tables of a sheet, and one of them at a time to be filled in.
// What was typed stays in its form until it is written, or given up by its owner.

import { remember } from "/static/choices.js";
import { sentence } from "/static/fields.js";

const OWN_FIGURES = "\n";
const node = (id) => document.getElementById(id);

export class PlanForms {
  constructor({ send, beam, slug }) {
    Object.assign(this, { send, beam, slug, waits: null });
    this.dialog = node("form");
    this.change = node("change");
    this.dialog.addEventListener("cancel", (event) => this.leave(event));
    this.dialog.addEventListener("close", () => this.from?.isConnected && this.from.focus());
    this.dialog.addEventListener("submit", (event) => this.write(event));
    this.dialog.addEventListener("change", (event) => this.changed(event.target));
    this.dialog.addEventListener("input", (event) => this.typed(event.target));
    document.addEventListener("click", (event) => this.click(event));
    if (!this.change) return;
    this.change.addEventListener("toggle", () => {
      sessionStorage.setItem("boomwright-change", this.change.open ? this.slug : "");
      this.list();
    });
    // Elements that came or went have the page drawn anew; what was unfolded is again.
    if (sessionStorage.getItem("boomwright-change") === this.slug) this.change.open = true;
  }

  address(path, more) {
    remember("units", document.querySelector("#units input:checked").value);
    return `${path}?${new URLSearchParams({ of: this.beam, ...more })}`;
  }

  // The tables of this sheet as the plan now has them.
  async list() {
    if (!this.change?.open) return;
    const answer = await fetch(this.address("/tables", { sheet: this.slug }));
    if (!answer.ok) return;
    const tables = node("tables");
    const active = tables.contains(document.activeElement) ? document.activeElement.getAttribute("aria-label") ?? document.activeElement.textContent : null;
    tables.innerHTML = await answer.text();
    if (active === null) return;
    const same = [...tables.querySelectorAll("button")].find((each) => (each.getAttribute("aria-label") ?? each.textContent) === active);
    (same ?? this.change.querySelector("summary")).focus();
  }

  click(event) {
    const button = event.target.closest("button");
    if (!button) return;
    const { form, confirm, shift, row } = button.dataset;
    const place = button.closest("[data-table]")?.dataset.table;
    if (form !== undefined) this.open(form, button);
    else if (confirm !== undefined) this.ask({ kind: "confirm", place: confirm }, button);
    else if (shift !== undefined) this.ask({ kind: "shift", place, by: +shift });
    else if (button.dataset.takeOut !== undefined) this.ask({ kind: "take-out", place });
    else if (button.dataset.usualValues !== undefined) this.takeUsual();
    else if (button.dataset.cancel !== undefined) this.dialog.close();
    else if (row !== undefined) this.row(button, row);
  }

  ask(edit, button) {
    this.waits = { place: edit.place, button, said: edit.kind };
    this.send(edit);
  }

  async open(place, from) {
    const answer = await fetch(this.address("/form", { place }));
    if (!answer.ok) {
      this.say("This form cannot be opened: the plan was changed. Reload the page.");
      return;
    }
    this.from = from;
    this.dialog.innerHTML = await answer.text();
    this.form = this.dialog.querySelector("form");
    this.form.querySelectorAll("[data-choice]").forEach((each) => this.fit(each));
    this.fit(this.form);
    for (const table of this.form.querySelectorAll(".cells")) {
      if (!table.tBodies[0].rows.length) this.add(table.closest(".entry"));
    }
    this.before = JSON.stringify(this.values());
    this.begun = this.read(this.form);
    if (!this.dialog.open) this.dialog.showModal();
    const asked = this.form.dataset.asked && this.entry(this.form.dataset.asked);
    (asked || this.form).querySelector(".entry:not([hidden]) :is(input, select), input, select")?.focus();
  }

  say(text) {
    const says = node("form-says") ?? node("change-says");
    if (says) says.textContent = text;
  }

  get dirty() {
    return this.dialog.open && JSON.stringify(this.values()) !== this.before;
  }

  leave(event) {
    if (!this.dirty) return;
    event.preventDefault();
    this.say("What you typed is not in the plan yet. Write it, or Cancel to give it up.");
    this.dialog.querySelector("[data-cancel]").focus();
  }

  entry(place) {
    return this.form.querySelector(`.entry[data-at="${CSS.escape(place)}"]`);
  }

  // Keys that the choice made does not have are out of the way.
  fit(table) {
    const select = table.dataset.choice && table.querySelector(`.entry[data-key="${table.dataset.choice}"] select`);
    if (!select) return;
    for (const entry of table.querySelectorAll(":scope > .entries > .entry[data-goes]")) {
      entry.hidden = !entry.dataset.goes.split("|").includes(select.value);
    }
  }

  changed(input) {
    const entry = input.closest(".entry");
    if (!entry) return;
    const table = input.closest("[data-choice]");
    if (table) this.fit(table);
    if (entry.dataset.input === "either" && input.dataset.part === "text") {
      entry.querySelector("fieldset").hidden = input.value !== OWN_FIGURES;
    }
  }

  // What its owner types is no longer assumed.
  typed(input) {
    const entry = input.closest(".entry");
    if (!entry) return;
    this.clear(entry);
    if (entry.dataset.taken === undefined) return;
    delete entry.dataset.taken;
    entry.querySelector(":scope > .name .assumed")?.remove();
  }

  takeUsual() {
    let count = 0;
    for (const entry of this.form.querySelectorAll(".entry[data-usual]:not([hidden])")) {
      if (entry.closest("[hidden]")) continue;
      const input = entry.querySelector("[data-part=text], .cells input");
      if (!input || input.value) continue;
      input.value = entry.dataset.usual;
      entry.dataset.taken = "";
      const chip = document.createElement("span");
      chip.className = "assumed";
      chip.textContent = "assumed";
      entry.querySelector(".name").append(chip);
      count += 1;
    }
    this.say(count ? `${count} usual value${count > 1 ? "s" : ""} entered, marked as assumed until you confirm.` : "Every field with a usual value is filled in already.");
  }

  row(button, what) {
    const entry = button.closest(".entry");
    const line = button.closest("tr");
    if (what === "add") this.add(entry).querySelector("input").focus();
    if (what === "up") line.previousElementSibling?.before(line);
    if (what === "down") line.nextElementSibling?.after(line);
    if (what === "up" || what === "down") button.focus();
    if (what === "out") {
      const next = line.nextElementSibling ?? line.previousElementSibling;
      line.remove();
      (next?.querySelector("[data-row=out]") ?? entry.querySelector("[data-row=add]")).focus();
    }
  }

  add(entry) {
    const line = entry.querySelector("template")?.content.querySelector("tr").cloneNode(true);
    if (line) entry.querySelector("tbody").append(line);
    return line ?? entry;
  }

  // What stands in one entry, as the program takes it.
  of(entry) {
    const { input } = entry.dataset;
    const text = entry.querySelector(":scope > [data-part=text]");
    const inner = entry.querySelector(":scope > fieldset");
    if (input === "row" || input === "rows") {
      const rows = [...entry.querySelector("tbody").rows].map((row) => [...row.querySelectorAll("input")].map((cell) => cell.value.trim()));
      return input === "row" ? (rows[0] ?? []) : rows.filter((row) => row.some(Boolean));
    }
    if (input === "table" || (text && text.value === OWN_FIGURES)) return this.read(inner);
    return text ? text.value.trim() : "";
  }

  read(table) {
    const found = {};
    const entries = table.querySelectorAll(":scope > .entries > .entry, :scope > .entry");
    for (const entry of entries) found[entry.dataset.key] = entry.hidden ? this.none(entry) : this.of(entry);
    return found;
  }

  none(entry) {
    const { input } = entry.dataset;
    return input === "row" || input === "rows" ? [] : input === "table" ? {} : "";
  }

  // Everything in the form: the table's own keys, and the tables that a new one must have.
  values() {
    const values = this.read(this.form);
    for (const table of this.form.querySelectorAll("[data-needed]")) {
      const key = table.dataset.needed.slice(this.form.dataset.place.length).replace(/^\./, "");
      const listed = key.match(/^(.*)\[0\]$/);
      if (listed) values[listed[1]] = [this.read(table)];
      else values[key] = this.read(table);
    }
    return values;
  }

  write(event) {
    event.preventDefault();
    const place = this.form.dataset.place;
    const all = this.values();
    const values = Object.fromEntries(
      Object.entries(all).filter(([key, value]) =>
        this.form.dataset.written === undefined || JSON.stringify(value) !== JSON.stringify(this.begun[key])),
    );
    const taken = [...this.form.querySelectorAll(".entry[data-taken]")].filter((each) => !each.closest("[hidden]"));
    const assumed = taken.map((each) => each.dataset.at.slice(place.length).replace(/^\./, ""));
    if (this.form.dataset.written !== undefined && !Object.keys(values).length) {
      this.dialog.close();
      return;
    }
    for (const entry of this.form.querySelectorAll(".entry")) this.clear(entry);
    node("form-problem").hidden = true;
    this.waits = { place, said: "fill" };
    this.say("Being written …");
    this.send({ kind: "fill", place, values, assumed });
  }

  // The answer to what was asked here; faults stand at their fields. True when it was ours.
  answered({ form, place, faults }) {
    if (!form || this.waits?.place !== place) return false;
    const { said, button } = this.waits;
    this.waits = null;
    if (said !== "fill" || !this.dialog.open) {
      const done = { "take-out": "Taken out. Undo brings it back.", shift: "Moved.", confirm: "Confirmed." }[said];
      const text = faults.length ? faults.map(sentence).join(" ") : done;
      if (this.dialog.open) this.say(text);
      if (node("change-says")) node("change-says").textContent = text;
      if (!faults.length && said === "confirm") this.confirmed(button);
      return true;
    }
    if (!faults.length) {
      this.dialog.close();
      if (node("change-says")) node("change-says").textContent = "Written. Undo brings the old values back.";
      return true;
    }
    this.refuse(faults);
    return true;
  }

  confirmed(button) {
    const entry = button?.closest(".entry");
    if (!entry) return;
    button.remove();
    entry.querySelector(":scope > .name .assumed")?.remove();
    entry.querySelector("input, select").focus();
  }

  refuse(faults) {
    const loose = [];
    let first = null;
    for (const fault of faults) {
      const at = this.nearest(fault.path);
      if (!at) {
        loose.push(fault);
        continue;
      }
      first ??= at;
      this.complain(at, fault);
    }
    const problem = node("form-problem");
    problem.hidden = !loose.length;
    problem.replaceChildren(
      ...loose.map((fault) => {
        const line = document.createElement("p");
        line.textContent = sentence(fault);
        return line;
      }),
    );
    this.say(`Not written: ${faults.length} thing${faults.length > 1 ? "s" : ""} to put right.`);
    const into = first?.querySelector("[aria-invalid=true]") ?? first?.querySelector("input, select");
    if (into) into.focus();
    else problem.scrollIntoView({ block: "nearest" });
  }

  // The field at a place, or the one of the table or list around it.
  nearest(path) {
    for (let place = path; place; place = place.replace(/(\.[^.[\]]+|\[\d+\])$/, "")) {
      const entry = this.entry(place);
      if (entry && !entry.closest("[hidden]")) return entry;
      if (!/[.[]/.test(place)) break;
    }
    return null;
  }

  complain(entry, fault) {
    let note = entry.querySelector(":scope > .problem");
    if (!note) {
      note = document.createElement("p");
      note.className = "problem";
      note.id = `problem-${entry.dataset.at}`;
      note.setAttribute("role", "alert");
      entry.querySelector(":scope > .name").after(note);
    }
    const cell = fault.path.slice(entry.dataset.at.length).match(/^(?:\[(\d+)\])?(?:\[(\d+)\])?$/);
    const rows = entry.dataset.input.startsWith("row") ? entry.querySelectorAll("tbody tr") : [];
    const [row, column] = cell && entry.dataset.input === "rows" ? [cell[1], cell[2]] : [0, cell?.[1]];
    const input = rows[row ?? 0]?.querySelectorAll("input")[column ?? 0] ?? entry.querySelector("input, select");
    const which = rows.length > 1 && fault.where ? `${fault.where.split(", ").slice(-2).join(", ")}: ` : "";
    const such = input.placeholder ? ` Such as ${input.placeholder}.` : "";
    const said = fault.missing && !input.value ? `Needed here.${such}` : sentence(fault, { placed: true });
    note.textContent = `${note.textContent} ${which}${said}`.trim();
    input.setAttribute("aria-invalid", "true");
    input.setAttribute("aria-describedby", `${note.id} ${input.getAttribute("aria-describedby") ?? ""}`.trim());
  }

  clear(entry) {
    const note = entry.querySelector(":scope > .problem");
    if (!note) return;
    for (const input of entry.querySelectorAll("[aria-invalid]")) {
      input.removeAttribute("aria-invalid");
      const left = (input.getAttribute("aria-describedby") ?? "").split(" ").filter((id) => id !== note.id);
      input.setAttribute("aria-describedby", left.join(" "));
    }
    note.remove();
  }
}
