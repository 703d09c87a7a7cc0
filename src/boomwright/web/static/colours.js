// The page's colours as numbers, for what is painted and for pictures that leave the page.

const probe = document.createElement("span");
probe.hidden = true;

export function colourText(name) {
  if (!probe.isConnected) document.body.append(probe);
  probe.style.color = `var(--${name})`;
  return getComputedStyle(probe).color;
}

export function colour(name) {
  return colourText(name).match(/[\d.]+/g).slice(0, 3).map(Number);
}

export const mixed = (from, to, share) => from.map((value, i) => Math.round(value + (to[i] - value) * share));

export const rgb = (parts) => `rgb(${parts.join(" ")})`;

// An SVG drawn in the page's variables, with the colours themselves in their place.
export function coloured(svg) {
  return svg.replace(/var\(--([a-z0-9-]+)\)/g, (_, name) => rgbHex(colour(name)));
}

const rgbHex = (parts) => `#${parts.map((value) => value.toString(16).padStart(2, "0")).join("")}`;
