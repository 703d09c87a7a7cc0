// What a page shows is written only where it differs: what stays need not be laid out and painted.

export function write(node, text) {
  if (node.textContent !== `${text}`) node.textContent = text;
}

export function set(node, name, value) {
  if (node.getAttribute(name) !== `${value}`) node.setAttribute(name, value);
}

// A property of an input, such as its value or a limit.
export function put(input, name, value) {
  if (`${input[name]}` !== `${value}`) input[name] = value;
}
