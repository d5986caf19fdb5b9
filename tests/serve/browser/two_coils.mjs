// A pickup of two coils: both examined on one visit, the readings of the whole told, all by the keyboard from there.
import assert from "node:assert/strict";
import { done, expectedComplaint, heading, intakeOfTwo, opened, until } from "./browser.mjs";
import { tabTo } from "./hands.mjs";

const name = "Breakwater, bridge";

/** One resistance of the coil that is on the bench; then back to the pickup. */
async function resistanceRead(page, url) {
  await heading(page).filter({ hasText: "DC resistance" }).waitFor();
  await page.getByRole("button", { name: "Take it" }).click();
  await heading(page).filter({ hasNotText: "DC resistance" }).filter({ hasNotText: "Taking" }).waitFor();
  await page.getByRole("button", { name: "End here" }).click();
  await page.getByRole("button", { name: "Clear the bench" }).click();
  await page.getByText("Nothing is being examined").waitFor();
  await page.goto(`${url}#/pickups/2`);
  await page.getByRole("heading", { level: 1, name }).waitFor();
}

export async function twoCoils(browser, url) {
  const page = await opened(browser, url);
  await intakeOfTwo(page, name, { slug: "six-rod-42", screw: "six-rod-42" }); // as the simulated one
  assert.equal(await page.getByRole("heading", { name: "Its coils together" }).count(), 0, "nothing was read yet");
  await page.getByLabel("Temperature of the coil").fill("20");
  await page.getByRole("button", { name: "Begin the examination" }).click();
  await resistanceRead(page, url);
  await page.getByRole("button", { name: "Examine the screw coil on this visit" }).click();
  await resistanceRead(page, url);
  assert.equal(await page.locator("article.visit").count(), 1, "both coils are of one visit");
  await page.getByText("slug coil: ").first().waitFor();
  await page.getByText("screw coil: ").first().waitFor();
  const together = page.locator("section", { has: page.getByRole("heading", { name: "Its coils together" }) }).last();
  const alone = page.waitForResponse(/\/joint\?alone=on$/);
  await together.getByLabel("Judge it alone").check();
  assert.equal((await alone).status(), 200, "the joint is judged alone where that is wanted");

  await tabTo(page, "Keep what was read of both together");
  await page.keyboard.press("Enter");
  await tabTo(page, "Keep these readings");
  await page.keyboard.press("Enter");
  await page.getByRole("alert").filter({ hasText: "give at least one" }).waitFor();
  await expectedComplaint(page, /status of 400 .*\/whole/);
  await page.getByLabel("DC resistance of the whole").focus();
  await page.keyboard.type("over-range");
  await page.keyboard.press("Enter");
  await page.getByRole("row", { name: /DC resistance of the whole pickup/ }).waitFor();
  await until(page, "the open joint is found", async () => /open/i.test(await page.locator(".diagnosis .bars li").first().innerText().catch(() => "")));
  assert.equal(await page.evaluate(() => document.activeElement.textContent), "Its coils together", "the focus is where the answer stands");
  await page.context().close();
  done("both coils of a pickup are read on one visit, and how they are joined is judged with what was told of the whole");
}
