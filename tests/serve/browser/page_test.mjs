// One job at the bench, in a real browser: a dead pickup from intake to its printed card. On the way the meter is pulled
// and put back, the page is reloaded, and a second device looks on.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { chromium } from "playwright-core";
import { simulatedBench } from "./simulated_bench.mjs";

const [program, executablePath] = process.argv.slice(2);
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const complaints = []; // of the browser: errors, refused styles and scripts, requests to elsewhere

function done(what) {
  console.log(`ok  ${what}`);
}

async function opened(browser, url, options = {}) {
  const context = await browser.newContext({ bypassCSP: false, ...options });
  const page = await context.newPage();
  page.setDefaultTimeout(60000);
  page.on("console", (message) => { if (message.type() === "error") complaints.push(message.text()); });
  page.on("pageerror", (error) => complaints.push(String(error)));
  page.on("request", (request) => { if (!request.url().startsWith(url)) complaints.push(`asked ${request.url()}`); });
  await page.goto(url);
  return page;
}

/** Rules of WCAG 2.0 and 2.1, A and AA. The checker runs in the page's own world, past its policy. */
async function accessible(page, what) {
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() => globalThis.axe.run({
    runOnly: { type: "tag", values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "best-practice"] },
  }));
  const found = violations.map((each) => `${each.id}: ${each.nodes.map((node) => node.html.slice(0, 120)).join(" | ")}`);
  assert.deepEqual(found, [], `axe on ${what}`);
  done(`axe finds nothing on ${what}`);
}

async function noSidewaysScroll(page, what) {
  const [content, window] = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
  assert.ok(content <= window, `${what}: ${content} px of content in ${window} px`);
}

const heading = (page) => page.locator(".step h2");

async function intake(page) {
  await page.getByRole("link", { name: "Pickups" }).click();
  await page.getByText("Enter a new pickup").click();
  await accessible(page, "the list of pickups");
  await page.getByLabel("What is written on its label").fill("Lighthouse, neck");
  await page.getByLabel("Instrument").fill("Lighthouse, a guitar that does not exist");
  await page.getByLabel("Coil model").selectOption("six-rod-42");
  await page.getByRole("button", { name: "Keep it" }).click();
  await page.getByRole("heading", { level: 1, name: "Lighthouse, neck" }).waitFor();
  await accessible(page, "a pickup");
  await page.getByLabel("What its owner complains of").fill("silent since the cover came off");
  await page.getByRole("button", { name: "Begin the examination" }).click();
  done("a pickup is taken in and its examination begun");
}

async function temperature(page) {
  await heading(page).filter({ hasText: "temperature" }).waitFor();
  await accessible(page, "a question to the person");
  await page.getByLabel("Degrees Celsius").fill("21.5");
  await page.getByRole("button", { name: "Keep it" }).click();
  await heading(page).filter({ hasText: "DC resistance" }).waitFor();
  await page.locator(".meter.used .number").filter({ hasText: "over" }).waitFor();
  await accessible(page, "the live bench");
  done("the meter is live beside the instruction");
}

async function pulledPlug(page, plug) {
  plug.pull();
  await page.locator(".meter .state").filter({ hasText: "is gone" }).waitFor();
  await plug.plug();
  await page.locator(".meter .state").filter({ hasText: /^$/ }).waitFor({ state: "attached" });
  done("a meter that was pulled is a state in words, and goes on when it is back");
}

async function reload(page) {
  const before = await page.locator(".step").innerText();
  await page.reload();
  await heading(page).filter({ hasText: "DC resistance" }).waitFor();
  assert.equal(await page.locator(".step").innerText(), before);
  done("a reload in the middle loses nothing");
}

/** Takes what is asked for at the leads by a key, and leaves out the rest. */
async function toTheEnd(page, other) {
  for (let step = 0; step < 40; step += 1) {
    const title = await heading(page).innerText();
    if (title === "The examination is done") break;
    const skip = page.getByRole("button", { name: "Skip this one" });
    if (await skip.count() === 0) await page.waitForTimeout(50);
    else if (title === "DC resistance") await page.keyboard.press("Space");
    else await skip.click({ timeout: 5000 }).catch(() => {}); // the step had gone on by itself
    await heading(page).filter({ hasNotText: title }).waitFor();
  }
  const verdict = await page.locator(".headline").innerText();
  assert.match(verdict, /The wire is broken/);
  await other.locator(".headline").filter({ hasText: verdict }).waitFor();
  assert.equal(await heading(other).innerText(), "The examination is done");
  done(`both devices see the same end: ${verdict}`);
}

async function card(page) {
  await page.emulateMedia({ media: "print" });
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
  assert.equal(pdf.match(/\/Type\s*\/Page\b/g).length, 1, "the bench card is one page");
  await page.emulateMedia({ media: "screen" });
  done("the bench card prints on one page");
}

async function history(page) {
  await page.getByRole("link", { name: "Open the pickup" }).click();
  await page.locator(".visit .headline").waitFor();
  assert.match(await page.locator(".visit").innerText(), /silent since the cover came off/);
  await page.getByLabel("Notes").fill("finish lead to be soldered");
  await page.getByRole("button", { name: "Keep the notes" }).click();
  await page.getByText("The notes are kept.").waitFor();
  await accessible(page, "a pickup with a visit");
  const [record] = await Promise.all([page.waitForEvent("popup"), page.getByRole("link", { name: "Rewind record" }).click()]);
  await record.getByRole("heading", { name: "Record of a rewind" }).waitFor();
  assert.equal(await record.evaluate(() => getComputedStyle(document.querySelector("table")).borderCollapse), "collapse");
  done("visits, notes and the rewind record are there");
}

const bench = await simulatedBench(program);
const browser = await chromium.launch({
  executablePath,
  args: ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync"],
});
try {
  const page = await opened(browser, bench.url, { colorScheme: "light" });
  await page.getByText("Nothing is being examined").waitFor();
  const paint = await page.evaluate(() => performance.getEntriesByName("first-contentful-paint")[0]?.startTime);
  console.log(`    first contentful paint ${Math.round(paint)} ms`);
  await accessible(page, "the empty bench");
  await intake(page);
  await temperature(page);
  await pulledPlug(page, bench.plug);
  await reload(page);
  const phone = await opened(browser, bench.url, { colorScheme: "dark", viewport: { width: 320, height: 640 }, reducedMotion: "reduce" });
  await heading(phone).filter({ hasText: "DC resistance" }).waitFor();
  await noSidewaysScroll(phone, "the live bench at 320 px");
  await accessible(phone, "the live bench, dark, 320 px");
  await toTheEnd(page, phone);
  await accessible(page, "the verdict");
  await accessible(phone, "the verdict, dark, 320 px");
  await noSidewaysScroll(phone, "the verdict at 320 px");
  await card(page);
  await history(page);
  await page.getByRole("link", { name: "Coil models and faults" }).click();
  await page.locator("details").first().waitFor();
  await accessible(page, "coil models and faults");
  assert.deepEqual(complaints.filter((each) => !each.includes("ERR_")), []);
  done("the browser has nothing to complain of");
} finally {
  await browser.close();
  bench.end();
}
