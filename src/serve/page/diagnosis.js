// A diagnosis as it forms: probabilities, readings on the band of what sound coils measure, reasons, and where.
import { drawing, element, listed, svg } from "./dom.js";

const standings = { below: "below", within: "within", above: "above", undecided: "cannot be told" };

function bar(fault) {
  return element("li", {},
    element("span", { class: "title" }, fault.title),
    element("span", { class: "percent" }, fault.percent),
    svg("svg", { viewBox: "0 0 100 4", class: "share", preserveAspectRatio: "none", "aria-hidden": "true" }, // the words say it
      svg("rect", { width: 100, height: 4, class: "whole" }), svg("rect", { width: 100 * fault.probability, height: 4 })),
    fault.estimates.length > 0 ? element("span", { class: "quiet estimates" }, fault.estimates.join("; ")) : null);
}

/** The band fills the middle half; the reading with ± 2 standard uncertainties on it. */
function band(comparison, words) {
  const [low, high] = comparison.expected;
  const at = (value) => Math.min(196, Math.max(4, 50 + 100 * (value - low) / (high - low)));
  const { measured, standard_uncertainty: u } = comparison;
  return svg("svg", {
    viewBox: "0 0 200 20", class: `band ${comparison.standing}`, role: "img", preserveAspectRatio: "none",
    "aria-label": `${words.measured}, sound coils ${words.expected}: ${standings[comparison.standing]}`,
  },
  svg("rect", { x: 50, y: 5, width: 100, height: 10, class: "expected" }),
  svg("line", { x1: at(measured - 2 * u), x2: at(measured + 2 * u), y1: 10, y2: 10, class: "spread" }),
  svg("line", { x1: at(measured), x2: at(measured), y1: 1, y2: 19, class: "reading" }));
}

function comparisons(diagnosis) {
  if (diagnosis.comparisons.length === 0) return null;
  const rows = diagnosis.comparisons.map((comparison, i) => {
    const words = diagnosis.words.comparisons[i];
    return element("tr", {},
      element("th", { scope: "row" }, words.reading),
      element("td", {}, words.measured),
      element("td", {}, band(comparison, words)),
      element("td", {}, words.expected),
      element("td", {}, standings[comparison.standing]));
  });
  return element("section", {}, element("h3", {}, "Readings against sound coils"),
    element("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": "Readings against sound coils" },
      element("table", {},
        element("thead", {}, element("tr", {},
          ["Reading", "Measured", "On its band", "Sound coils", "Stands"].map((head) => element("th", { scope: "col" }, head)))),
        element("tbody", {}, rows))));
}

function place(words) {
  if (!words.section) return null;
  return element("section", { class: "section" }, element("h3", {}, "Where in the winding"),
    drawing(words.section, words.place), element("p", {}, words.place));
}

/** The whole of a diagnosis, as nodes. */
export function diagnosisShown(diagnosis) {
  const { words } = diagnosis;
  const next = diagnosis.next.slice(0, 3).map((each) =>
    `${each.reading}: ${each.gain_bits.toFixed(2)} bit in about ${Math.round(each.seconds)} s`);
  return [
    element("p", { class: "headline", role: "status" }, words.headline),
    element("ul", { class: "bars" }, words.faults.map(bar)),
    comparisons(diagnosis),
    place(words),
    listed("Why", diagnosis.reasons.slice(0, 5).map((reason) => `${reason.says} (${reason.decibans.toFixed(1)} decibans)`)),
    listed("What would tell most next", next),
    listed("What to do", diagnosis.advice),
    listed("Take care", diagnosis.cautions, { class: "cautions" }),
    listed("Notes", diagnosis.notes),
  ].filter(Boolean);
}
