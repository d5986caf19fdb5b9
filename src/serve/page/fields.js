// Form fields with their labels.
import { element } from "./dom.js";

export function field(name, label, attributes = {}) {
  const input = element(attributes.rows ? "textarea" : "input", { id: name, name, ...attributes });
  return element("p", { class: "field" }, element("label", { for: name }, label), input);
}

export function choice(name, label, options, chosen = "") {
  const select = element("select", { id: name, name },
    options.map(([value, words]) => element("option", { value, selected: value === chosen }, words)));
  return element("p", { class: "field" }, element("label", { for: name }, label), select);
}

/** The values of a form's fields by their names. */
export function valuesOf(form) {
  return Object.fromEntries(new FormData(form));
}
