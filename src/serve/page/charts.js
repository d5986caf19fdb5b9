// Charts over time, drawn by dygraphs. Each has a table or words beside it that say the same.

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

function options(unit, more) {
  return {
    legend: "never",
    colors: [colour("--copper")],
    gridLineColor: colour("--line"),
    axisLineColor: colour("--quiet"),
    strokeWidth: 1.5,
    animatedZooms: false,
    interactionModel: {},
    axes: { y: { axisLabelWidth: 78, axisLabelFormatter: (value) => short(value, unit) } },
    ...more,
  };
}

const between_traces = 1000; // milliseconds: of five minutes a trace shows, that is a third of a per cent

/** One trace after another in the time that a frame leaves over. */
const whenThereIsTime = globalThis.requestIdleCallback ?? ((work) => setTimeout(work, 0));

/** What a meter showed in the last minutes. */
export class Trace {
  constructor(place) {
    this.place = place;
    this.points = [];
    this.unit = "";
    this.what = "";
    this.drawn = null;
    this.waiting = false;
    this.drawnAt = 0;
  }

  /** What the meter showed before the page was opened. */
  begin(points) {
    if (this.what && points.some(({ what }) => what !== this.what)) return;
    this.points = [...points.map(({ at, value }) => [new Date(at), value]), ...this.points]
      .filter(([at], i, all) => i === 0 || at > all[i - 1][0]);
  }

  add({ at, what, unit, value }) {
    if (what !== this.what) this.points = [];
    if (unit !== this.unit && this.drawn) {
      this.drawn.destroy();
      this.drawn = null;
    }
    this.what = what;
    this.unit = unit;
    const time = new Date(at);
    this.points.push([time, value ?? null]);
    while (this.points[0][0] < time - 300000) this.points.shift();
    if (this.waiting) return;
    this.waiting = true;
    // A number is shown at once, its trace when there is time: ten traces in every frame would hold the numbers up.
    const left = this.drawnAt + between_traces - performance.now();
    setTimeout(() => whenThereIsTime(() => this.draw()), Math.max(left, 0));
  }

  draw() {
    this.waiting = false;
    this.drawnAt = performance.now();
    if (!this.place.isConnected || this.points.length < 2) return;
    if (this.drawn) this.drawn.updateOptions({ file: this.points });
    else this.drawn = new Dygraph(this.place, this.points, options(this.unit, { labels: ["time", "value"] }));
  }
}

/** Values with standard uncertainties over the visits: [[Date, [value, uncertainty]], …]. */
export function drawOverTime(place, points, unit) {
  return new Dygraph(place, points, options(unit, {
    labels: ["time", "value"],
    errorBars: true,
    sigma: 2,
    drawPoints: true,
    pointSize: 4,
  }));
}
