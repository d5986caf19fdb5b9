// The hands of the one who measures: they put the probes where the page says, and take every reading by a key.
import assert from "node:assert/strict";
import { heading, stepChanged, stepShown } from "./browser.mjs";

/** Takes every reading by a key, at the frame too; tells temperature and polarity. */
export async function readBy(page, plug, meters) {
  const done_title = "The examination is done";
  await heading(page).filter({ hasNotText: done_title }).waitFor(); // that of the one before
  for (let step = 0; step < 60; step += 1) {
    const { text, title, buttons, asksTemperature, bySettling, probes } = await stepShown(page);
    if (title === done_title) return;
    if (bySettling) await page.getByLabel("Take a reading by itself").uncheck();
    if (asksTemperature) {
      await page.getByLabel("Degrees Celsius").fill("20");
      await page.getByRole("button", { name: "Keep it" }).click();
    } else if (buttons.includes("As expected")) {
      await page.getByRole("button", { name: "As expected" }).click();
    } else if (buttons.includes("Skip this one")) {
      const at_frame = /frame/.test(probes);
      plug.leadTo(at_frame ? meters.frame : meters.leads);
      if (title.startsWith("polarity") || (at_frame && /finish/.test(probes))) {
        await page.getByRole("button", { name: "Skip this one" }).click();
      } else {
        await page.locator(".step").focus(); // on a box or a button the key would be that one's
        await page.keyboard.press("Space");
      }
    }
    await stepChanged(page, text);
  }
  throw new Error("the examination does not end");
}

/** Tab until the focus is on what is called so. */
export async function tabTo(page, name) {
  for (let presses = 0; presses < 80; presses += 1) {
    await page.keyboard.press("Tab");
    const on = await page.evaluate(() => {
      const at = document.activeElement;
      const label = at.labels?.[0]?.textContent ?? at.getAttribute("aria-label") ?? at.textContent;
      return { label: label.trim(), ring: getComputedStyle(at).outlineStyle };
    });
    if (!on.label.startsWith(name)) continue;
    assert.notEqual(on.ring, "none", `the focus on ${name} is seen`);
    return;
  }
  throw new Error(`Tab does not reach ${name}`);
}
