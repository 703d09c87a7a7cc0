// Put a newly drawn picture in the place of the old one, touching only what differs: frame,
// rings and lettering mostly stay, and what stays need not be laid out and painted again.

const parser = document.createElement("template");

export function redraw(holder, svg) {
  parser.innerHTML = svg;
  const [now] = parser.content.children;
  const [old] = holder.children;
  if (old && now && holder.children.length === 1) follow(old, now);
  else holder.replaceChildren(parser.content);
}

function follow(old, now) {
  if (old.isEqualNode(now)) return;
  const alike = old.nodeName === now.nodeName && old.childNodes.length === now.childNodes.length;
  if (!alike || old.nodeType !== Node.ELEMENT_NODE) {
    old.replaceWith(now);
    return;
  }
  for (const { name } of [...old.attributes]) if (!now.hasAttribute(name)) old.removeAttribute(name);
  for (const { name, value } of now.attributes) if (old.getAttribute(name) !== value) old.setAttribute(name, value);
  [...now.childNodes].forEach((child, i) => follow(old.childNodes[i], child));
}
