// A real Chromium, and what every page must be.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { chromium } from "playwright-core";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
export const complaints = []; // of the browser: errors, refused styles and scripts, requests to elsewhere

export function done(what) {
  console.log(`ok  ${what}`);
}

/** Waits for a complaint that a job brings about on purpose, and takes it off the list. */
export async function expectedComplaint(page, pattern) {
  await until(page, `a complaint like ${pattern}`, () => complaints.some((each) => pattern.test(each)));
  complaints.splice(complaints.findIndex((each) => pattern.test(each)), 1);
}

/** Takes all such complaints off the list. */
export function forgiven(pattern) {
  complaints.splice(0, complaints.length, ...complaints.filter((each) => !pattern.test(each)));
}

export function launched(executablePath) {
  return chromium.launch({
    executablePath,
    args: ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
      "--disable-background-networking", "--disable-component-update", "--disable-sync"],
  });
}

export async function opened(browser, url, { at = "", script, before, ...options } = {}) {
  const context = await browser.newContext({ bypassCSP: false, ...options });
  const page = await context.newPage();
  page.setDefaultTimeout(60000);
  page.on("console", (message) => { if (message.type() === "error") complaints.push(`${message.text()} at ${message.location().url}`); });
  page.on("pageerror", (error) => complaints.push(String(error)));
  page.on("request", (request) => {
    if (!request.url().startsWith(url) && !request.url().startsWith("blob:")) complaints.push(`asked ${request.url()}`);
  });
  if (script) await page.addInitScript(script);
  await before?.(page);
  await page.goto(url + at);
  return page;
}

/** Rules of WCAG 2.0 and 2.1, A and AA. The checker runs in the page's own world, past its policy. */
export async function accessible(page, what) {
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() => globalThis.axe.run({
    runOnly: { type: "tag", values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "best-practice"] },
  }));
  const found = violations.map((each) => `${each.id}: ${each.nodes.map((node) => node.html.slice(0, 120)).join(" | ")}`);
  assert.deepEqual(found, [], `axe on ${what}`);
  done(`axe finds nothing on ${what}`);
}

export async function noSidewaysScroll(page, what) {
  const [content, window] = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
  assert.ok(content <= window, `${what}: ${content} px of content in ${window} px`);
}

export const heading = (page) => page.locator(".step h2");

/** Waits until something is so. The page's policy forbids what Playwright itself has for that. */
export async function until(page, what, is_so) {
  for (let looks = 0; looks < 600; looks += 1) {
    if (await is_so()) return;
    await page.waitForTimeout(100);
  }
  throw new Error(`it never came to that: ${what}. The page says: ${await page.locator("body").innerText()}`);
}

/** What the step shows, all of one moment. */
export function stepShown(page) {
  return page.locator(".step").evaluate((step) => ({
    text: step.innerText,
    title: step.querySelector("h2").innerText,
    buttons: [...step.querySelectorAll("button")].map((each) => each.innerText),
    asksTemperature: step.querySelector("input[type=number]") !== null,
    bySettling: document.querySelector(".taking input[type=checkbox]").checked,
    probes: step.querySelector(".probes")?.getAttribute("aria-label") ?? "",
  }));
}

export function stepChanged(page, before) {
  return until(page, "another step", async () => await page.locator(".step").innerText() !== before);
}

/** Enters a new pickup, from anywhere. */
export async function takenIn(page, name, model = "six-rod-42") {
  await page.getByRole("link", { name: "Pickups" }).click();
  await page.getByText("Enter a new pickup").click();
  await page.getByLabel("What is written on its label").fill(name);
  await page.getByLabel("Instrument").fill("Lighthouse, a guitar that does not exist");
  await page.getByLabel("Coil model").selectOption(model);
  await page.getByRole("button", { name: "Keep it" }).click();
  await page.getByRole("heading", { level: 1, name }).waitFor();
}

/** Enters a pickup of two coils, slug and screw, of these models. */
export async function intakeOfTwo(page, name, models) {
  await page.getByRole("link", { name: "Pickups" }).click();
  await page.getByText("Enter a new pickup").click();
  await page.getByLabel("What is written on its label").fill(name);
  await page.getByLabel("Construction").selectOption("dual-coil-series");
  for (const [coil, model] of Object.entries(models)) await page.getByLabel(`Coil model of the ${coil} coil`).selectOption(model);
  await page.getByRole("button", { name: "Keep it" }).click();
  await page.getByRole("heading", { level: 1, name }).waitFor();
}

export async function onePage(page, what) {
  await page.emulateMedia({ media: "print" });
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
  assert.equal(pdf.match(/\/Type\s*\/Page\b/g).length, 1, `${what} is one page`);
  await page.emulateMedia({ media: "screen" });
  done(`${what} prints on one page`);
}
