// The Plans sheet: open, save as, wishes, lessons.

import { openSheet } from "/static/sheet.js";

const node = (id) => document.getElementById(id);

function refuse(text) {
  node("refusal").hidden = !text;
  node("refusal").textContent = text;
}

const { tell } = openSheet({
  onShelf: (message) => {
    if (message.kind === "shelf") {
      node("job")?.setAttribute("hidden", "");
      refuse(message.refused);
    } else if (message.kind === "job") progress(message);
    else offer(message.offers);
  },
});

function progress({ done, of, seconds_left: left }) {
  node("job").hidden = done === of;
  node("job-bar").value = of ? done / of : 0;
  node("job-text").textContent = `${done} of ${of} computed${left ? `, about ${Math.ceil(left)} s left` : ""}`;
}

function offer(offers) {
  const cards = offers.map((one, number) => {
    const card = document.createElement("li");
    const head = document.createElement("h3");
    head.textContent = one.label;
    const pictures = document.createElement("div");
    pictures.className = "drawing";
    pictures.innerHTML = one.plan_view + one.elevation;
    const list = document.createElement("dl");
    for (const { label, value, unit, band } of one.numbers) {
      const term = document.createElement("dt");
      term.textContent = label;
      const words = document.createElement("dd");
      words.textContent = `${value} ${unit} ${band}`;
      list.append(term, words);
    }
    const form = document.createElement("form");
    const name = document.createElement("input");
    name.type = "text";
    name.required = true;
    name.maxLength = 64;
    name.setAttribute("aria-label", `File name for ${one.label}`);
    name.placeholder = "name.toml";
    const button = document.createElement("button");
    button.textContent = "Take this one";
    form.append(name, button);
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      refuse("");
      tell({ kind: "shelve", action: "choose", name: name.value, number });
    });
    const kept = document.createElement("p");
    kept.textContent = `${one.words[0].toUpperCase()}${one.words.slice(1)}.`;
    const price = document.createElement("p");
    price.textContent = `${one.price[0].toUpperCase()}${one.price.slice(1)}.`;
    card.append(head, pictures, list, kept, price, form);
    return card;
  });
  node("offers").replaceChildren(...cards);
  node("offers").querySelector("input")?.focus();
}

document.querySelectorAll("[data-shelve]").forEach((button) =>
  button.addEventListener("click", () => {
    refuse("");
    tell({ kind: "shelve", action: button.dataset.shelve, name: button.dataset.name });
  }),
);
node("save-as")?.addEventListener("submit", (event) => {
  event.preventDefault();
  refuse("");
  tell({ kind: "shelve", action: "save-as", name: event.target.elements.name.value });
});
node("wishes")?.addEventListener("submit", (event) => {
  event.preventDefault();
  refuse("");
  tell({ kind: "ask", ...Object.fromEntries(new FormData(event.target)) });
});
node("job-cancel")?.addEventListener("click", () => tell({ kind: "shelve", action: "cancel" }));
