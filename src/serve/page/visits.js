// The visits of a pickup with their readings; a wrong reading is corrected here, and both are kept.
import { element, local } from "./dom.js";
import { field, form, trouble } from "./fields.js";
import { send } from "./server.js";
import { table, tableRow } from "./table.js";

/** Opens a dialog in which the reading is corrected. */
function correct(pickup, reading) {
  const says = trouble();
  const close = () => dialog.close();
  const dialog = element("dialog", { "aria-label": `Correct ${reading.words.what}` },
    element("h2", {}, `Correct ${reading.words.what}`),
    element("p", {}, `It stands as ${reading.words.answer}. It stays in the history; the corrected one takes its place.`),
    form([
      field("value", "What it should be", { required: true }, `As 6.12k or 6120, in ${reading.unit ?? "its unit"}.`),
      field("uncertainty", "Standard uncertainty", {}, "As before where this is empty."),
      field("why", "Why it was wrong", { required: true }),
      element("div", { class: "buttons" },
        element("button", { class: "ready" }, "Keep the correction"),
        element("button", { type: "button", class: "plain", onclick: close }, "Leave it")),
    ], says, async (values) => {
      await send("POST", `/api/pickups/${pickup.number}/corrections`, { reading: reading.id, ...values });
      close(); // the page is shown anew by the stream
    }), says);
  dialog.addEventListener("close", () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
}

function remarkOf(reading) {
  return [reading.corrected ? "corrected since" : reading.corrects ? "correction" : "", reading.remark].filter(Boolean).join(": ");
}

function answerOf({ words }) {
  if (!words.at_20) return words.answer;
  return element("span", {}, words.answer, element("br"), element("span", { class: "quiet" }, `at 20 °C ${words.at_20.words}`));
}

function readingRow(pickup, reading, remarked) {
  const can = !reading.corrected && reading.quantity !== "polarity";
  return tableRow([
    reading.words.what,
    answerOf(reading),
    reading.meter ?? "told",
    ...(remarked ? [remarkOf(reading)] : []),
    can ? element("button", { type: "button", class: "small plain screen", "aria-label": `Correct ${reading.words.what}`,
      onclick: () => correct(pickup, reading) }, "Correct") : "",
  ], { class: reading.corrected ? "corrected" : null });
}

function goOn(pickup, visit, coil, words, says) {
  return element("button", { type: "button", class: "plain screen", onclick: async () => {
    try {
      await send("POST", "/api/bench/examination", { pickup: pickup.number, coil, visit: visit.id });
      location.hash = "#/bench";
    } catch (error) {
      says.textContent = error.message;
    }
  } }, words);
}

/** Of each coil what can be gone on with: one that is not decided, or was not yet read on this visit. */
function goingOn(pickup, visit) {
  const says = trouble();
  const coils = Object.keys(pickup.coils ?? { "": "" }); // the only one has no name
  const judged = (coil) => visit.verdicts.filter((verdict) => (verdict.coil ?? "") === coil).at(-1);
  const read = (coil) => visit.readings.some((reading) => (reading.coil ?? "") === coil && reading.quantity !== "temperature");
  const words = (coil) => {
    if (coil === "") return "Go on with this examination";
    return read(coil) ? `Go on with the ${coil} coil` : `Examine the ${coil} coil on this visit`;
  };
  const open = coils.filter((coil) => !judged(coil)?.decided);
  if (open.length === 0) return null;
  return [element("div", { class: "buttons" }, open.map((coil) => goOn(pickup, visit, coil, words(coil), says))), says];
}

function verdictLine(verdict) {
  const of = verdict.coil ? `${verdict.coil} coil: ` : "";
  return element("p", { class: "headline" }, `${of}${verdict.decided ? "Verdict" : "Not decided; most likely"}: ${verdict.title}, ${verdict.percent}`);
}

/** The latest of each coil. */
function lastVerdicts(verdicts) {
  return [...new Map(verdicts.map((verdict) => [verdict.coil ?? "", verdict])).values()];
}

/** `number` counts from the first visit; two visits may begin in the same minute. */
function visitShown(pickup, visit, number, latest) {
  const remarked = visit.readings.some(remarkOf);
  return element("article", { class: "visit" },
    element("h3", {}, local(visit.at), visit.stage ? ` · ${visit.stage}` : "", visit.rewound ? " · new winding" : ""),
    visit.notes ? element("p", {}, visit.notes) : null,
    lastVerdicts(visit.verdicts).map(verdictLine),
    table(`Readings of visit ${number}, ${local(visit.at)}`, ["Reading", "Answer", "Meter", ...(remarked ? ["Remark"] : []), ""],
      visit.readings.map((reading) => readingRow(pickup, reading, remarked))),
    latest ? goingOn(pickup, visit) : null);
}

export function visitsShown(pickup, visits) {
  const latest = visits.at(-1);
  return element("section", {}, element("h2", {}, "Visits"),
    visits.length > 0 ? visits.map((visit, i) => visitShown(pickup, visit, i + 1, visit === latest)).reverse()
      : element("p", { class: "quiet" }, "It has not been examined yet."));
}
