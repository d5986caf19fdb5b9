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

const kept_ms = 3000; // a quantity that the meter has not shown for so long it shows no more

/** An LCR meter shows two quantities in turn: one is read in large, the other stands beside it. */
class MeterFace {
  constructor(meter) {
    this.what = element("p", { class: "what" });
    this.number = element("p", { class: "number" });
    this.beside = element("p", { class: "beside" });
    this.state = element("p", { class: "state", role: "status" });
    this.trace = element("div", { class: "trace", "aria-hidden": "true" });
    const title = meter.draft ? `${meter.title} (draft driver)` : meter.title;
    this.body = element("section", { class: "meter", "aria-label": title }, element("div", { class: "inside" },
      element("div", {}, element("h2", {}, title), this.what, this.number, this.beside, this.state,
        element("p", { class: "port" }, `${meter.meter} on ${meter.port}`)),
      this.trace));
    this.points = new Trace(this.trace);
    this.wanted = null; // what is asked for now
    this.asked = null; // the same as a quantity
    this.askedSeen = 0;
    this.main = null;
    this.mainSeen = 0;
    this.show(meter);
    get(`/api/bench/meters/${meter.index}/trace`)
      .then(({ points }) => this.points.begin(points))
      .catch(() => {}); // the trace grows anew
  }

  show(meter) {
    const stale = meter.state !== "reading";
    this.body.classList.toggle("stale", stale);
    const says = [states[meter.state] ?? meter.state, meter.says].filter(Boolean).join(": ");
    if (meter.reading) this.read(meter.reading, stale);
    const words = says || this.wrongFunction(meter.reading);
    if (this.state.textContent !== words) this.state.textContent = words;
  }

  /** Its knob stands elsewhere. An LCR meter shows what is asked for in turn with something else. */
  wrongFunction(reading) {
    const now = performance.now();
    if (!reading || this.asked === null || reading.quantity === this.asked) this.askedSeen = now;
    return now - this.askedSeen > kept_ms ? `shows ${reading.what}, not ${this.wanted}: set it for that` : "";
  }

  read(reading, stale) {
    if (!stale) this.points.add({ ...reading, value: reading.value ?? null });
    const now = performance.now();
    const instead = this.main === null || reading.what === this.wanted || now - this.mainSeen > kept_ms;
    if (this.main !== reading.what && !instead) {
      this.beside.textContent = `${reading.what}: ${reading.words}`;
      return;
    }
    if (this.main !== reading.what) this.beside.textContent = "";
    this.main = reading.what;
    this.mainSeen = now;
    this.points.show(reading.what);
    this.what.textContent = reading.what;
    this.number.textContent = reading.words;
    this.number.classList.toggle("words", reading.value === undefined);
  }

  used(yes, instruction) {
    this.wanted = yes ? instruction.what : null;
    const asked = yes && instruction.quantity !== "polarity" ? instruction.quantity : null; // a kick is watched for on volts
    if (asked !== this.asked) this.askedSeen = performance.now();
    this.asked = asked;
    this.body.classList.toggle("used", yes);
  }
}

/** Fills `place` with the bench's meters and keeps them up to date; the one in use stands first. */
export function showMeters(place, bench, signal) {
  const faces = [];
  const show = (meter) => {
    if (!meter) return;
    const face = faces[meter.index];
    if (face) return face.show(meter);
    faces[meter.index] = new MeterFace(meter);
    place.append(faces[meter.index].body);
    mark();
  };
  const mark = () => {
    const instruction = bench.examination.instruction;
    faces.forEach((face, i) => face.used(i === instruction?.meter_index, instruction));
    if (faces.length > 0) place.querySelector(".none")?.remove();
  };
  place.append(element("p", { class: "none quiet" },
    "No meter is named. Start the program with --meter and --port to see its readings here."));
  bench.addEventListener("meter", ({ detail }) => show(detail), { signal });
  bench.addEventListener("examination", mark, { signal });
  bench.meters.forEach(show);
  mark();
}
