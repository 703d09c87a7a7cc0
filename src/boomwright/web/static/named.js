// Lists of the plan that a sheet adds to and takes out of.

export class NamedLists {
  constructor(sheet) {
    this.sheet = sheet;
    this.send = () => {};
    sheet.addEventListener("click", (event) => {
      const button = event.target.closest(".named button");
      if (!button) return;
      const list = button.closest(".named");
      if (button.dataset.drop === undefined) this.add(list);
      else this.send({ kind: "drop", place: list.dataset.named, number: +button.dataset.drop });
    });
    sheet.addEventListener("keydown", (event) => {
      if (event.key !== "Enter" || !event.target.matches(".named input")) return;
      event.preventDefault();
      this.add(event.target.closest(".named"));
    });
  }

  add(list) {
    const values = {};
    for (const input of list.querySelectorAll("[data-key]")) values[input.dataset.key] = input.value;
    this.send({ kind: "name", place: list.dataset.named, values });
  }

  // A value just taken counts as shown, so that the block written anew may replace its field.
  taken({ refusals }) {
    for (const { place, faults } of refusals) {
      if (!place || faults.length) continue;
      for (const input of this.sheet.querySelectorAll(`[data-place="${CSS.escape(place)}"], [data-named="${CSS.escape(place)}"] input`)) {
        if (input.dataset.place === undefined) input.value = "";
        input.defaultValue = input.value;
      }
    }
  }
}
