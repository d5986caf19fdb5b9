// One pickup: its visits, its resistance over time, its notes; and the beginning of an examination.
import { element, local } from "./dom.js";
import { choice, field, valuesOf } from "./fields.js";
import { get, send } from "./server.js";
import { drawOverTime } from "./charts.js";

function facts(pickup) {
  const coils = pickup.coil_model ?? Object.entries(pickup.coils ?? {}).map(([name, model]) => `${name}: ${model}`).join(", ");
  const rows = [["Number", String(pickup.number)], ["Instrument", pickup.instrument], ["Owner", pickup.owner],
    ["Type", pickup.pickup_type], ["Coil model", coils]];
  return element("dl", {}, rows.filter(([, value]) => value)
    .map(([name, value]) => [element("dt", {}, name), element("dd", {}, value)]).flat());
}

function readingRow(reading) {
  return element("tr", { class: reading.corrected ? "corrected" : null },
    element("th", { scope: "row" }, reading.words.what),
    element("td", {}, reading.words.answer, reading.corrected ? " (corrected since)" : ""),
    element("td", {}, reading.words.at_20?.words ?? ""),
    element("td", {}, reading.meter ?? "told"),
    element("td", {}, reading.remark ?? ""));
}

function visitShown(visit) {
  const verdicts = visit.verdicts.slice(-1).map((verdict) =>
    element("p", { class: "headline" }, `${verdict.decided ? "Verdict" : "Not decided; most likely"}: ${verdict.title}, ${verdict.percent}`));
  return element("article", { class: "visit" },
    element("h3", {}, local(visit.at), visit.stage ? ` · ${visit.stage}` : "", visit.rewound ? " · new winding" : ""),
    visit.notes ? element("p", {}, visit.notes) : null,
    ...verdicts,
    element("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": `Readings of ${local(visit.at)}` },
      element("table", {},
        element("thead", {}, element("tr", {},
          ["Reading", "Answer", "At 20 °C", "Meter", "Remark"].map((head) => element("th", { scope: "col" }, head)))),
        element("tbody", {}, visit.readings.map(readingRow)))));
}

/** The DC resistance at 20 °C of each visit, with its standard uncertainty. */
function resistances(visits) {
  return visits.flatMap((visit) => visit.readings.filter((reading) => reading.words.at_20 && !reading.corrected)
    .slice(-1).map((reading) => [new Date(reading.at), [reading.words.at_20.value, reading.words.at_20.standard_uncertainty]]));
}

function chart(visits) {
  const points = resistances(visits);
  if (points.length < 2) return null;
  const place = element("div", { class: "over-time", role: "img",
    "aria-label": "DC resistance at 20 °C over the visits; the tables below have the numbers" });
  requestAnimationFrame(() => drawOverTime(place, points, "ohm"));
  return element("section", {}, element("h2", {}, "DC resistance at 20 °C"), place,
    element("p", { class: "quiet" }, "The band is ± 2 standard uncertainties, with that of the temperature."));
}

function beginForm(pickup, says) {
  const coils = Object.keys(pickup.coils ?? {});
  const form = element("form", { class: "begin" },
    coils.length > 0 ? choice("coil", "Which coil", coils.map((coil) => [coil, coil])) : null,
    field("complaint", "What its owner complains of", { autocomplete: "off" }),
    field("stage", "Stage of the work", { autocomplete: "off", placeholder: "as received" }),
    field("temperature", "Temperature of the coil, °C (it is asked for where this is empty)", { type: "number", step: "0.1", min: "-40", max: "125" }),
    element("label", { class: "choice" }, element("input", { type: "checkbox", name: "rewound" }), "The winding is new since the visit before"),
    element("button", { class: "ready" }, "Begin the examination"));
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const { temperature, rewound, ...rest } = valuesOf(form);
    const body = { pickup: pickup.number, ...rest, rewound: rewound === "on" };
    if (temperature) body.temperature = Number(temperature);
    try {
      await send("POST", "/api/bench/examination", body);
      location.hash = "#/bench";
    } catch (error) {
      says.textContent = error.message;
    }
  });
  return form;
}

function notesForm(pickup, says) {
  const form = element("form", {},
    field("notes", "Notes", { rows: 4, value: pickup.notes }),
    element("button", { class: "plain" }, "Keep the notes"));
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    says.textContent = "";
    try {
      await send("PATCH", `/api/pickups/${pickup.number}`, valuesOf(form));
      says.textContent = "The notes are kept.";
    } catch (error) {
      says.textContent = error.message;
    }
  });
  return form;
}

function records(pickup) {
  const coils = Object.keys(pickup.coils ?? { "": "" });
  return coils.map((coil) => element("a", {
    class: "button plain", target: "_blank", rel: "noopener",
    href: `/api/pickups/${pickup.number}/record?coil=${encodeURIComponent(coil)}`,
  }, coil ? `Rewind record, ${coil} coil` : "Rewind record"));
}

export async function showPickup(main, { found }) {
  const { pickup, visits } = await get(`/api/pickups/${found[1]}`);
  const says = element("p", { class: "trouble", role: "alert" });
  const kept = element("p", { role: "status" });
  document.title = `${pickup.name} – Coilward`;
  main.append(element("h1", {}, pickup.name), facts(pickup),
    element("section", { class: "screen" }, element("h2", {}, "Examine it"), beginForm(pickup, says), says),
    ...[chart(visits)].filter(Boolean),
    element("section", {}, element("h2", {}, "Visits"),
      visits.length > 0 ? [...visits].reverse().map(visitShown) : element("p", { class: "quiet" }, "It has not been examined yet.")),
    element("section", {}, element("h2", {}, "Notes"), notesForm(pickup, kept), kept),
    element("div", { class: "buttons" },
      element("button", { type: "button", class: "plain", onclick: () => window.print() }, "Print the bench card"),
      visits.length > 0 ? records(pickup) : []));
}
