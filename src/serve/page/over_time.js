// What was read of each coil over the visits, as charts with uncertainty. Copper is taken to 20 °C.
import { element } from "./dom.js";
import { drawOverTime } from "./charts.js";

/** By coil and quantity: {title, unit, points: [[Date, [value, standard uncertainty]], …], uncertain}. */
export function seriesOf(visits) {
  const series = new Map();
  const readings = visits.flatMap((visit) => visit.readings).filter((reading) => !reading.corrected);
  for (const reading of readings) {
    const at_20 = reading.words.at_20;
    const value = at_20?.value ?? reading.value;
    if (value === undefined || (reading.state ?? "ok") !== "ok" || reading.quantity === "temperature") continue;
    const title = `${reading.words.what}${at_20 ? " at 20 °C" : ""}`;
    const one = series.get(title) ?? { title, unit: reading.unit, points: [], uncertain: true };
    const uncertainty = at_20?.standard_uncertainty ?? reading.words.standard_uncertainty;
    if (uncertainty === undefined) one.uncertain = false;
    one.points.push([new Date(reading.at), [value, uncertainty ?? 0]]);
    series.set(title, one);
  }
  return [...series.values()].filter(({ points }) => points.length > 1);
}

function chart({ title, unit, points, uncertain }) {
  const place = element("div", { class: "over-time", role: "img", "aria-label": `${title} over the visits; the tables below have the numbers` });
  requestAnimationFrame(() => drawOverTime(place, points, unit));
  return element("figure", {}, element("figcaption", {}, title), place,
    uncertain ? null : element("p", { class: "quiet" }, "How uncertain some of these are is not known: they have no band."));
}

export function overTime(visits) {
  const [first, ...rest] = seriesOf(visits);
  if (!first) return null;
  const others = element("details", {}, element("summary", {}, "Everything else that was read more than once"));
  others.addEventListener("toggle", () => others.append(...rest.map(chart)), { once: true }); // drawn at its real width
  return element("section", {}, element("h2", {}, "Over time"), chart(first),
    element("p", { class: "quiet" }, "The band is ± 2 standard uncertainties, with that of the temperature; an ordinary bench meter's where a meter did not say."),
    rest.length > 0 ? others : null);
}
