// The sheets of structure, permits and feed: exact reading of the charts.

import { openSheet, taken } from "/static/sheet.js";
import { Readers } from "/static/reading.js";

function wire() {
  new Readers(document.querySelectorAll(".subject .picture"));
}

const sheet = document.getElementById("sheet");
sheet.addEventListener("written", wire);
wire();

openSheet({ onQuick: taken });
