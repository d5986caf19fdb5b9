// A rewind from its plan to its printed record, and what the history is for afterwards: a correction, a comparison, a picture.
import assert from "node:assert/strict";
import { accessible, done, expectedComplaint, heading, onePage, opened, takenIn, until } from "./browser.mjs";
import { readBy } from "./hands.mjs";
import { simulatedBench } from "./simulated_bench.mjs";

// One red pixel, made for this test.
const picture = Buffer.from("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mP8z8BQDwAEhQGAhKmMIQAAAABJRU5ErkJggg==", "base64");

async function planned(page) {
  await page.getByRole("link", { name: "Plan or confirm a rewind" }).click();
  await page.getByLabel("How much").fill("6.25k");
  await page.getByRole("button", { name: "Plan the winding" }).click();
  await page.getByRole("alert").filter({ hasText: "core: say it" }).waitFor(); // this coil model knows no bobbin
  await expectedComplaint(page, /status of 400 .*\/api\/plan\?/);
  await page.getByLabel("Core").fill("56mm,4.8mm");
  await page.getByLabel("Flanges", { exact: true }).fill("70mm,16mm");
  await page.getByLabel("Height between the flanges").fill("10.5mm");
  await page.getByRole("button", { name: "Plan the winding" }).click();
  const headline = await page.locator(".headline").filter({ hasText: "Set the counter to" }).innerText();
  const turns = Number(/to (\d+) turns/.exec(headline)[1]);
  assert.ok(turns > 7000 && turns < 9000, `${headline}: a six-rod-42 has some 8000`);
  await accessible(page, "a plan");
  done(`the winding is planned: ${headline}`);
  return turns;
}

async function confirmed(page, turns) {
  await page.getByRole("link", { name: "Open the pickup" }).click();
  await page.getByRole("link", { name: "Plan or confirm a rewind" }).click();
  await page.getByLabel("Counted turns").fill(`${turns}±5`);
  await page.getByLabel("DC resistance, as ordered").fill("5.9k..6.6k");
  await page.getByLabel("Tested by").fill("A. Nonymous");
  await page.getByRole("button", { name: "Hold it against its limits" }).click();
  const decision = page.locator(".headline").filter({ hasText: "Decision" });
  await decision.waitFor();
  assert.equal(await decision.innerText(), "Decision: PASS", await page.locator("main").innerText());
  await accessible(page, "a confirmation");
  await page.reload();
  await decision.waitFor();
  assert.equal(await decision.innerText(), "Decision: PASS");
  assert.equal(await page.getByLabel("Counted turns").inputValue(), `${turns}±5`);
  done("the rewind is confirmed against the order, and a reload loses neither order nor counter");
  const [record] = await Promise.all([page.waitForEvent("popup"), page.getByRole("link", { name: "Open the record to print" }).click()]);
  await record.getByRole("heading", { name: "Record of a rewind" }).waitFor();
  const text = await record.locator("body").innerText();
  for (const said of ["PASS", "the order", "A. Nonymous", "counter", String(turns)]) assert.ok(text.includes(said), `${said} in ${text}`);
  assert.equal(await record.evaluate(() => getComputedStyle(document.querySelector("table")).borderCollapse), "collapse");
  await onePage(record, "the rewind record");
  await record.close();
}

async function corrected(page) {
  await page.getByRole("link", { name: /^Harbour/ }).click();
  await page.getByRole("button", { name: "Correct temperature" }).first().click();
  await page.getByLabel("What it should be").fill("21.5");
  await page.getByLabel("Why it was wrong").fill("read the wrong line");
  await accessible(page, "a correction");
  await page.getByRole("button", { name: "Keep the correction" }).click();
  await page.locator("tr.corrected").waitFor();
  assert.match(await page.locator(".visit").first().innerText(), /read the wrong line/);
  done("a reading is corrected, and the wrong one stays");
}

async function attached(page) {
  await page.getByText("Keep a picture").click();
  await page.locator("input[type=file]").setInputFiles({ name: "winding seen from above.png", mimeType: "image/png", buffer: picture });
  await page.getByLabel("What it shows").fill("the winding, before its tape");
  await page.getByRole("button", { name: "Keep the picture" }).click();
  const kept = page.locator(".gallery img");
  await kept.waitFor();
  assert.equal(await kept.getAttribute("alt"), "the winding, before its tape");
  await kept.scrollIntoViewIfNeeded();
  await until(page, "the picture is shown", () => kept.evaluate((image) => image.naturalWidth > 0));
  done("a picture is kept and shown");
}

/** A second visit, so that there is a before and an after. */
async function visitedAgain(page, plug, meters) {
  await page.getByLabel("Stage of the work").fill("after potting");
  await page.getByRole("button", { name: "Begin the examination" }).click();
  await heading(page).waitFor();
  await readBy(page, plug, meters);
  await page.getByRole("link", { name: "Open the pickup" }).click();
  await page.getByRole("button", { name: "Compare the two visits" }).click();
  const compared = page.getByRole("region", { name: "Before and after" });
  await compared.waitFor();
  assert.match(await compared.innerText(), /DC resistance[^]*no more than chance/);
  await page.locator(".over-time canvas").first().waitFor();
  await accessible(page, "a pickup with two visits, a picture and a comparison");
  done("two visits are compared, and drawn over time");
}

export async function rewind(program, browser) {
  const bench = await simulatedBench(program, [{ meter: "dmm-scpi" }, { meter: "lcr-fetch-ab" }]);
  try {
    const plug = bench.plugs[0];
    const meters = { leads: plug.meterPort, frame: await bench.another({ meter: "dmm-scpi", words: ["--probes", "start-frame"] }) };
    const page = await opened(browser, bench.url, { colorScheme: "dark" });
    await takenIn(page, "Harbour, bridge");
    const turns = await planned(page);
    await page.getByRole("button", { name: "Measure the new winding" }).click();
    await heading(page).waitFor();
    await readBy(page, plug, meters);
    done(`the new winding is measured: ${await page.locator(".diagnosis .headline").innerText()}`);
    await confirmed(page, turns);
    await corrected(page);
    await attached(page);
    await visitedAgain(page, plug, meters);
  } finally {
    bench.end();
  }
}
