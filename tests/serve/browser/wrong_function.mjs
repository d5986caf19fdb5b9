// A meter whose knob stands on volts where ohms are asked for: the person is told so, and nothing is taken until it is turned.
import assert from "node:assert/strict";
import { accessible, done, heading, opened, takenIn } from "./browser.mjs";
import { saying, simulatedBench } from "./simulated_bench.mjs";

const name = "Gannet, neck";

/** What was read of the only pickup, but for the temperature that was told. */
async function kept(page) {
  const { visits } = await page.evaluate(() => fetch("/api/pickups/1").then((answer) => answer.json()));
  return visits.flatMap(({ readings }) => readings).filter(({ quantity }) => quantity !== "temperature");
}

async function begun(page, url) {
  await page.goto(`${url}#/pickups/1`);
  await page.getByLabel("Temperature of the coil").fill("20");
  await page.getByRole("button", { name: "Begin the examination" }).click();
  await heading(page).filter({ hasText: "DC resistance" }).waitFor();
  await page.getByText("Turn the meter to ohms").waitFor();
}

/** `shown` stands beside the meter's number; `said` is what is in the way when the person takes the reading all the same. */
async function refused(page, shown, said) {
  await page.locator(".meter.used .state").filter({ hasText: shown }).waitFor();
  await page.waitForTimeout(3000); // a resistance that stands still is taken within a second or two
  assert.match(await heading(page).innerText(), /DC resistance/, "nothing is taken by itself");
  await accessible(page, `a meter that ${shown}`);
  await page.locator(".step").focus();
  await page.keyboard.press("Space");
  const words = page.getByRole("alert").filter({ hasText: said });
  await words.waitFor();
  assert.equal(await heading(page).innerText(), "Something is in the way");
  assert.deepEqual(await kept(page), [], "no reading is kept");
  done(`a meter on the wrong function: ${await words.innerText()}`);
}

async function ended(page) {
  await page.getByRole("button", { name: "End here" }).click();
  await page.getByRole("button", { name: "Clear the bench" }).click();
  await page.getByText("Nothing is being examined").waitFor();
}

export async function wrongFunction(program, browser) {
  const meter = "dmm-ascii-line"; // its knob is turned by hand
  const bench = await simulatedBench(program, [{ meter, words: ["--measure", "dc_voltage"] }]);
  const alternating = await saying("2 ACV 1.2345 V \r\n"); // as in the manual that drivers/dmm-ascii-line.toml names
  try {
    const [plug] = bench.plugs;
    const page = await opened(browser, bench.url);
    await takenIn(page, name);
    await begun(page, bench.url);
    await refused(page, "shows DC voltage, not DC resistance: set it for that", "the meter shows DC voltage, not DC resistance; set it for that");
    await ended(page);
    plug.leadTo(alternating.port);
    await begun(page, bench.url);
    await refused(page, "the meter is on volts AC", "no reading: the meter is on volts AC");

    plug.leadTo(await bench.another({ meter, words: ["--measure", "dc_resistance"] }));
    await page.getByRole("button", { name: "Try again" }).click();
    await heading(page).filter({ hasNotText: /DC resistance|Something is in the way|Taking|Working out/ }).waitFor();
    assert.deepEqual((await kept(page)).map(({ quantity }) => quantity), ["dc_resistance"]);
    done("once its knob is turned the reading is taken");
    await page.context().close();
  } finally {
    alternating.end();
    bench.end();
  }
}
