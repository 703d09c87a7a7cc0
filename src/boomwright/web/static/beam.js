// The Beam sheet: wires the instruments to the socket.

import { Link } from "/static/link.js";
import { Handles } from "/static/handles.js";
import { Fields, sentence } from "/static/fields.js";
import { Numbers } from "/static/numbers.js";
import { Desk } from "/static/desk.js";
import { Slider } from "/static/sliders.js";
import { Readers } from "/static/reading.js";
import { STEPS } from "/static/lengths.js";
import { fillTable, fillNotices } from "/static/tables.js";

const bench = document.getElementById("bench");
const beam = +bench.dataset.beam;
const node = (id) => document.getElementById(id);
let link = null;
let tuned = null;
let system = document.querySelector("#units input:checked").value;

const send = (edit, options) => {
  if (edit.kind === "tune") tuned = edit;
  link.send(edit, options);
};
const handles = new Handles({ drawing: node("fig-plan-view"), layer: node("handles"), beam, send });
const fields = new Fields(bench, send);
const numbers = new Numbers(node("numbers"), node("spoken"));
const desk = new Desk({
  send,
  onUnits: (units) => {
    showSteps(units);
    send({ kind: "show", system: units, narrow: narrow.matches });
  },
});
const readers = new Readers(document.querySelectorAll(".picture"));
const frequency = new Slider("frequency", { fields, send, edit: (value) => ({ kind: "tune", frequency: value }) });
const height = new Slider("height", { fields, send, edit: (value) => ({ kind: "raise", beam, height: value }) });

function showSteps(units) {
  [node("step").textContent, node("fine").textContent, node("coarse").textContent] = STEPS[units].words;
}

function paintFaults(faults) {
  node("faults").hidden = !faults.length;
  node("faults").replaceChildren(
    ...faults.map((fault) => {
      const line = document.createElement("p");
      line.textContent = sentence(fault);
      return line;
    }),
  );
}

function paintRefusals(message) {
  const loose = [...message.faults];
  for (const { place, faults } of message.refusals) {
    if (!fields.refuse(place, faults)) loose.push(...faults);
  }
  paintFaults(loose);
  return loose.length > message.faults.length;
}

function paintElements(rows) {
  const bodies = document.querySelectorAll("#dimensions tbody");
  const shape = (row) => row.tubes.length;
  const drawn = [...bodies].map((body) => body.querySelectorAll("li").length);
  if (rows.length !== bodies.length || rows.some((row, i) => shape(row) !== drawn[i])) {
    // Elements came or went (the file was changed elsewhere, or that was undone): draw anew.
    location.reload();
    return;
  }
  rows.forEach((row, i) => {
    bodies[i].querySelector("th").textContent = row.label;
    for (const field of [row.at, row.tip_to_tip, ...row.tubes.flat()]) fields.show(field.place, field.text);
  });
}

function paintQuick(message) {
  const refused = paintRefusals(message);
  system = message.system;
  showSteps(system);
  paintElements(message.elements);
  if (!link.busy) handles.paint(message.figures["plan-view"], message.elements, system);
  if (refused) handles.settle();
  if (message.numbers) numbers.paint(message.numbers, !message.moving);
  frequency.paint(message.frequency);
  height.paint(message.height);
  node("title").textContent = message.title;
  readers.paint(message);
  if (+bench.dataset.revision !== message.revision) readers.markBehind();
  bench.dataset.revision = message.revision;
  desk.paint(message);
}

function paintFull(message) {
  if (message.revision !== +bench.dataset.revision) return;
  if (message.faults.length) paintFaults(message.faults);
  if (!message.figures) return;
  numbers.paint(message.numbers, true);
  readers.paint(message);
  for (const [name, table] of Object.entries(message.tables)) fillTable(name, table);
  fillNotices(node("notice-list"), message.notices);
}

// How long a change took to be seen, kept where a benchmark can read it.
function measure(entry) {
  if (!entry?.gesture) return;
  requestAnimationFrame(() => {
    const channel = new MessageChannel();
    channel.port1.onmessage = () => {
      performance.measure("edit-to-repaint", { start: entry.at, end: performance.now() });
      if (performance.getEntriesByName("edit-to-repaint").length > 2000) performance.clearMeasures("edit-to-repaint");
    };
    channel.port2.postMessage(0);
  });
}

// Wide figures are drawn anew for a narrow window.
const narrow = matchMedia("(max-width: 760px)");
narrow.addEventListener("change", () => send({ kind: "show", system, narrow: narrow.matches }));

link = new Link(`/${bench.dataset.slug}/live?of=${beam}&narrow=${+narrow.matches}`, {
  onState: (online) => {
    desk.online(online);
    if (online && tuned && !link?.waiting.length) link?.send(tuned);
  },
  onMessage: (message, entry) => {
    if (message.kind === "quick") {
      paintQuick(message);
      measure(entry);
    } else if (message.kind === "full") paintFull(message);
    else if (message.kind === "saving") desk.paint(message);
    else if (message.kind === "refused") paintFaults([{ message: message.message, remedy: "" }]);
    bench.dataset.painted = message.kind;
  },
});
