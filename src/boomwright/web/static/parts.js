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
  addEventListener("beforeprint", () => {
    for (const part of document.querySelectorAll("details.part")) part.open = true;
  });
}
