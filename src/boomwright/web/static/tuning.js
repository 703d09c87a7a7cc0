// The sheet of tuning: takes a sweep; exact reading of the charts; the fault is asked for once the
// advice stands; how far a fit is, and the button that stops it.

import { openSheet, taken } from "/static/sheet.js";
import { Readers } from "/static/reading.js";
import { SweepTaker } from "/static/sweeps.js";

const sheet = document.getElementById("sheet");
const { send, narrow, beam } = openSheet({
  onQuick: taken,
  onProgress: ({ share }) => {
    for (const bar of sheet.querySelectorAll("progress")) bar.value = share;
  },
});

const taker = new SweepTaker(beam);

function wire() {
  taker.wire();
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
