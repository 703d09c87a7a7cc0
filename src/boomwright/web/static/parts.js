// Parts of a sheet that unfold: a link opens its part, paper shows them all, a picture opens large.

import { Zoom } from "/static/zoom.js";

let shown = "";

// Opens what the address names; once for each address, so that a part may be folded again.
export function showPlace() {
  if (shown === location.href) return;
  const place = document.getElementById(decodeURIComponent(location.hash.slice(1)));
  if (!place) return;
  shown = location.href;
  for (let fold = place.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
  place.scrollIntoView();
}

// A picture over the whole window, enlarged by keys, wheel or two fingers and moved by a drag.
function openLarge(picture) {
  const drawn = picture.querySelector(".drawing svg");
  if (!drawn) return;
  const large = document.createElement("dialog");
  large.className = "large-picture";
  const name = drawn.getAttribute("aria-label") ?? drawn.querySelector("title")?.textContent ?? "Picture";
  large.setAttribute("aria-label", name);
  const area = document.createElement("div");
  area.className = "area";
  area.tabIndex = 0;
  area.setAttribute("role", "group");
  area.setAttribute("aria-label", `${name}: + and − change the size, 0 shows all of it, a drag moves it`);
  area.append(drawn.cloneNode(true));
  const zoom = new Zoom(area);
  const keys = document.createElement("div");
  keys.className = "pair";
  const acts = { Close: () => large.close(), Nearer: () => zoom.by(0.7), Further: () => zoom.by(1 / 0.7), "All of it": () => zoom.back() };
  for (const [words, act] of Object.entries(acts)) {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = words;
    button.addEventListener("click", act);
    keys.append(button);
  }
  large.append(keys, area);
  large.addEventListener("close", () => large.remove());
  document.body.append(large);
  large.showModal();
  area.focus();
}

export function watchParts() {
  showPlace();
  addEventListener("hashchange", showPlace);
  document.addEventListener("click", (event) => {
    const link = event.target.closest('a[href*="#"]');
    // The same address a second time is no change of it.
    if (link && link.href === location.href) {
      shown = "";
      showPlace();
    }
  });
  document.addEventListener("click", (event) => {
    const picture = event.target.closest("[data-large]")?.closest("[data-picture]");
    if (picture) openLarge(picture);
  });
  // Paper shows what is folded; afterwards it is folded again.
  let unfolded = [];
  addEventListener("beforeprint", () => {
    unfolded = [...document.querySelectorAll("#sheet details:not([open]), #fold:not([open])")];
    for (const part of unfolded) part.open = true;
  });
  addEventListener("afterprint", () => {
    for (const part of unfolded) part.open = false;
  });
}
