// The sheet of tuning: exact reading of the charts; the fault is asked for once the advice stands.

import { openSheet } from "/static/sheet.js";
import { Readers } from "/static/reading.js";

const sheet = document.getElementById("sheet");
const { send, narrow } = openSheet();

function wire() {
  new Readers(document.querySelectorAll(".subject .picture"));
  if (!sheet.querySelector("[data-searching]")) return;
  const system = document.querySelector("#units input:checked").value;
  send({ kind: "show", system, narrow: narrow.matches });
}

sheet.addEventListener("written", wire);
wire();
