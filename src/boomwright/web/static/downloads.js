// Files made from the plan: how far they are, how long it takes, and a way out. The page stays
// alive meanwhile. Without this script the links work all the same.

import { save } from "/static/exports.js";

const LOOK = 400; // [ms]
const node = (id) => document.getElementById(id);

let underWay = null;

export function watchDownloads() {
  document.addEventListener("click", (event) => {
    const link = event.target.closest("a[download]");
    if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    if (!underWay) make(link.getAttribute("href"), link.textContent.trim());
  });
  node("making-cancel").addEventListener("click", () => underWay?.abort());
}

async function make(address, label) {
  underWay = new AbortController();
  const job = Math.random().toString(36).slice(2, 14) || "0";
  show(label, {});
  const looking = setInterval(async () => {
    const answer = await fetch(`/making.json?job=${job}`).catch(() => null);
    if (answer?.ok && underWay) show(label, await answer.json());
  }, LOOK);
  try {
    const answer = await fetch(`${address}?job=${job}`, { signal: underWay.signal });
    if (!answer.ok) throw new Error(said(await answer.text()));
    save(await answer.blob(), named(answer) ?? address.slice(1));
    node("making").hidden = true;
  } catch (error) {
    if (error.name === "AbortError") node("making").hidden = true;
    else refuse(label, error.message);
  } finally {
    clearInterval(looking);
    underWay = null;
  }
}

function show(label, { share, words, seconds_left: left }) {
  const bar = node("making-bar");
  node("making").hidden = false;
  bar.hidden = false;
  if (share === undefined) bar.removeAttribute("value");
  else bar.value = share;
  node("making-cancel").textContent = "Cancel";
  const rest = left ? `, about ${Math.ceil(left)} s left` : "";
  node("making-text").textContent = `Making: ${label}${words ? ` (${words}${rest})` : ""}`;
}

function refuse(label, reason) {
  node("making").hidden = false;
  node("making-bar").hidden = true;
  node("making-text").textContent = `${label} was not made. ${reason}`;
  node("making-cancel").textContent = "Close";
  node("making-cancel").addEventListener("click", () => (node("making").hidden = true), { once: true });
}

// What the page of a fault says.
function said(html) {
  const page = new DOMParser().parseFromString(html, "text/html");
  return [...page.querySelectorAll("main p, main h1")].map((each) => each.textContent.trim()).join(". ").slice(0, 300);
}

function named(answer) {
  return /filename="([\w.-]+)"/.exec(answer.headers.get("content-disposition") ?? "")?.[1];
}
