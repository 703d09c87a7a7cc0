// Takes a measured sweep where it is shown: a file that is chosen or dropped, or pasted rows.

import { sentence } from "/static/fields.js";

const node = (id) => document.getElementById(id);

export class SweepTaker {
  constructor(beam) {
    this.beam = beam;
    this.said = "";
  }

  // The sheet was written anew: what was chosen or typed is kept, and so is what was said last.
  wire() {
    const fresh = node("take");
    if (!fresh) return;
    const { file, rows } = this.form?.elements ?? {};
    if (fresh !== this.box && (file?.files.length || rows?.value)) fresh.replaceWith(this.box);
    else this.box = fresh;
    this.form = node("measured");
    if (this.said) this.say(this.said);
    if (fresh !== this.box || this.form.onsubmit) return;
    this.form.onsubmit = (event) => this.take(event);
    this.form.elements.file.onchange = () => this.name();
    this.box.ondragover = (event) => event.preventDefault();
    this.box.ondrop = (event) => {
      event.preventDefault();
      if (!event.dataTransfer.files.length) return;
      this.form.elements.file.files = event.dataTransfer.files;
      this.name();
    };
  }

  name() {
    const { file, name } = this.form.elements;
    if (file.files[0] && !name.value) name.value = file.files[0].name;
  }

  say(text) {
    this.said = text;
    node("measured-text").textContent = text;
    this.box.open = true;
  }

  async take(event) {
    event.preventDefault();
    const { file, rows, name, as, moved } = this.form.elements;
    const pasted = rows.value.trim();
    const content = file.files[0] ?? (pasted ? `${pasted}\n` : null);
    if (!content) {
      this.say("Choose a file, or paste the rows of the sweep.");
      return;
    }
    const today = new Date().toISOString().slice(0, 10);
    const kept = name.value || file.files[0]?.name || `sweep-${today}.${/^[#!]/.test(pasted) ? "s1p" : "csv"}`;
    const query = new URLSearchParams({ name: kept, as: as.value, of: this.beam });
    for (const key of ["rise", "line", "length"]) {
      const typed = this.form.elements.namedItem(key)?.value.trim();
      if (typed) query.set(key, typed);
    }
    if (moved?.checked && as.value === "trial") query.set("moved", "advised");
    this.say("Reading …");
    const answer = await fetch(`/measured.json?${query}`, { method: "POST", body: content });
    const told = await answer.json().catch(() => ({ error: { message: "the sweep was not taken", remedy: "is it larger than 4 MB?" } }));
    if (answer.ok) this.form.reset();
    this.say(answer.ok ? `${kept}: ${told.text}; ${told.said}.` : sentence(told.error));
  }
}
