// The Waves sheet: moving pictures, the elements' shares, the pattern in space.

import { openSheet } from "/static/sheet.js";
import { Clock } from "/static/clock.js";
import { WaveView } from "/static/wave_view.js";
import { SolidView } from "/static/solid.js";
import { Exports } from "/static/exports.js";
import { write } from "/static/writing.js";

const node = (id) => document.getElementById(id);
const views = Object.fromEntries(["level", "upright"].map((name) => [name, new WaveView(node(`wave-${name}`))]));
const solid = new SolidView(node("wave-solid"));
const hidden = new Set();
const shown = (number) => !hidden.has(number);
const clock = new Clock((phase) => Object.values(views).forEach((view) => view.paint(phase)));
const exports = new Exports({ views, solid, clock });
let rows = [];

function recount() {
  for (const view of Object.values(views)) view.sum(shown);
  clock.set(clock.phase);
  node("share-list").querySelectorAll("input").forEach((box, i) => {
    box.checked = shown(i);
  });
}

function listShares(shares) {
  if (shares.length !== rows.length) hidden.clear();
  rows = shares;
  const items = shares.map((share, number) => {
    const item = document.createElement("li");
    const label = document.createElement("label");
    const box = document.createElement("input");
    box.type = "checkbox";
    box.checked = shown(number);
    box.addEventListener("change", () => {
      if (box.checked) hidden.delete(number);
      else hidden.add(number);
      recount();
    });
    const name = document.createElement("strong");
    name.textContent = share.label;
    name.dataset.role = share.role;
    label.append(box, name);
    item.append(label, ` ${share.sentence}`);
    return item;
  });
  const focused = [...node("share-list").querySelectorAll("input")].indexOf(document.activeElement);
  node("share-list").replaceChildren(...items);
  if (focused >= 0) items[focused]?.querySelector("input").focus({ preventScroll: true });
}

node("all-shares").addEventListener("click", () => {
  hidden.clear();
  recount();
});
node("driven-only").addEventListener("click", () => {
  rows.forEach((share, number) => (share.role === "driven" ? hidden.delete(number) : hidden.add(number)));
  recount();
});

const repaint = () => {
  for (const view of Object.values(views)) if (view.field) view.colours();
  if (solid.solid) {
    solid.fillScale();
    solid.paint();
  }
  clock.set(clock.phase);
};
node("scheme").addEventListener("change", () => requestAnimationFrame(repaint));
matchMedia("(prefers-color-scheme: dark)").addEventListener("change", repaint);

const behind = (yes) => node("sheet").toggleAttribute("data-behind", yes);

openSheet({
  onBehind: () => behind(true),
  onFull: ({ waves }) => {
    if (!waves?.solid) return;
    behind(false);
    write(node("wave-sentence"), waves.sentence);
    listShares(waves.shares);
    for (const [name, view] of Object.entries(views)) view.load(waves.figures[name], waves.grids[name], shown);
    solid.load(waves.solid);
    clock.set(clock.phase);
    node("sheet").dataset.ready = "waves";
  },
});

// Read by tests and the benchmark.
globalThis.boomwrightWaves = { views, solid, clock, exports };
