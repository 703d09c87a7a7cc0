// The Reach sheet: exact reading of its charts and maps, and the film of the lobes.

import { openSheet, taken } from "/static/sheet.js";
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

openSheet({ onQuick: taken });
