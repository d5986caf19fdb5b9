// Form fields with their labels.
import { element } from "./dom.js";

let made = 0; // so that two forms with a field of one name do not share an id

/** `more` stands under the field: what is expected there. */
export function field(name, label, attributes = {}, more = "") {
  const id = `field-${++made}`;
  const input = element(attributes.rows ? "textarea" : "input",
    { id, name, autocomplete: "off", "aria-describedby": more ? `${id}-more` : null, ...attributes });
  return element("p", { class: "field" }, element("label", { for: id }, label), input,
    more ? element("span", { class: "quiet", id: `${id}-more` }, more) : null);
}

export function choice(name, label, options, chosen = "") {
  const id = `field-${++made}`;
  const select = element("select", { id, name },
    options.map(([value, words]) => element("option", { value, selected: value === chosen }, words)));
  return element("p", { class: "field" }, element("label", { for: id }, label), select);
}

/** Which of a pickup's coils; nothing where its only one has no name. */
export function coilChoice(pickup, chosen = "", label = "Which coil") {
  const coils = Object.keys(pickup.coils ?? {});
  return coils.length > 0 ? choice("coil", label, coils.map((coil) => [coil, coil]), chosen) : null;
}

export function tick(name, label, attributes = {}) {
  return element("label", { class: "choice" }, element("input", { type: "checkbox", name, ...attributes }), label);
}

/** What leaves out the sound coils that the history takes for the pickup's set. */
export const judged_alone = "Judge it alone, not beside the other pickups of its owner's instrument";

/** The values of a form's fields by their names. A number that was copied from a page has its unit behind a no-break space. */
export function valuesOf(form) {
  return Object.fromEntries([...new FormData(form)].map(([name, value]) =>
    [name, typeof value === "string" ? value.replaceAll("\u00a0", " ") : value]));
}

/** A form whose `work` is done with its values; what goes wrong is said in `says`. */
export function form(fields, says, work) {
  const made_form = element("form", {}, fields);
  made_form.addEventListener("submit", async (event) => {
    event.preventDefault();
    says.textContent = "";
    try {
      await work(valuesOf(made_form), made_form);
    } catch (error) {
      says.textContent = error.message;
    }
  });
  return made_form;
}

/** The values that are not empty, as a query. A list gives one each. */
export function queryOf(values) {
  const query = new URLSearchParams();
  for (const [name, value] of Object.entries(values))
    for (const each of [value].flat()) if (each) query.append(name, each);
  return query.toString();
}

export function trouble() {
  return element("p", { class: "trouble", role: "alert" });
}
