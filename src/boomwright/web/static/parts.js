// Parts of a sheet that unfold: a link opens its part, paper shows them all, a picture opens large.

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

// A picture over the whole window; Escape or a click anywhere closes it.
function openLarge(picture) {
  const drawn = picture.querySelector(".drawing svg");
  if (!drawn) return;
  const large = document.createElement("dialog");
  large.className = "large-picture";
  large.setAttribute("aria-label", drawn.getAttribute("aria-label") ?? "Picture");
  const close = document.createElement("button");
  close.type = "button";
  close.textContent = "Close";
  large.append(close, drawn.cloneNode(true));
  large.addEventListener("click", () => large.close());
  large.addEventListener("close", () => large.remove());
  document.body.append(large);
  large.showModal();
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
  addEventListener("beforeprint", () => {
    for (const part of document.querySelectorAll("details.part")) part.open = true;
  });
}
