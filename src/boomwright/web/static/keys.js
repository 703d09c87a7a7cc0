// The map of keys, opened by a question mark.

export function watchKeys() {
  const box = document.getElementById("keys-map");
  const show = () => (box.open ? box.close() : box.showModal());
  document.getElementById("keys-open").addEventListener("click", show);
  document.getElementById("keys-close").addEventListener("click", () => box.close());
  document.addEventListener("keydown", (event) => {
    if (event.key !== "?" || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.target.matches?.("input, textarea, select")) return;
    event.preventDefault();
    show();
  });
}
