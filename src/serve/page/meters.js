// The meters of the bench: the reading in large, the state in words, the trace of the last minutes.
import { element } from "./dom.js";
import { get } from "./server.js";
import { Trace } from "./charts.js";

const states = {
  opening: "is being opened",
  reading: "",
  quiet: "is silent",
  unplugged: "is gone",
  failed: "cannot be read",
  recording: "is a recording",
};

class MeterFace {
  constructor(meter) {
    this.what = element("p", { class: "what" });
    this.number = element("p", { class: "number" });
    this.state = element("p", { class: "state", role: "status" });
    this.trace = element("div", { class: "trace", "aria-hidden": "true" });
    const title = meter.draft ? `${meter.title} (draft driver)` : meter.title;
    this.body = element("section", { class: "meter", "aria-label": title },
      element("h2", {}, title), this.what, this.number, this.state, this.trace,
      element("p", { class: "port" }, `${meter.meter} on ${meter.port}`));
    this.points = new Trace(this.trace);
    get(`/api/bench/meters/${meter.index}/trace`)
      .then(({ points }) => points.forEach((point) => this.points.add(point)))
      .catch(() => {}); // the trace grows anew
    this.show(meter);
  }

  show(meter) {
    const stale = meter.state !== "reading";
    this.body.classList.toggle("stale", stale);
    const words = [states[meter.state] ?? meter.state, meter.says].filter(Boolean).join(": ");
    if (this.state.textContent !== words) this.state.textContent = words;
    if (!meter.reading) return;
    this.what.textContent = meter.reading.what;
    this.number.textContent = meter.reading.words;
    if (!stale) this.points.add({ ...meter.reading, value: meter.reading.value ?? null });
  }

  used(yes) {
    this.body.classList.toggle("used", yes);
  }
}

/** Fills `place` with the bench's meters and keeps them up to date; the one in use stands first. */
export function showMeters(place, bench, signal) {
  const faces = [];
  const refresh = () => {
    bench.meters.forEach((meter, i) => {
      if (faces[i]) return faces[i].show(meter);
      faces[i] = new MeterFace(meter);
      place.append(faces[i].body);
    });
    const used = bench.examination.instruction?.meter_index;
    faces.forEach((face, i) => face.used(i === used));
    if (faces.length > 0) place.querySelector(".none")?.remove();
  };
  place.append(element("p", { class: "none quiet" },
    "No meter is named. Start the program with --meter and --port to see its readings here."));
  bench.addEventListener("meter", refresh, { signal });
  bench.addEventListener("examination", refresh, { signal });
  refresh();
}
