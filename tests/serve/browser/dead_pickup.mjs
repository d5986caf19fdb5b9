// A dead pickup from intake to its printed card. On the way the meter is pulled and put back, the page is reloaded, the
// program is killed and started again, and a second device looks on.
import assert from "node:assert/strict";
import { accessible, done, heading, noSidewaysScroll, onePage, opened, stepChanged, stepShown, takenIn } from "./browser.mjs";
import { simulatedBench } from "./simulated_bench.mjs";

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

async function killed(page, bench) {
  await page.keyboard.press("Space");
  await heading(page).filter({ hasNotText: "DC resistance" }).filter({ hasNotText: "Taking" }).waitFor();
  await bench.killAndStart();
  await page.getByRole("button", { name: "Go on with Lighthouse, neck" }).click();
  await page.getByRole("button", { name: "Skip this one" }).waitFor();
  assert.doesNotMatch(await heading(page).innerText(), /temperature|DC resistance/, "what was read is not asked again");
  done("after the program was killed and started again the examination goes on where it was");
}

/** Leaves out the rest. */
async function toTheEnd(page, other) {
  for (let step = 0; step < 40; step += 1) {
    const { text, title, buttons } = await stepShown(page);
    if (title === "The examination is done") break;
    const skip = buttons.find((each) => /Skip this one|Do not wait for it/.test(each));
    if (skip) await page.getByRole("button", { name: skip }).click({ timeout: 5000 }).catch(() => {}); // the step had gone on by itself
    await stepChanged(page, text);
  }
  const verdict = await page.locator(".headline").innerText();
  assert.match(verdict, /The wire is broken/);
  await other.locator(".headline").filter({ hasText: verdict }).waitFor();
  await heading(other).filter({ hasText: "The examination is done" }).waitFor();
  done(`both devices see the same end: ${verdict}`);
}

async function history(page) {
  await page.getByRole("link", { name: "Open the pickup" }).click();
  await page.locator(".visit .headline").waitFor();
  assert.match(await page.locator(".visit").innerText(), /silent since the cover came off/);
  await page.getByLabel("Notes").fill("finish lead to be soldered");
  await page.getByRole("button", { name: "Keep the notes" }).click();
  await page.getByText("The notes are kept.").waitFor();
  await accessible(page, "a pickup with a visit");
  done("visits and notes are there");
}

export async function deadPickup(program, browser) {
  const bench = await simulatedBench(program, [{ meter: "dmm-scpi", words: ["--fault", "open"] }]);
  try {
    const page = await opened(browser, bench.url, { colorScheme: "light" });
    await page.getByText("Nothing is being examined").waitFor();
    await accessible(page, "the empty bench");
    await takenIn(page, "Lighthouse, neck");
    await accessible(page, "a pickup");
    await page.getByLabel("What its owner complains of").fill("silent since the cover came off");
    await page.getByRole("button", { name: "Begin the examination" }).click();
    done("a pickup is taken in and its examination begun");
    await temperature(page);
    await pulledPlug(page, bench.plugs[0]);
    await reload(page);
    const phone = await opened(browser, bench.url, { colorScheme: "dark", viewport: { width: 320, height: 640 }, reducedMotion: "reduce" });
    await heading(phone).filter({ hasText: "DC resistance" }).waitFor();
    await noSidewaysScroll(phone, "the live bench at 320 px");
    await accessible(phone, "the live bench, dark, 320 px");
    await killed(page, bench);
    await toTheEnd(page, phone);
    await accessible(page, "the verdict");
    await accessible(phone, "the verdict, dark, 320 px");
    await noSidewaysScroll(phone, "the verdict at 320 px");
    await onePage(page, "the bench card");
    await history(page);
  } finally {
    bench.end();
  }
}
