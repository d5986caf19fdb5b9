// Elements from plain descriptions. Text is always set as text, never as markup.

const before_unit = /(\d) (?=(?:%|°C|AWG|[TGMkmµnp]?(?:Ω|Hz|H|F|V|m|s|g))(?![\p{L}\p{N}]))/gu;

/** A number stays on one line with its unit. */
export function unbroken(text) {
  return text.replace(before_unit, "$1\u00a0");
}

/** element("p", { class: "quiet" }, "text", anotherElement, null) */
export function element(name, attributes = {}, ...children) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    if (key.startsWith("on")) made.addEventListener(key.slice(2), value);
    else if (key === "value") made.value = value;
    else made.setAttribute(key, value === true ? "" : value);
  }
  made.append(...children.flat(Infinity).filter((child) => child !== null && child !== undefined)
    .map((child) => (typeof child === "string" && name !== "pre" ? unbroken(child) : child)));
  return made;
}

/** A drawing that the server made, as a node of this document. */
export function drawing(svg, words) {
  const parsed = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
  const node = document.importNode(parsed, true);
  node.setAttribute("role", "img");
  node.setAttribute("aria-label", words);
  return node;
}

const svgNames = "http://www.w3.org/2000/svg";

/** The same for a drawing made here. */
export function svg(name, attributes = {}, ...children) {
  const made = document.createElementNS(svgNames, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.append(...children);
  return made;
}

/** A list with a heading above it; nothing where there is nothing to list. */
export function listed(title, items, attributes = {}) {
  if (items.length === 0) return null;
  return element("section", attributes, element("h3", {}, title),
    element("ul", {}, items.map((item) => element("li", {}, item))));
}

/** [[name, value], …] as a list of terms; what has no value is left out. */
export function terms(rows, attributes = {}) {
  return element("dl", attributes, rows.filter(([, value]) => value)
    .map(([name, value]) => [element("dt", {}, name), element("dd", {}, value)]));
}

export function local(moment) {
  return new Date(moment).toLocaleString([], { dateStyle: "medium", timeStyle: "short" });
}
