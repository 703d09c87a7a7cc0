// Boxes that tick, kept beside the plan.

export function watchTicks(tell) {
  document.addEventListener("change", (event) => {
    const box = event.target.closest?.("input[data-tick]");
    if (box) tell({ kind: "tick", what: box.dataset.tick, done: box.checked });
  });
}
