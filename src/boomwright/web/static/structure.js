// The sheets of structure, permits and feed: exact reading of the charts.

import { openSheet } from "/static/sheet.js";
import { Readers } from "/static/reading.js";

function wire() {
  new Readers(document.querySelectorAll(".subject .picture"));
}

const sheet = document.getElementById("sheet");
sheet.addEventListener("written", wire);
wire();

// A value just taken counts as shown, so that the block written anew may replace its field.
function taken({ refusals }) {
  for (const { place, faults } of refusals) {
    const input = place && !faults.length && sheet.querySelector(`[data-place="${CSS.escape(place)}"]`);
    if (input) input.defaultValue = input.value;
  }
}

openSheet({ onQuick: taken });
