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

const still = { legend: "never", animatedZooms: false, interactionModel: {} };

const between_traces = 1000; // milliseconds: of five minutes a trace shows, that is a third of a per cent

/** One trace after another in the time that a frame leaves over. */
const whenThereIsTime = globalThis.requestIdleCallback ?? ((work) => setTimeout(work, 0));

/** What a meter showed in the last minutes, of one of its quantities; the others are kept too. */
export class Trace {
  constructor(place) {
    this.place = place;
    this.kept = new Map(); // by quantity: {unit, points}
    this.what = "";
    this.drawn = null; // for one unit
    this.drawnUnit = "";
    this.waiting = false;
    this.drawnAt = 0;
    new ResizeObserver(() => this.drawn?.resize()).observe(place);
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
    if (!this.place.isConnected || points.length < 2) return;
    if (this.drawn && unit === this.drawnUnit) return this.drawn.updateOptions({ file: points, ...looks(unit) });
    this.drawn?.destroy();
    this.drawn = new Dygraph(this.place, points, { ...still, ...looks(unit), labels: ["time", "value"] });
    this.drawnUnit = unit;
  }
}

const scheme = matchMedia("(prefers-color-scheme: dark)");

/** Values with standard uncertainties over the visits: [[Date, [value, uncertainty]], …]. */
export function drawOverTime(place, points, unit) {
  const drawn = new Dygraph(place, points, {
    ...still,
    ...looks(unit),
    labels: ["time", "value"],
    errorBars: true,
    sigma: 2,
    drawPoints: true,
    pointSize: 4,
  });
  const again = () => {
    if (place.isConnected) drawn.updateOptions(looks(unit));
    else scheme.removeEventListener("change", again);
  };
  scheme.addEventListener("change", again);
}
