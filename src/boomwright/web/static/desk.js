// The desk around the sheet: undo and redo, saving, conflicts, units, day and night.

import { chooseScheme, remember } from "/static/choices.js";
import { set, write } from "/static/writing.js";

export class Desk {
  constructor({ send, tell, onUnits }) {
    this.send = send;
    this.node = (id) => document.getElementById(id);
    this.node("undo").addEventListener("click", () => this.act("undo"));
    this.node("redo").addEventListener("click", () => this.act("redo"));
    this.node("take-file").addEventListener("click", () => this.act("take-file"));
    this.node("keep-mine").addEventListener("click", () => this.act("keep-mine"));
    this.node("save-again").addEventListener("click", () => this.act("save"));
    document.querySelectorAll("[data-act]").forEach((button) => button.addEventListener("click", () => this.act(button.dataset.act)));
    this.node("lesson-next").addEventListener("click", (event) =>
      tell({ kind: "shelve", action: "lesson", name: event.currentTarget.dataset.name }),
    );
    this.node("lesson-leave").addEventListener("click", () => tell({ kind: "shelve", action: "back" }));
    this.node("of")?.addEventListener("change", (event) => event.target.form.submit());
    document.addEventListener("keydown", (event) => this.key(event));
    addEventListener("focus", () => this.act("look"));
    this.node("units").addEventListener("change", (event) => {
      remember("units", event.target.value);
      onUnits(event.target.value);
    });
    chooseScheme();
    for (const menu of [this.node("downloads"), this.node("verdict")]) {
      document.addEventListener("click", (event) => {
        if (!menu.contains(event.target) || event.target.closest("a")) menu.open = false;
      });
      menu.addEventListener("keydown", (event) => {
        if (event.key !== "Escape") return;
        menu.open = false;
        menu.querySelector("summary").focus();
      });
    }
  }

  act(action) {
    this.send({ kind: "act", action });
  }

  key(event) {
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    const key = event.key.toLowerCase();
    const field = event.target.matches?.("input[type=text]") ? event.target : null;
    // Inside a field with unfinished typing the browser's own undo is what is meant.
    if (field && field.value !== field.defaultValue) return;
    if (key === "z" || (key === "y" && !event.shiftKey)) {
      event.preventDefault();
      this.act(key === "y" || event.shiftKey ? "redo" : "undo");
    }
  }

  paint({ saving, undo, redo, lesson }) {
    if (lesson) this.teach(lesson);
    const state = this.node("saving");
    set(state, "data-state", saving.state);
    write(this.node("saving-text"), saving.text);
    this.step("undo", "Undo", undo, "Ctrl+Z");
    this.step("redo", "Redo", redo, "Ctrl+Shift+Z");
    const { state: how } = saving;
    this.node("conflict").hidden = !["conflict", "gone", "failed"].includes(how);
    write(this.node("conflict-text"), `${saving.text[0].toUpperCase()}${saving.text.slice(1)}.`);
    write(this.node("conflict-remedy"), saving.remedy);
    this.node("take-file").hidden = how !== "conflict";
    this.node("keep-mine").hidden = how !== "conflict" && how !== "gone";
    this.node("save-again").hidden = how !== "failed";
  }

  // How far each sheet's subject is, and what of it stands against the plan.
  marks(marks) {
    const links = document.querySelectorAll(".top nav a[data-sheet]");
    marks.forEach((mark, i) => {
      if (!mark || !links[i]) return;
      links[i].dataset.mark = mark.state;
      links[i].title = mark.text;
      links[i].querySelector(".tally").textContent = mark.tally;
      links[i].querySelector(".unseen").textContent = ` (${mark.tally ? mark.text : mark.state})`;
    });
  }

  // The plan has changed: its verdict is not known until it rests.
  unjudged(revision) {
    const verdict = this.node("verdict");
    if (verdict.dataset.judged === `${revision}` || verdict.dataset.word === "") return;
    this.keepRoom(true);
    verdict.dataset.word = verdict.dataset.judged = "";
    this.node("verdict-text").textContent = "Verdict: being checked …";
    this.node("verdict-exceeded").replaceChildren();
    this.node("verdict-open").textContent = "";
    for (const link of document.querySelectorAll(".top nav a")) {
      if (link.querySelector(".tally")?.textContent) {
        link.dataset.mark = "doubtful";
        link.title = "being checked";
        link.querySelector(".tally").textContent = "";
        link.querySelector(".unseen").textContent = " (being checked)";
      }
    }
  }

  // What is shorter while it is being checked keeps its room: nothing moves under the hand.
  keepRoom(yes) {
    const rooms = [this.node("verdict-text"), ...document.querySelectorAll(".top nav a[data-sheet]")];
    const sizes = rooms.map((room) => (yes ? room.getBoundingClientRect() : null));
    rooms.forEach((room, i) => {
      room.style.minWidth = sizes[i] ? `${sizes[i].width}px` : "";
      room.style.minHeight = sizes[i] ? `${sizes[i].height}px` : "";
    });
  }

  judged({ revision, word, text, exceeded, open }) {
    const verdict = this.node("verdict");
    this.keepRoom(false);
    verdict.dataset.word = word;
    verdict.dataset.judged = revision;
    this.node("verdict-text").textContent = text;
    this.node("verdict-open").textContent = open;
    this.node("verdict-exceeded").replaceChildren(
      ...exceeded.map((line) => {
        const item = document.createElement("li");
        const link = document.createElement("a");
        link.href = line.address;
        link.textContent = line.noun;
        item.append(`${line.text} `, link);
        return item;
      }),
    );
    write(this.node("verdict-spoken"), text);
  }

  // The lesson's step, and a way to the sheet and the beam it speaks of.
  teach({ title, number, count, say, do: does, look, beam, try: trying, next, next_title: nextTitle }) {
    const put = (id, text) => write(this.node(id), text);
    put("lesson-title", title);
    put("lesson-number", number);
    put("lesson-count", count);
    put("lesson-say", say);
    put("lesson-do", does);
    this.node("lesson").hidden = false;
    this.node("lesson-do").hidden = !does;
    this.node("lesson-back").disabled = number === 1;
    this.node("lesson-on").disabled = number === count;
    put("lesson-try-text", trying);
    this.node("lesson-try").hidden = !trying;
    put("lesson-next-title", nextTitle);
    this.node("lesson-next").dataset.name = next;
    this.node("lesson-next").hidden = !next;
    const bench = this.node("bench");
    const here = bench.dataset.slug === look && +bench.dataset.beam === beam;
    this.node("lesson-look").href = `/${look}?of=${beam}`;
    put("lesson-look", here ? "" : `See it on ${look[0].toUpperCase()}${look.slice(1)}${beam ? `, beam ${beam + 1}` : ""}`);
  }

  step(id, word, label, keys) {
    const button = this.node(id);
    button.disabled = !label;
    set(button, "title", label ? `${word}: ${label} (${keys})` : `${word} (${keys})`);
  }

  online(yes) {
    this.node("offline").hidden = yes;
  }
}
