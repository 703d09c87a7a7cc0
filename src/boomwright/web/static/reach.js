// The Reach sheet: exact reading of its charts and maps, and the film of the lobes.

import { openSheet } from "/static/sheet.js";
import { Readers } from "/static/reading.js";
import { gridReading } from "/static/gridreading.js";
import { Film } from "/static/film.js";

let film = null;

function wire() {
  film?.stop();
  film = null;
  const pictures = [...document.querySelectorAll(".reach .picture")];
  const maps = pictures.filter((picture) => gridReading(picture));
  new Readers(pictures.filter((picture) => !maps.includes(picture)));
  const place = document.getElementById("film");
  const map = document.querySelector("#fig-height-map svg");
  if (place && map) film = new Film(place, map);
}

const sheet = document.getElementById("sheet");
sheet.addEventListener("written", wire);
wire();

// A value just taken counts as shown, so that the block written anew may replace its field.
function taken({ refusals }) {
  for (const { place, faults } of refusals) {
    if (!place || faults.length) continue;
    for (const input of sheet.querySelectorAll(`[data-place="${CSS.escape(place)}"], [data-named="${CSS.escape(place)}"] input`)) {
      if (input.dataset.place === undefined) input.value = "";
      input.defaultValue = input.value;
    }
  }
}

const { send } = openSheet({ onQuick: taken });

function add(list) {
  const values = {};
  for (const input of list.querySelectorAll("[data-key]")) values[input.dataset.key] = input.value;
  send({ kind: "name", place: list.dataset.named, values });
}

sheet.addEventListener("click", (event) => {
  const button = event.target.closest(".named button");
  if (!button) return;
  const list = button.closest(".named");
  if (button.dataset.drop === undefined) add(list);
  else send({ kind: "drop", place: list.dataset.named, number: +button.dataset.drop });
});

sheet.addEventListener("keydown", (event) => {
  if (event.key !== "Enter" || !event.target.matches(".named input")) return;
  event.preventDefault();
  add(event.target.closest(".named"));
});
