// The sheets of structure, permits and feed: exact reading of the charts, fixes and matches taken
// with one key.

import { openSheet, taken } from "/static/sheet.js";
import { Readers } from "/static/reading.js";

function wire() {
  new Readers(document.querySelectorAll(".subject .picture"));
}

const sheet = document.getElementById("sheet");
sheet.addEventListener("written", wire);
wire();

const { send } = openSheet({ onQuick: taken });

sheet.addEventListener("click", (event) => {
  const adopt = event.target.closest("button[data-adopt]");
  if (adopt) {
    adopt.disabled = true;
    send({ kind: "adopt", beam: +adopt.dataset.adopt });
    return;
  }
  const button = event.target.closest(".changes button");
  if (!button) return;
  const { beam, element, number } = button.dataset;
  for (const other of sheet.querySelectorAll(".changes button")) other.disabled = true;
  send({ kind: "strengthen", beam: +beam, element: +element, number: +number });
});
