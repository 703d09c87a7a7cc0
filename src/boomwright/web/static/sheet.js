// What stands around every sheet, wired to the socket: plan view, fields, sliders, four numbers,
// undo and saving. A sheet's own module calls openSheet with what it paints itself.

import { Link } from "/static/link.js";
import { Handles } from "/static/handles.js";
import { Fields, sentence } from "/static/fields.js";
import { PlanForms } from "/static/forms.js";
import { PriceList } from "/static/prices.js";
import { Numbers } from "/static/numbers.js";
import { Desk } from "/static/desk.js";
import { Slider } from "/static/sliders.js";
import { STEPS } from "/static/lengths.js";
import { savePictures } from "/static/exports.js";
import { Proposals } from "/static/proposals.js";
import { watchCopies } from "/static/copying.js";
import { watchTicks } from "/static/ticks.js";
import { watchKeys } from "/static/keys.js";
import { redraw } from "/static/redraw.js";
import { Busy } from "/static/busy.js";
import { Works } from "/static/works.js";
import { set, write } from "/static/writing.js";
import { watchDownloads } from "/static/downloads.js";
import { showPlace, watchParts } from "/static/parts.js";

const node = (id) => document.getElementById(id);

// onQuick(message): follows the hand; onFull(message): when it pauses. Both after the frame.
export function openSheet({ onQuick = () => {}, onFull = paintBlock, onBehind = () => behind(true), onImprove = () => {}, onProgress = () => {} } = {}) {
  const bench = node("bench");
  const beam = +bench.dataset.beam;
  const narrow = matchMedia("(max-width: 760px)");
  let system = document.querySelector("#units input:checked").value;
  let tuned = null;
  let link = null;
  const busy = new Busy(bench);
  const works = new Works((edit) => link.tell(edit));
  const proposals = new Proposals({ tell: (edit) => link.tell(edit), send: (edit) => link.send(edit) });

  const send = (edit, options) => {
    if (edit.kind === "tune") tuned = edit;
    link.send(edit, options);
  };
  const handles = new Handles({ drawing: node("fig-plan-view"), layer: node("handles"), beam, send });
  const fields = new Fields(bench, send);
  const forms = new PlanForms({ send, beam, slug: bench.dataset.slug });
  const prices = node("price-list") && new PriceList({ send, beam });
  const numbers = new Numbers(node("numbers"), node("spoken"));
  const desk = new Desk({
    send,
    tell: (edit) => link.tell(edit),
    onUnits: (units) => {
      showSteps(units);
      send({ kind: "show", system: units, narrow: narrow.matches });
    },
  });
  // A slider stands only on the sheets where it acts.
  const slider = (name, edit) => node(`${name}-range`) && new Slider(name, { fields, send, edit });
  const frequency = slider("frequency", (value) => ({ kind: "tune", frequency: value }));
  const height = slider("height", (value) => ({ kind: "raise", beam, height: value }));

  // Tables and prices to be changed are read anew once a hand rests, not at every step of a drag.
  let listed = +bench.dataset.revision;
  function list(revision) {
    if (listed === revision) return;
    listed = revision;
    forms.list();
    prices?.list();
  }

  function paintQuick(message) {
    const refused = paintRefusals(message, fields, [forms, prices]);
    if (message.beams !== +bench.dataset.beams) {
      // A beam came or went: what is around the sheet is drawn anew, with a beam that there is.
      location.assign(beam < message.beams ? location.href : location.pathname);
      return;
    }
    system = message.system;
    showSteps(system);
    paintElements(message.elements, fields);
    if (!link.busy && message.plan_view) handles.paint(message.plan_view, message.elements, system);
    if (refused) handles.settle();
    if (message.numbers) numbers.paint(message.numbers, !message.moving);
    frequency?.paint(message.frequency);
    height?.paint(message.height);
    write(node("title"), message.title);
    if (+bench.dataset.revision !== message.revision) {
      onBehind();
      set(node("bands"), "data-behind", "");
      busy.start();
    }
    // While a hand moves the drawing is not sent along.
    if (message.plan_view) list(message.revision);
    bench.dataset.revision = message.revision;
    desk.unjudged(message.revision);
    desk.paint(message);
    onQuick(message);
  }

  function paintFull(message) {
    if (message.revision !== +bench.dataset.revision) return;
    busy.done();
    list(message.revision);
    if (node("fig-mast-view") && message.mast_view) redraw(node("fig-mast-view"), message.mast_view);
    if (message.faults.length) paintFaults(message.faults);
    if (!link.busy) handles.paint(message.plan_view, message.elements, message.system);
    if (message.numbers) numbers.paint(message.numbers, true);
    if (message.bands) paintBands(message.bands);
    onFull(message);
  }

  function paintVerdict(message) {
    if (message.verdict.revision !== +bench.dataset.revision) return;
    desk.judged(message.verdict);
    desk.marks(message.marks);
  }

  // A click on a beam shows it, as its link below does.
  node("fig-mast-view")?.addEventListener("click", (event) => {
    const beam = event.target.closest("[data-beam]")?.dataset.beam;
    if (beam !== undefined) location.assign(`?of=${beam}`);
  });
  savePictures(bench);
  watchKeys();
  watchTicks((edit) => link.tell(edit));
  watchCopies();
  watchParts();
  watchDownloads();
  // In a narrow window the sheet itself comes first; the plan view is one tap away.
  const fold = () => {
    node("fold").open = !narrow.matches || bench.dataset.slug === "beam";
  };
  fold();
  narrow.addEventListener("change", fold);
  const query = new URLSearchParams({ of: beam, narrow: +narrow.matches });
  const other = new URL(location).searchParams.get("with");
  if (other) query.set("with", other);
  narrow.addEventListener("change", () => send({ kind: "show", system, narrow: narrow.matches }));
  link = new Link(`/${bench.dataset.slug}/live?${query}`, {
    onState: (online) => {
      desk.online(online);
      if (online && tuned && !link?.waiting.length) link?.send(tuned);
    },
    onMessage: (message, entry) => {
      if (message.kind === "quick") {
        paintQuick(message);
        measure(entry);
      } else if (message.kind === "full") paintFull(message);
      else if (message.kind === "verdict") paintVerdict(message);
      else if (message.kind === "saving") desk.paint(message);
      else if (message.kind === "moved") location.assign(message.address);
      else if (message.kind === "proposal") proposals.paint(message);
      else if (message.kind === "works") works.paint(message.works);
      else if (message.kind === "shelf") paintFaults([{ message: message.refused, remedy: "" }]);
      else if (message.kind === "improve") onImprove(message);
      else if (message.kind === "progress") onProgress(message);
      else if (message.kind === "refused") paintFaults([{ message: message.message, remedy: "" }]);
      // How far what is shown has come: what else is told, such as that the plan is saved, changes nothing of it.
      if (["quick", "full"].includes(message.kind)) bench.dataset.painted = message.kind;
    },
  });
  return { send, propose: (edit) => proposals.show(edit), tell: (edit) => link.tell(edit), beam, narrow };
}

// A value just taken counts as shown, so that the block written anew may replace its field.
export function taken({ refusals }) {
  for (const { place, faults } of refusals) {
    const input = place && !faults.length && node("sheet").querySelector(`[data-place="${CSS.escape(place)}"]`);
    if (input) input.defaultValue = input.value;
  }
}

// The sheet's block as the server wrote it; typing, the focus and what was unfolded are kept.
function paintBlock(message) {
  if (message.block === undefined) return;
  const sheet = node("sheet");
  const active = sheet.contains(document.activeElement) ? document.activeElement : null;
  if (active?.matches("input, textarea, select") && active.value !== active.defaultValue) return;
  const { id, dataset: { place, form } = {} } = active ?? {};
  const named = (fold) => fold.id || fold.querySelector("summary")?.textContent;
  const open = new Set([...sheet.querySelectorAll("details[open]")].map(named));
  sheet.innerHTML = message.block;
  behind(false);
  for (const each of sheet.querySelectorAll("details")) {
    if (open.has(named(each))) each.open = true;
  }
  const same = (id && node(id)) || (place && sheet.querySelector(`[data-place="${CSS.escape(place)}"]`)) || (form && sheet.querySelector(`[data-form="${CSS.escape(form)}"]`));
  // What was in focus may be gone, such as a button whose form was written: then the sheet is.
  if (active) (same || sheet).focus({ preventScroll: true });
  sheet.dispatchEvent(new CustomEvent("written", { bubbles: true }));
  showPlace();
}

// What stands on the sheet is from before the last change of the plan.
const behind = (yes) => node("sheet").toggleAttribute("data-behind", yes);

// The further bands of the beam, a line each.
function paintBands(bands) {
  const list = node("bands");
  list.hidden = !bands.length;
  delete list.dataset.behind;
  list.replaceChildren(...bands.map((words) => {
    const row = document.createElement("div");
    row.append(...["dt", "dd"].map((tag, i) => Object.assign(document.createElement(tag), { textContent: words[i] })));
    return row;
  }));
}

function showSteps(units) {
  ["step", "fine", "coarse"].forEach((id, i) => write(node(id), STEPS[units].words[i]));
}

function paintFaults(faults) {
  node("faults").hidden = !faults.length;
  node("faults").replaceChildren(
    ...faults.map((fault) => {
      const line = document.createElement("p");
      line.textContent = sentence(fault);
      return line;
    }),
  );
}

function paintRefusals(message, fields, askers) {
  const loose = [...message.faults];
  for (const answer of message.refusals) {
    const { place, faults } = answer;
    if (!askers.some((each) => each?.answered(answer)) && !fields.refuse(place, faults)) loose.push(...faults);
  }
  paintFaults(loose);
  return loose.length > message.faults.length;
}

function paintElements(rows, fields) {
  const bodies = document.querySelectorAll("#dimensions tbody");
  const shape = (row) => row.tubes.length;
  const drawn = [...bodies].map((body) => body.querySelectorAll("li").length);
  if (rows.length !== bodies.length || rows.some((row, i) => shape(row) !== drawn[i])) {
    // Elements came or went (the file was changed elsewhere, or that was undone): draw anew.
    location.reload();
    return;
  }
  rows.forEach((row, i) => {
    const head = bodies[i].querySelector("th");
    write(head, row.label);
    for (const field of [row.at, row.tip_to_tip, ...row.tubes.flat()]) fields.show(field.place, field.text);
  });
}

// How long a change took to be seen, kept where a benchmark can read it.
function measure(entry) {
  if (!entry?.gesture) return;
  requestAnimationFrame(() => {
    const channel = new MessageChannel();
    channel.port1.onmessage = () => {
      performance.measure("edit-to-repaint", { start: entry.at, end: performance.now() });
      if (performance.getEntriesByName("edit-to-repaint").length > 2000) performance.clearMeasures("edit-to-repaint");
    };
    channel.port2.postMessage(0);
  });
}
