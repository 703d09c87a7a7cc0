// The numbers behind the figures, and the notices.

function row(cells, tag) {
  const line = document.createElement("tr");
  for (const text of cells) {
    const cell = document.createElement(tag);
    if (tag === "th") cell.scope = "col";
    cell.textContent = text;
    line.append(cell);
  }
  return line;
}

export function table({ caption, columns, rows }) {
  const made = document.createElement("table");
  made.createCaption().textContent = caption;
  made.createTHead().append(row(columns, "th"));
  made.createTBody().append(...rows.map((cells) => row(cells, "td")));
  return made;
}

// A table in a frame of its own, which moves by keys where it is wider than its place.
export function framed(data) {
  const scroll = document.createElement("div");
  scroll.className = "scroll";
  scroll.tabIndex = 0;
  scroll.setAttribute("role", "region");
  scroll.setAttribute("aria-label", data.caption);
  scroll.append(table(data));
  return scroll;
}

export function fillTable(name, data) {
  const place = document.getElementById(`table-${name}`);
  if (!place) return;
  const top = place.scrollTop;
  place.replaceChildren(table(data));
  place.scrollTop = top;
}

export function fillNotices(list, notices) {
  const items = notices.map((notice) => {
    const item = document.createElement("li");
    item.dataset.severity = notice.severity;
    const word = document.createElement("strong");
    word.textContent = notice.severity;
    item.append(word, ` ${notice.text}`);
    if (notice.value) item.append(` Your value: ${notice.value}${notice.limit ? `; limit: ${notice.limit}` : ""}.`);
    if (notice.place?.form) {
      const button = Object.assign(document.createElement("button"), { type: "button", textContent: notice.place.words });
      button.dataset.form = notice.place.form;
      item.append(" ", button);
    } else if (notice.place) {
      const link = document.createElement("a");
      link.href = notice.place.address;
      link.textContent = notice.place.words;
      item.append(" ", link);
    }
    return item;
  });
  if (!items.length) {
    const item = document.createElement("li");
    item.className = "quiet";
    item.textContent = "None.";
    items.push(item);
  }
  list.replaceChildren(...items);
}
