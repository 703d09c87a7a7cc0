// Typed values. What was typed stays until it is taken or put back by its owner.

import { put, set } from "/static/writing.js";

export class Fields {
  constructor(root, send) {
    this.root = root;
    this.send = send;
    this.inputs = new Map();
    root.addEventListener("keydown", (event) => this.key(event));
    root.addEventListener("change", (event) => this.commit(event.target));
  }

  isField(node) {
    return node instanceof HTMLInputElement && node.dataset.place !== undefined;
  }

  at(place) {
    const known = this.inputs.get(place);
    if (known?.isConnected) return known;
    const input = this.root.querySelector(`input[data-place="${CSS.escape(place)}"]`);
    this.inputs.set(place, input);
    return input;
  }

  key(event) {
    if (!this.isField(event.target)) return;
    if (event.key === "Enter") {
      event.preventDefault();
      this.commit(event.target);
    } else if (event.key === "Escape") {
      const input = event.target;
      input.value = input.dataset.shown ?? input.defaultValue;
      delete input.dataset.typed;
      this.clear(input);
    }
  }

  commit(input) {
    if (!this.isField(input)) return;
    const shown = input.dataset.shown ?? input.defaultValue;
    if (input.value === shown || input.value === input.dataset.typed) return;
    input.dataset.typed = input.value;
    const place = input.dataset.place;
    const edit = place === "frequency" ? { kind: "tune", text: input.value } : { kind: "write", place: this.real(place), text: input.value };
    this.send(edit);
  }

  real(place) {
    return place === "height" ? `beam[${this.root.dataset.beam}].height` : place;
  }

  // The value as the plan now has it; text still being typed, or refused, is left alone.
  show(place, text) {
    const input = this.at(place);
    if (!input) return;
    set(input, "data-shown", text);
    if (input.getAttribute("aria-invalid") === "true") return;
    const typing = document.activeElement === input && input.value !== input.defaultValue && input.dataset.typed === undefined;
    if (typing) return;
    put(input, "value", text);
    put(input, "defaultValue", text);
    delete input.dataset.typed;
  }

  clear(input) {
    input.removeAttribute("aria-invalid");
    input.removeAttribute("aria-describedby");
    document.getElementById(`problem-${input.dataset.place}`)?.remove();
  }

  // Faults of one edit, shown at its field; false when the page has no field for it.
  refuse(place, faults) {
    const shown = place.replace(`beam[${this.root.dataset.beam}].height`, "height");
    const input = this.at(shown);
    if (!input) return false;
    this.clear(input);
    if (!faults.length) return true;
    if (input.dataset.typed === undefined) return false;
    const note = document.createElement("span");
    note.className = "problem";
    note.id = `problem-${shown}`;
    note.setAttribute("role", "alert");
    note.textContent = faults.map((fault) => sentence(fault, { placed: true })).join(" ");
    input.setAttribute("aria-invalid", "true");
    input.setAttribute("aria-describedby", note.id);
    input.closest(".field").after(note);
    return true;
  }
}

// placed: whether it stands at its field, so that nothing need say where.
export function sentence(fault, { placed = false } = {}) {
  const capital = (text) => (text ? text[0].toUpperCase() + text.slice(1) : "");
  const stop = (text) => (text && !/[.?!]$/.test(text) ? `${text}.` : text);
  const where = fault.where && !placed && fault.where !== "plan" ? `${capital(fault.where)}: ` : "";
  const message = where ? stop(fault.message) : stop(capital(fault.message));
  return `${where}${message} ${stop(capital(fault.remedy))}`.trim();
}
