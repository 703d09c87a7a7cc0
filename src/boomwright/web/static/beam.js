// The Beam sheet: patterns, sweep and currents, read and repainted.

import { openSheet } from "/static/sheet.js";
import { Readers } from "/static/reading.js";
import { Improve } from "/static/improve.js";
import { fillTable, fillNotices } from "/static/tables.js";

const readers = new Readers(document.querySelectorAll(".picture"));

let improve = null;
const { propose, tell, beam } = openSheet({
  onBehind: () => readers.markBehind(),
  onQuick: (message) => readers.paint(message),
  onImprove: (message) => improve?.paint(message),
  onFull: (message) => {
    if (!message.figures) return;
    readers.paint(message);
    for (const [name, table] of Object.entries(message.tables)) fillTable(name, table);
    fillNotices(document.getElementById("notice-list"), message.notices);
    improve?.changed();
  },
});
improve = new Improve({ propose, tell, beam, readers });
