// A pickup of several coils: what was read of all of them together, and how they are joined.
import { element } from "./dom.js";
import { choice, field, form, judged_alone, tick, trouble } from "./fields.js";
import { DiagnosisFace } from "./diagnosis.js";
import { get, send } from "./server.js";

const heading_id = "joint";

function coilLine(name, { words, notes }, verdict) {
  return element("li", {}, element("strong", {}, `${name} coil: `), words.headline,
    verdict.coil === name ? element("strong", {}, " – the worst that was found") : null,
    notes.length > 0 ? element("details", {}, element("summary", {}, `Notes on the ${name} coil`),
      element("ul", {}, notes.map((note) => element("li", {}, note)))) : null);
}

function wholeForm(pickup, refresh) {
  const says = trouble();
  return element("details", { class: "screen" }, element("summary", {}, "Keep what was read of both together"), form([
    field("dc_resistance", "DC resistance of the whole", {}, "Across the pickup's own leads, as 8.08k or 8.08k±4; over-range where the meter shows no number."),
    field("inductance", "Series inductance of the whole at 1 kHz", {}, "In henry, as 3.36 or 3.36±0.01."),
    choice("polarity", "Kick of the whole", [["", "not looked at"], ["as_expected", "as expected"], ["reversed", "the other way"], ["none", "no kick at all"]]),
    element("button", { class: "ready" }, "Keep these readings"),
  ], says, async (values) => {
    await send("POST", `/api/pickups/${pickup.number}/whole`, values);
    await refresh();
    document.getElementById(heading_id)?.focus(); // the form under the hands is gone; its answer stands here
  }), says);
}

/** Nothing where there is one coil, or nothing was read of any on the latest visit. */
export function jointShown(pickup, visits, refresh) {
  const read = visits.at(-1)?.readings.some(({ quantity }) => quantity !== "temperature");
  if (Object.keys(pickup.coils ?? {}).length < 2 || !read) return null;
  const says = trouble();
  const coils = element("ul", {});
  const whole = new DiagnosisFace();
  const judge = (alone) => get(`/api/pickups/${pickup.number}/joint${alone ? "?alone=on" : ""}`).then((joint) => {
    coils.replaceChildren(...Object.entries(joint.coils).map(([name, coil]) => coilLine(name, coil, joint.verdict)));
    whole.show(joint.whole);
  }).catch((error) => { says.textContent = error.message; });
  judge(false);
  return element("section", {}, element("h2", { id: heading_id, tabindex: "-1" }, "Its coils together"),
    element("div", { class: "screen" }, tick("alone", judged_alone, { onchange: ({ target }) => judge(target.checked) })),
    coils, says, whole.body, wholeForm(pickup, refresh));
}
