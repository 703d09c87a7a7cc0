// The sheet of tuning: exact reading of the charts; the fault is asked for once the advice stands;
// how far a fit is, and the button that stops it.

import { openSheet } from "/static/sheet.js";
import { Readers } from "/static/reading.js";

const sheet = document.getElementById("sheet");
const { send, narrow } = openSheet({
  onProgress: ({ share }) => {
    for (const bar of sheet.querySelectorAll("progress")) bar.value = share;
  },
});

function wire() {
  new Readers(document.querySelectorAll(".subject .picture"));
  for (const stop of sheet.querySelectorAll("[data-stop]")) {
    stop.onclick = () => send({ kind: "act", action: "stop" });
  }
  if (!sheet.querySelector("[data-searching]")) return;
  const system = document.querySelector("#units input:checked").value;
  send({ kind: "show", system, narrow: narrow.matches });
}

sheet.addEventListener("written", wire);
wire();
