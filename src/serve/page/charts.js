// Charts over time, drawn by dygraphs. Each has a table or words beside it that say the same.
import { keepPoint } from "./trace_points.js";

// The legend sets inline styles, which the page's policy refuses; the words stand beside each chart instead.
Dygraph.PLUGINS = Dygraph.PLUGINS.filter((plugin) => plugin !== Dygraph.Plugins.Legend);

function colour(name) {
  return getComputedStyle(document.documentElement).getPropertyValue(name).trim();
}

/** A number with the prefix that suits it, for an axis. */
export function short(value, unit) {
  const prefixes = [[1e9, "G"], [1e6, "M"], [1e3, "k"], [1, ""], [1e-3, "m"], [1e-6, "µ"], [1e-9, "n"], [1e-12, "p"]];
  const sign = { ohm: "Ω", degC: "°C", 1: "" }[unit] ?? unit;
  if (value === 0 || unit === "1" || unit === "degC") return `${Number(value.toPrecision(5))} ${sign}`;
  const [size, prefix] = prefixes.find(([least]) => Math.abs(value) >= least) ?? prefixes.at(-1);
  return `${Number((value / size).toPrecision(5))} ${prefix}${sign}`;
}

/** What depends on the scheme and on the size of the screen's letters. */
function looks(unit) {
  const letters = parseFloat(getComputedStyle(document.documentElement).fontSize) / 16;
  return {
    colors: [colour("--copper")],
    gridLineColor: colour("--line"),
    axisLineColor: colour("--quiet"),
    strokeWidth: 1.5 * letters,
    axes: {
      x: { axisLabelWidth: 64 * letters, pixelsPerLabel: 80 * letters },
      y: { axisLabelWidth: 84 * letters, pixelsPerLabel: 30 * letters, axisLabelFormatter: (value) => short(value, unit) },
    },
  };
}

const scheme = matchMedia("(prefers-color-scheme: dark)");

/** Points in a place, drawn anew where the place, the letters or the scheme change. */
class Chart {
  constructor(place, more) {
    this.place = place;
    this.more = { legend: "never", animatedZooms: false, interactionModel: {}, labels: ["time", "value"], ...more };
    this.drawn = null;
    this.looks = ""; // in which it is drawn
    this.last = null;
    const again = () => {
      if (this.place.isConnected) this.again();
      else scheme.removeEventListener("change", again);
    };
    scheme.addEventListener("change", again);
    new ResizeObserver(again).observe(place);
  }

  show(points, unit) {
    this.last = [points, unit];
    const now = looks(unit);
    const named = JSON.stringify([now, unit]);
    if (this.drawn && named === this.looks) return this.drawn.updateOptions({ file: points });
    this.drawn?.destroy();
    this.drawn = new Dygraph(this.place, points, { ...this.more, ...now });
    this.looks = named;
  }

  again() {
    if (!this.drawn) return;
    this.drawn.resize();
    this.show(...this.last);
  }
}

const between_traces = 1000; // milliseconds: of five minutes a trace shows, that is a third of a per cent

/** One trace after another in the time that a frame leaves over. */
const whenThereIsTime = globalThis.requestIdleCallback ?? ((work) => setTimeout(work, 0));

/** What a meter showed in the last minutes, of one of its quantities; the others are kept too. */
export class Trace {
  constructor(place) {
    this.place = place;
    this.kept = new Map(); // by quantity: {unit, points}
    this.what = "";
    this.chart = new Chart(place, {});
    this.waiting = false;
    this.drawnAt = 0;
  }

  /** What the meter showed before the page was opened. */
  begin(points) {
    const since = this.kept;
    this.kept = new Map();
    points.forEach((point) => this.keep(point));
    for (const [what, { unit, points: later }] of since) for (const [at, value] of later) this.keep({ at, what, unit, value });
  }

  keep({ at, what, unit, value }) {
    const one = this.kept.get(what) ?? { unit, points: [] };
    this.kept.set(what, one);
    const time = new Date(at);
    if (!(time <= one.points.at(-1)?.[0])) keepPoint(one.points, [time, value ?? null]);
  }

  add(reading) {
    this.keep(reading);
    if (reading.what === this.what) this.ask();
  }

  show(what) {
    if (what === this.what) return;
    this.what = what;
    this.ask();
  }

  /** A number is shown at once, its trace when there is time: ten traces in every frame would hold the numbers up. */
  ask() {
    if (this.waiting) return;
    this.waiting = true;
    const left = this.drawnAt + between_traces - performance.now();
    setTimeout(() => whenThereIsTime(() => this.draw()), Math.max(left, 0));
  }

  draw() {
    this.waiting = false;
    this.drawnAt = performance.now();
    const { unit, points } = this.kept.get(this.what) ?? { points: [] };
    if (this.place.isConnected && points.length >= 2) this.chart.show(points, unit);
  }
}

/** Values with standard uncertainties over the visits: [[Date, [value, uncertainty]], …]. */
export function drawOverTime(place, points, unit) {
  new Chart(place, { errorBars: true, sigma: 2, drawPoints: true, pointSize: 4 }).show(points, unit);
}
