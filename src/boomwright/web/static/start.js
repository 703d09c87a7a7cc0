// The Start sheet: a new plan, which station suits a place, recent plans, lessons.

import { Link } from "/static/link.js";
import { chooseScheme, remember } from "/static/choices.js";
import { watchCopies } from "/static/copying.js";
import { watchKeys } from "/static/keys.js";
import { PlaceMap } from "/static/place_map.js";
import { Works } from "/static/works.js";
import { sentence } from "/static/fields.js";
import { Readers } from "/static/reading.js";

const node = (id) => document.getElementById(id);
const narrow = matchMedia("(max-width: 760px)");
const system = () => document.querySelector("#units input:checked").value;
const texts = (form) => Object.fromEntries([...new FormData(form)].filter(([name]) => name !== "name"));

function refuse({ refused = "", faults = [], said = "" } = {}) {
  const label = ({ path }) => fieldOf(path)?.labels[0].firstChild.textContent.trim();
  const lines = faults.map((fault) => (label(fault) ? `${label(fault)}: ${sentence(fault, { placed: true })}` : sentence(fault)));
  node("refusal").hidden = !refused;
  node("refusal").replaceChildren(...(lines.length ? lines : [refused]).flatMap((line) => [line, document.createElement("br")]).slice(0, -1));
  node("said").hidden = !said;
  node("said").textContent = said;
  if (refused) node("refusal").scrollIntoView({ block: "center" });
  const field = faults.map(({ path }) => fieldOf(path)).find(Boolean);
  if (!field) return;
  for (let box = field.closest("details"); box; box = box.parentElement.closest("details")) box.open = true;
  field.focus();
}

// The field that a place in the file was typed into.
const FIELDS = {
  "site.position": "place", "site.locator": "place", "site.ground": "ground", "site.wind": "wind", "site.ice": "ice",
  "place.highest": "highest", "place.lot[1]": "lot_width", "place.lot": "lot_length", "place.bands": "bands", "transmitter.power": "power",
  "raising.ground_crew": "ground_crew", "raising.trained_climbers": "trained_climbers",
  "prices.currency": "currency", "prices.budget": "budget", "prices.list": "list",
};
function fieldOf(place) {
  const known = Object.keys(FIELDS).find((each) => place.startsWith(each));
  const row = /^place\.standing\[(\d)\]/.exec(place) ?? /^reach\.target\[(\d)\]/.exec(place);
  const name = known ? FIELDS[known] : row ? `${place.startsWith("place") ? "tall" : "where"}_${row[1]}` : place.split(".").at(-1);
  return node("seek")?.elements[name];
}

const link = new Link(`/start/live?narrow=${+narrow.matches}`, {
  onState: (online) => {
    node("offline").hidden = online;
  },
  onMessage: (message) => {
    if (message.kind === "shelf") refuse(message);
    else if (message.kind === "refused") refuse({ refused: message.message });
    else if (message.kind === "moved") location.assign(message.address);
    else if (message.kind === "works") works.paint(message.works);
    else if (message.kind === "stations") showStations(message);
  },
});
const tell = (edit) => {
  refuse();
  link.tell(edit);
};
const works = new Works(tell);

function showStations({ place, ready, html = "" }) {
  const found = node("found");
  if (!ready || !html) {
    found.replaceChildren();
    return;
  }
  const before = found.querySelector("#choice input")?.value ?? "";
  found.innerHTML = html;
  found.querySelector("#choice input").value = before || place.replace(/\.toml$/, "-station.toml");
  found.querySelector("#choice").addEventListener("submit", (event) => event.preventDefault());
  found.querySelectorAll("[data-choose]").forEach((button) =>
    button.addEventListener("click", () =>
      tell({ kind: "seek", action: "choose", number: +button.dataset.choose, name: found.querySelector("#choice input").value }),
    ),
  );
  found.querySelector("#blank").addEventListener("click", () => tell({ kind: "seek", action: "blank", name: "prices.csv" }));
  found.dispatchEvent(new CustomEvent("written", { bubbles: true }));
  new Readers(found.querySelectorAll("[data-picture]"));
}

// What a shape has no use for is put away.
function suit() {
  const shape = node("begin").elements.shape.value;
  const nests = ["hexagon", "two-band-dipole"].includes(shape);
  for (const each of node("begin").querySelectorAll("[data-for]")) {
    each.hidden = each.dataset.for === "tubes" ? shape !== "" : !nests;
  }
}

// What was typed is still there when the page was left, or read anew.
function keep(form) {
  const name = `boomwright-${form.id}`;
  const kept = JSON.parse(sessionStorage.getItem(name) ?? "{}");
  for (const [key, text] of Object.entries(kept)) {
    const field = form.elements[key];
    if (!field) continue;
    if (field.value !== text && field.closest("details")) field.closest("details").open = true;
    field.value = text;
  }
  form.addEventListener("input", () => sessionStorage.setItem(name, JSON.stringify(Object.fromEntries(new FormData(form)))));
}

if (node("begin")) {
  ["begin", "seek"].map(node).forEach(keep);
  suit();
  node("begin").elements.shape.addEventListener("change", suit);
  const begin = (further) => tell({ kind: "begin", name: node("begin").elements.name.value, further, typed: texts(node("begin")) });
  node("begin").addEventListener("submit", (event) => {
    event.preventDefault();
    begin(false);
  });
  node("further")?.addEventListener("click", () => begin(true));
  node("seek").addEventListener("submit", (event) => {
    event.preventDefault();
    tell({ kind: "seek", action: "start", name: node("seek").elements.name.value || "place.toml", typed: texts(node("seek")) });
  });
  document.querySelectorAll("[data-seek]").forEach((button) =>
    button.addEventListener("click", () => tell({ kind: "seek", action: "again", name: button.dataset.seek })),
  );
  for (const map of document.querySelectorAll(".map")) {
    new PlaceMap(map, (place) => {
      node(map.dataset.mapFor).elements.place.value = place;
      node(map.dataset.mapFor).dispatchEvent(new Event("input"));
    });
  }
}
document.querySelectorAll("[data-shelve]").forEach((button) =>
  button.addEventListener("click", () => {
    const { shelve: action, name = "", number = 0 } = button.dataset;
    tell({ kind: "shelve", action, name, number: +number });
  }),
);
node("save-as")?.addEventListener("submit", (event) => {
  event.preventDefault();
  tell({ kind: "shelve", action: "save-as", name: event.target.elements.name.value });
});
node("units").addEventListener("change", () => {
  remember("units", system());
  for (const field of document.querySelectorAll("[data-metric]")) field.placeholder = field.dataset[system()];
  link.tell({ kind: "show", system: system(), narrow: narrow.matches });
});
chooseScheme();
watchKeys();
watchCopies();
