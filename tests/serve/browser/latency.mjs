// How long it takes from a meter's last byte to the pixels, with ten meters, and from a cold start to the first paint. Both
// are printed; only bounds that hold on a busy machine too are asserted.
import assert from "node:assert/strict";
import { loadavg } from "node:os";
import { done, launched, opened } from "./browser.mjs";
import { simulatedBench } from "./simulated_bench.mjs";

const meters = [
  ...Array.from({ length: 5 }, (_, i) => ({ meter: "dmm-scpi", words: ["--noise", "0.01", "--seed", String(i + 1)] })),
  ...Array.from({ length: 5 }, (_, i) => ({ meter: "lcr-fetch-ab", words: ["--noise", "0.01", "--seed", String(i + 6)] })),
];
const watched_s = 20;
const warm_up_s = 3;

/** In the page: every number that changed, with the time at which the frame that shows it has been handed on. */
function watchNumbers() {
  globalThis.shown = [];
  let waiting = [];
  const channel = new MessageChannel();
  channel.port1.onmessage = () => { // the first task after the frame was painted
    const at = performance.timeOrigin + performance.now();
    for (const each of waiting) globalThis.shown.push({ ...each, at });
    waiting = [];
  };
  addEventListener("DOMContentLoaded", () => new MutationObserver((changes) => {
    const first = waiting.length === 0;
    for (const { target } of changes) {
      const number = (target.nodeType === Node.TEXT_NODE ? target.parentElement : target)?.closest?.(".number");
      if (number) waiting.push({ port: number.closest(".meter").querySelector(".port").textContent, text: number.textContent });
    }
    if (first && waiting.length > 0) requestAnimationFrame(() => channel.port2.postMessage(null));
  }).observe(document.body, { childList: true, subtree: true, characterData: true }));
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

/** From the last byte of the reading that is shown, milliseconds. */
function latencies(shown, passed) {
  return shown.flatMap(({ port, text, at }) => {
    const number = numberIn(text);
    const lines = passed.get(port.split(":").at(-1)) ?? [];
    const sent = number && lines.findLast((line) => line.at <= at && line.numbers.some((each) => Math.abs(each - number.value) <= number.half));
    return sent ? [at - sent.at] : [];
  });
}

function quantile(sorted, share) {
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
}

async function toThePixels(program, browser) {
  const bench = await simulatedBench(program, meters);
  const passed = new Map();
  for (const plug of bench.plugs) {
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
  try {
    const page = await opened(browser, bench.url, { script: watchNumbers });
    await page.locator(".meter").nth(meters.length - 1).waitFor();
    await page.waitForTimeout(1000 * warm_up_s);
    await page.evaluate(() => { globalThis.shown.length = 0; });
    await page.waitForTimeout(1000 * watched_s);
    const shown = await page.evaluate(() => globalThis.shown);
    const sorted = latencies(shown, passed).sort((a, b) => a - b);
    const sent = [...passed.values()].reduce((sum, lines) => sum + lines.length, 0) / (watched_s + warm_up_s);
    assert.ok(sorted.length > 100, `${sorted.length} of ${shown.length} numbers are found again among what was sent`);
    assert.ok(sorted.length > 0.9 * shown.length, `${sorted.length} of ${shown.length} numbers are found again`);
    const [middle, p99] = [quantile(sorted, 0.5), quantile(sorted, 0.99)];
    console.log(`    from the meter's last byte to the pixels, ${meters.length} meters, some ${Math.round(sent)} readings a second, ` +
      `${sorted.length} numbers shown: median ${middle.toFixed(1)} ms, p99 ${p99.toFixed(1)} ms, load ${loadavg()[0].toFixed(1)}`);
    assert.ok(middle < 100, `a median of ${middle} ms: the page does not keep up`); // it must hold on a busy machine too
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
