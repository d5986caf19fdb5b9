// One pickup: its visits, its readings over time, before and after, pictures, notes; and the beginning of an examination.
import { element, terms } from "./dom.js";
import { coilChoice, field, form, judged_alone, tick, trouble } from "./fields.js";
import { get, send } from "./server.js";
import { overTime } from "./over_time.js";
import { comparisonShown } from "./comparison.js";
import { jointShown } from "./joint.js";
import { picturesShown } from "./pictures.js";
import { visitsShown } from "./visits.js";

function facts(pickup) {
  const coils = pickup.coil_model ?? Object.entries(pickup.coils ?? {}).map(([name, model]) => `${name}: ${model}`).join(", ");
  const rows = [["Number", String(pickup.number)], ["Instrument", pickup.instrument], ["Owner", pickup.owner],
    ["Type", pickup.pickup_type], ["Coil model", coils]];
  return terms(rows);
}

function beginForm(pickup) {
  const says = trouble();
  return [form([
    coilChoice(pickup),
    field("complaint", "What its owner complains of"),
    field("stage", "Stage of the work", { placeholder: "as received" }),
    field("temperature", "Temperature of the coil, °C", { type: "number", step: "0.1", min: "-40", max: "125" },
      "It is asked for where this is empty."),
    tick("rewound", "The winding is new since the visit before"),
    tick("alone", judged_alone),
    element("button", { class: "ready" }, "Begin the examination"),
  ], says, async ({ temperature, rewound, alone, ...rest }) => {
    const body = { pickup: pickup.number, ...rest, rewound: rewound === "on", alone: alone === "on" };
    if (temperature) body.temperature = Number(temperature);
    await send("POST", "/api/bench/examination", body);
    location.hash = "#/bench";
  }), says];
}

/** Fields that are changed in place; what stood there stays in the history. */
function editForm(pickup, fields, keep, kept) {
  const said = element("p", { role: "status" });
  const says = trouble();
  return [form([fields, element("button", { class: "plain" }, keep)], says, async (values) => {
    said.textContent = "";
    await send("PATCH", `/api/pickups/${pickup.number}`, values);
    said.textContent = kept;
  }), said, says];
}

function notesForm(pickup) {
  return editForm(pickup, [field("notes", "Notes", { rows: 4, value: pickup.notes })], "Keep the notes", "The notes are kept.");
}

function labelForm(pickup) {
  return element("details", { class: "screen" }, element("summary", {}, "Correct its label"), editForm(pickup, [
    field("name", "What is written on its label", { required: true, value: pickup.name }),
    field("instrument", "Instrument", { value: pickup.instrument }),
    field("owner", "Owner", { value: pickup.owner }),
  ], "Keep the label", "The label is kept."));
}

export async function showPickup(main, { bench, found, signal }) {
  const place = element("div", {});
  const refresh = async () => {
    const { pickup, visits } = await get(`/api/pickups/${found[1]}`);
    document.title = `${pickup.name} – Coilward`;
    place.replaceChildren(element("h1", {}, pickup.name), facts(pickup),
      element("div", { class: "buttons" },
        element("a", { class: "button plain", href: `#/pickups/${pickup.number}/rewind` }, "Plan or confirm a rewind"),
        element("button", { type: "button", class: "plain", onclick: () => window.print() }, "Print the bench card")),
      element("div", { class: "bench work" },
        element("div", {},
          element("section", { class: "screen" }, element("h2", {}, "Examine it"), beginForm(pickup)),
          picturesShown(pickup, refresh),
          element("section", { class: pickup.notes ? null : "screen" }, element("h2", {}, "Notes"),
            element("p", { class: "printed" }, pickup.notes), notesForm(pickup), labelForm(pickup))),
        element("div", {}, jointShown(pickup, visits, refresh), overTime(visits), comparisonShown(pickup, visits), visitsShown(pickup, visits))));
  };
  main.append(place);
  await refresh();
  // What another device has changed is shown at once, but not under the hands of somebody who types here.
  bench.addEventListener("pickups", () => {
    if (!place.contains(document.activeElement) || document.activeElement.closest("form, dialog") === null) refresh();
  }, { signal });
}
