// How long it takes from a meter's last byte to the pixels, with ten meters, and from a cold start to the first paint. Both
// are printed; only bounds that hold on a busy machine too are asserted.
import assert from "node:assert/strict";
import { loadavg } from "node:os";
import { monitorEventLoopDelay } from "node:perf_hooks";
import { done, launched, opened } from "./browser.mjs";
import { simulatedBench } from "./simulated_bench.mjs";

const meters = [
  ...Array.from({ length: 5 }, (_, i) => ({ meter: "dmm-scpi", words: ["--noise", "0.01", "--seed", String(i + 1)] })),
  ...Array.from({ length: 5 }, (_, i) => ({ meter: "lcr-fetch-ab", words: ["--noise", "0.01", "--seed", String(i + 6)] })),
];
const watched_s = 20;
const warm_up_s = 3;
const too_busy_ms = 200; // a browser whose bare page waits as long falls behind its events further and further

/** In the page: every number that changed, with the times at which the stream brought it and at which the frame that shows it
 * has been handed on. */
function watchNumbers() {
  globalThis.shown = [];
  const clock = () => performance.timeOrigin + performance.now();
  const brought = new Map(); // the latest event of each port
  globalThis.EventSource = class extends EventSource {
    constructor(url) {
      super(url);
      this.addEventListener("meter", (event) => { // before the page's own listener
        const { meter, port, reading } = JSON.parse(event.data);
        if (reading) brought.set(`${meter} on ${port}`, { read: Date.parse(reading.at), heard: clock() });
      });
    }
  };
  let waiting = [];
  const channel = new MessageChannel();
  channel.port1.onmessage = () => { // the first task after the frame was painted
    const at = clock();
    for (const each of waiting) globalThis.shown.push({ ...each, at });
    waiting = [];
  };
  addEventListener("DOMContentLoaded", () => new MutationObserver((changes) => {
    const first = waiting.length === 0;
    for (const { target } of changes) {
      const number = (target.nodeType === Node.TEXT_NODE ? target.parentElement : target)?.closest?.(".number");
      if (!number) continue;
      const port = number.closest(".meter").querySelector(".port").textContent;
      waiting.push({ port, text: number.textContent, ...brought.get(port) });
    }
    if (first && waiting.length > 0) requestAnimationFrame(() => channel.port2.postMessage(null));
  }).observe(document.body, { childList: true, subtree: true, characterData: true }));
}

/** Traces that are full already, as after five minutes: what the server would then have, of either quantity of the meter. */
async function fullTraces(page) {
  const points = Array.from({ length: 3000 }, (_, i) => ["DC resistance", "series inductance at 1 kHz", "series AC resistance at 1 kHz"].map((what) =>
    ({ at: new Date(Date.now() - 100 * (3000 - i)).toISOString(), what, unit: what.includes("inductance") ? "H" : "ohm", value: Math.cos(i) }))).flat();
  await page.route("**/api/bench/meters/*/trace", (route) => route.fulfill({ json: { points } }));
}

const prefixes = { G: 1e9, M: 1e6, k: 1e3, m: 1e-3, "µ": 1e-6, n: 1e-9, p: 1e-12 };

/** "6.1120 kΩ" as a number with half a step of its last digit; nothing for words. */
function numberIn(text) {
  const found = /^(-?[\d.]+)\s*([GMkmµnp]?)(?:Ω|H|F)?$/.exec(text);
  if (!found) return null;
  const size = prefixes[found[2]] ?? 1;
  const decimals = found[1].split(".")[1]?.length ?? 0;
  return { value: Number(found[1]) * size, half: 0.5000001 * 10 ** -decimals * size };
}

/** When the last byte of the reading that is shown had passed, beside the page's own times. Noise repeats a number now and then:
 * of the lines that have it, the one nearest to when the program read it is meant. */
function whenSent(shown, passed) {
  return shown.flatMap((each) => {
    const number = numberIn(each.text);
    const lines = passed.get(each.port.split(":").at(-1)) ?? [];
    const alike = number ? lines.filter((line) => line.numbers.some((one) => Math.abs(one - number.value) <= number.half)) : [];
    if (alike.length === 0) return [];
    const away = (line) => Math.abs(line.at - each.read);
    return [{ ...each, sent: alike.reduce((best, line) => (away(line) < away(best) ? line : best)).at }];
  });
}

function quantile(values, share) {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
}

/** "median 3.1, p99 9.0, most 12.3 ms" */
function spreadOf(values) {
  const figure = (share) => quantile(values, share).toFixed(1);
  return `median ${figure(0.5)}, p99 ${figure(0.99)}, most ${figure(1)} ms`;
}

/** Notes every line that goes through the plugs: by port, in order. */
function linesPassing(plugs) {
  const passed = new Map();
  for (const plug of plugs) {
    const lines = [];
    let pending = "";
    passed.set(String(plug.port), lines);
    plug.passed = (bytes, at) => {
      pending += bytes.toString("latin1");
      const whole = pending.split("\n");
      pending = whole.pop();
      for (const line of whole) lines.push({ at, numbers: (line.match(/[-+]?\d+\.\d+(?:E[-+]?\d+)?/gi) ?? []).map(Number) });
    };
  }
  return passed;
}

/** A page beside it that does next to nothing: how long a number takes there from when it is due to the pixels. What that takes, the
 * machine and the browser owe. */
async function besides(browser) {
  const page = await (await browser.newContext()).newPage();
  await page.setContent("<p></p>");
  await page.evaluate(() => {
    globalThis.took = [];
    const every = 50; // milliseconds
    let due = performance.now() + every;
    const channel = new MessageChannel();
    channel.port1.onmessage = ({ data }) => globalThis.took.push(performance.now() - data);
    const change = () => {
      const was_due = due;
      document.querySelector("p").textContent = String(was_due);
      requestAnimationFrame(() => channel.port2.postMessage(was_due));
      due = Math.max(due + every, performance.now());
      setTimeout(change, due - performance.now());
    };
    setTimeout(change, every);
  });
  return page;
}

/** The ways of a reading, and where its time goes. */
const ways = [
  ["from the meter's last byte to the pixels", ({ sent, at }) => at - sent],
  ["  to the program, which stamps it (whole milliseconds)", ({ sent, read }) => read - sent],
  ["  through decoding and the stream to the page", ({ read, heard }) => heard - read],
  ["  through the page to the frame", ({ heard, at }) => at - heard],
];

async function toThePixels(program, browser) {
  const bench = await simulatedBench(program, meters);
  const passed = linesPassing(bench.plugs);
  const late = monitorEventLoopDelay({ resolution: 1 }); // of this process, which does next to nothing: what is late here, the machine owes
  try {
    const page = await opened(browser, bench.url, { script: watchNumbers, before: fullTraces });
    await page.locator(".meter").nth(meters.length - 1).waitFor();
    await page.waitForTimeout(1000 * warm_up_s);
    await page.evaluate(() => { globalThis.shown.length = 0; });
    const beside = await besides(browser);
    late.enable();
    await page.waitForTimeout(1000 * watched_s);
    late.disable();
    const shown = await page.evaluate(() => globalThis.shown);
    const took = await beside.evaluate(() => globalThis.took);
    const found = whenSent(shown, passed);
    const sent = [...passed.values()].reduce((sum, lines) => sum + lines.length, 0) / (watched_s + warm_up_s);
    assert.ok(found.length > 100, `${found.length} of ${shown.length} numbers are found again among what was sent`);
    assert.ok(found.length > 0.9 * shown.length, `${found.length} of ${shown.length} numbers are found again`);
    console.log(`    ${meters.length} meters, some ${Math.round(sent)} readings a second, ${found.length} numbers shown, load ${loadavg()[0].toFixed(1)}`);
    for (const [what, of] of ways) console.log(`    ${what}: ${spreadOf(found.map(of))}`);
    console.log(`    a process that only waits is late by: p99 ${(late.percentile(99) / 1e6).toFixed(1)}, most ${(late.max / 1e6).toFixed(1)} ms`);
    console.log(`    a page beside it that shows a number every 50 ms: ${spreadOf(took)}`);
    const [p99, owed] = [quantile(found.map(ways[0][1]), 0.99), quantile(took, 0.99)];
    // A reading goes through five processes, that number through two; on a busy machine each waits for its turn.
    if (owed > too_busy_ms) console.log(`    the machine is too busy to tell: nothing is held against ${p99.toFixed(0)} ms`);
    else assert.ok(p99 <= 50 + 10 * owed, `p99 of ${p99} ms, where the machine owes ${owed} ms`);
    done("ten meters are shown as they read");
  } finally {
    bench.end();
  }
}

/** In a browser of its own each time, whose profile knows nothing of the page. */
async function firstPaint(program, executablePath) {
  const bench = await simulatedBench(program, []);
  const paints = [];
  try {
    for (let i = 0; i < 5; i += 1) {
      const browser = await launched(executablePath);
      const page = await opened(browser, bench.url);
      await page.getByText("Nothing is being examined").waitFor();
      paints.push(await page.evaluate(() => performance.getEntriesByName("first-contentful-paint")[0].startTime));
      await browser.close();
    }
  } finally {
    bench.end();
  }
  paints.sort((a, b) => a - b);
  console.log(`    first contentful paint, cold: ${paints.map((each) => Math.round(each)).join(", ")} ms, load ${loadavg()[0].toFixed(1)}`);
  assert.ok(paints[0] < 1500, "the first paint waits for something"); // it must hold on a busy machine too
  done("the page is there at once");
}

export async function latency(program, browser, executablePath) {
  await toThePixels(program, browser);
  await firstPaint(program, executablePath);
}
