// A figure or a table on the clipboard: pictures as PNG, tables as cells a spreadsheet takes.

import { svgToPng } from "/static/exports.js";

function cells(table) {
  return [...table.rows].map((row) => [...row.cells].map((cell) => cell.innerText.trim().replace(/\s+/g, " ")).join("\t")).join("\n");
}

async function copied(button, work) {
  const before = button.textContent;
  try {
    await work();
    button.textContent = "Copied";
  } catch {
    button.textContent = "The browser does not allow it";
  }
  setTimeout(() => (button.textContent = before), 2000);
}

// Every table in a frame of its own gets a key; those written later too.
function addKeys() {
  for (const scroll of document.querySelectorAll("#sheet .scroll:not([data-copies]), #found .scroll:not([data-copies])")) {
    if (!scroll.querySelector("table")) continue;
    scroll.dataset.copies = "";
    const button = document.createElement("button");
    button.type = "button";
    button.className = "copy-table";
    button.dataset.copyTable = "";
    button.textContent = "Copy table";
    button.setAttribute("aria-label", `Copy table: ${scroll.getAttribute("aria-label") ?? ""}`);
    scroll.after(button);
  }
}

export function watchCopies() {
  addKeys();
  for (const event of ["written", "toggle"]) document.addEventListener(event, addKeys, true);
  document.addEventListener("click", (event) => {
    const table = event.target.closest("[data-copy-table]");
    if (table) copied(table, () => navigator.clipboard.writeText(cells(table.previousElementSibling.querySelector("table"))));
    const picture = event.target.closest("[data-copy]");
    if (!picture) return;
    const svg = picture.closest("[data-picture]").querySelector(".drawing svg");
    if (svg) copied(picture, () => navigator.clipboard.write([new ClipboardItem({ "image/png": svgToPng(svg) })]));
  });
}
