// The sheets of structure and permits: exact reading of the charts, and fixes taken with one key.

import { openSheet } from "/static/sheet.js";
import { Readers } from "/static/reading.js";

function wire() {
  new Readers(document.querySelectorAll(".subject .picture"));
}

const sheet = document.getElementById("sheet");
sheet.addEventListener("written", wire);
wire();
const { send } = openSheet();

sheet.addEventListener("click", (event) => {
  const button = event.target.closest(".changes button");
  if (!button) return;
  const { beam, element, number } = button.dataset;
  for (const other of sheet.querySelectorAll(".changes button")) other.disabled = true;
  send({ kind: "strengthen", beam: +beam, element: +element, number: +number });
});
