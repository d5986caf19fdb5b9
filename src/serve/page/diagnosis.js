// A diagnosis as it forms: probabilities, readings on the band of what sound coils measure, reasons, and where.
import { drawing, element, listed, svg, unbroken } from "./dom.js";

const standings = { below: "below", within: "within", above: "above", undecided: "cannot be told" };

const least_told = 0.1; // how severe something less probable would be, is left out

/** The probabilities as bars; each keeps its element, so that it is seen to move. */
class Bars {
  constructor() {
    this.list = element("ul", { class: "bars" });
    this.rows = new Map(); // by fault
  }

  row(fault) {
    const known = this.rows.get(fault.fault);
    if (known) return known;
    const row = {
      percent: element("span", { class: "percent" }),
      part: svg("rect", { height: 4, width: 0 }),
      estimates: element("span", { class: "quiet estimates" }),
    };
    row.item = element("li", {}, element("span", { class: "title" }, fault.title), row.percent,
      svg("svg", { viewBox: "0 0 100 4", class: "share", preserveAspectRatio: "none", "aria-hidden": "true" }, // the words say it
        svg("rect", { width: 100, height: 4, class: "whole" }), row.part), row.estimates);
    this.rows.set(fault.fault, row);
    return row;
  }

  show(faults) {
    const items = faults.map((fault) => {
      const row = this.row(fault);
      row.percent.textContent = fault.percent;
      row.part.setAttribute("width", 100 * fault.probability);
      row.estimates.textContent = fault.probability >= least_told ? unbroken(fault.estimates.join("; ")) : "";
      return row.item;
    });
    // Put again only where the order is another one: an element that is put anew does not move, it jumps.
    if (items.length !== this.list.children.length || items.some((item, i) => item !== this.list.children[i]))
      this.list.replaceChildren(...items);
  }
}

/** The band fills the middle half; the reading with ± 2 standard uncertainties on it. */
function band(comparison, words) {
  const [low, high] = comparison.expected;
  const at = (value) => Math.min(198, Math.max(2, 50 + 100 * (value - low) / (high - low)));
  const { measured, standard_uncertainty: u } = comparison;
  return svg("svg", {
    viewBox: "0 0 200 20", class: `band ${comparison.standing}`, role: "img", preserveAspectRatio: "none",
    "aria-label": `${words.measured}, sound coils ${words.expected}: ${standings[comparison.standing]}`,
  },
  svg("line", { x1: 0, x2: 200, y1: 10, y2: 10, class: "axis" }),
  svg("rect", { x: 50, y: 4, width: 100, height: 12, class: "expected" }),
  svg("line", { x1: at(measured - 2 * u), x2: at(measured + 2 * u), y1: 10, y2: 10, class: "spread" }),
  svg("line", { x1: at(measured), x2: at(measured), y1: 0, y2: 20, class: "reading" }));
}

function comparisons(diagnosis) {
  if (diagnosis.comparisons.length === 0) return null;
  const rows = diagnosis.comparisons.map((comparison, i) => {
    const words = diagnosis.words.comparisons[i];
    const outside = ["below", "above"].includes(comparison.standing);
    return element("li", {},
      element("span", { class: "reading-name" }, words.reading),
      element("span", { class: "measured" }, words.measured),
      band(comparison, words),
      element("span", { class: "quiet" }, `sound coils ${words.expected}`),
      element("span", { class: outside ? "standing outside" : "standing" }, standings[comparison.standing]));
  });
  return element("section", {}, element("h3", {}, "Readings against sound coils"),
    element("ul", { class: "against" }, rows));
}

/** A ratio of chances, as the reasons give it: ten decibans are ten to one. */
function decibans(value) {
  return `${(Math.abs(value) < 0.05 ? 0 : value).toFixed(1)} decibans`;
}

function why(reasons) {
  const shown = listed("Why", reasons.slice(0, 5).map((reason) => `${reason.reading}: ${reason.says} (${decibans(reason.decibans)})`));
  shown?.append(element("p", { class: "quiet screen" }, "Ten decibans: ten times as likely, so read; below nought it speaks against it."));
  return shown;
}

function place(words) {
  if (!words.section) return null;
  return element("section", { class: "section" }, element("h3", {}, "Where in the winding"),
    drawing(words.section, words.place), element("p", {}, words.place));
}

function rest(diagnosis) {
  const { words, verdict } = diagnosis;
  const next = diagnosis.next.slice(0, 3).map((each) =>
    `${each.reading}: ${each.gain_bits.toFixed(2)} bit in about ${Math.round(each.seconds)} s`);
  const title = words.faults.find(({ fault }) => fault === verdict.fault)?.title ?? verdict.fault;
  return [
    comparisons(diagnosis),
    place(words),
    listed("In turns", words.in_turns ?? []),
    listed("Polarity", words.polarity ?? []),
    why(diagnosis.reasons),
    listed("What would tell most next", next),
    listed(verdict.decided ? "What to do" : `What to do if that holds: ${title}`, diagnosis.advice),
    listed("Take care", diagnosis.cautions, { class: "cautions" }),
    listed("Notes", diagnosis.notes),
  ].filter(Boolean);
}

/** The whole of a diagnosis, kept up to date. */
export class DiagnosisFace {
  constructor() {
    this.headline = element("p", { class: "headline", role: "status" });
    this.bars = new Bars();
    this.rest = element("div", { class: "rest" });
    this.body = element("section", { class: "diagnosis", "aria-label": "Diagnosis", hidden: true },
      this.headline, this.bars.list, this.rest);
    this.shown = null;
  }

  show(diagnosis) {
    this.body.hidden = !diagnosis;
    const now = JSON.stringify(diagnosis);
    if (!diagnosis || now === this.shown) return;
    this.shown = now;
    this.headline.textContent = unbroken(diagnosis.words.headline);
    this.bars.show(diagnosis.words.faults);
    this.rest.replaceChildren(...rest(diagnosis));
  }
}
