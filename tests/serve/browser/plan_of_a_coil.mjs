// One coil of two is planned as it was: by its own readings, not by those of the other.
import assert from "node:assert/strict";
import { randomUUID } from "node:crypto";
import { done, expectedComplaint, opened } from "./browser.mjs";
import { simulatedBench } from "./simulated_bench.mjs";

const name = "Jetty, neck";
const coil_models = { slug: "slug-coil-42", screw: "hot-coil-44" };
const was_ohm = { slug: 3987, screw: 8432 }; // invented; both at 20 °C
const at = "2026-03-02T10:00:00.000Z";

function judgedSound(coil) {
  return { id: randomUUID(), at, coil, fault: "healthy", probability: 0.98, decided: true, healthy: true };
}

function resistance(coil) {
  return { id: randomUUID(), at, quantity: "dc_resistance", between: "leads", coil, value: was_ohm[coil], unit: "ohm", standard_uncertainty: 2 };
}

/** An invented pickup, read once; each of these coils was judged sound then. */
function history(sound) {
  const temperature = { id: randomUUID(), at, quantity: "temperature", value: 20, unit: "degC", standard_uncertainty: 0.1 };
  const visit = { id: randomUUID(), at, stage: "", rewound: false, notes: "",
    readings: [temperature, ...Object.keys(was_ohm).map(resistance)], verdicts: sound.map(judgedSound) };
  const pickup = { id: randomUUID(), name, owner: "", instrument: "", pickup_type: "dual-coil-series", coils: coil_models, notes: "", added_at: at, changes: [] };
  return { histories: [{ pickup, visits: [visit] }] };
}

/** The first step of a rewind, asked for that coil. */
async function asked(page, coil) {
  const plan = page.locator("section").filter({ has: page.getByRole("heading", { name: "1. Plan the winding" }) });
  await plan.getByLabel("Which coil").selectOption(coil);
  assert.equal(await plan.getByLabel("Coil model", { exact: true }).inputValue(), coil_models[coil], "the coil model follows the coil");
  await plan.getByRole("button", { name: "Plan the winding" }).click();
  return plan;
}

/** The plan's resistance at 20 °C, in kilohm. */
async function planned(page, coil) {
  const plan = await asked(page, coil);
  await plan.locator(".headline").filter({ hasText: new RegExp(`Set the counter to \\d+ turns for the ${coil} coil`) }).waitFor();
  const row = await plan.getByRole("row", { name: /^DC resistance at 20\s°C/ }).innerText();
  return Number(/^([\d.]+) ± [\d.]+\skΩ$/.exec(row.split("\t")[1].trim())?.[1] ?? assert.fail(row));
}

async function rewindOpened(browser, { url }) {
  const page = await opened(browser, url, { at: "#/pickups/1/rewind" });
  await page.getByLabel("What it is to have").selectOption("as-it-was");
  await page.getByText("Another bobbin or wire").click();
  await page.getByLabel("Core").fill("56mm,4.8mm");
  await page.getByLabel("Flanges", { exact: true }).fill("70mm,16mm");
  await page.getByLabel("Height between the flanges").fill("10.5mm");
  return page;
}

async function eachAsItWas(program, browser) {
  const bench = await simulatedBench(program, [], { history: history(["slug", "screw"]) });
  try {
    const page = await rewindOpened(browser, bench);
    for (const coil of ["screw", "slug"]) {
      const kilohm = await planned(page, coil);
      assert.ok(Math.abs(kilohm / (was_ohm[coil] / 1000) - 1) < 0.01, `planned ${kilohm} kΩ, the ${coil} coil had ${was_ohm[coil]} Ω`);
    }
    await page.context().close();
    done("a coil of two is planned as that coil was");
  } finally {
    bench.end();
  }
}

async function notAsTheOtherWas(program, browser) {
  const bench = await simulatedBench(program, [], { history: history(["slug"]) });
  try {
    const page = await rewindOpened(browser, bench);
    await asked(page, "screw");
    await page.getByRole("alert").filter({ hasText: "no visit that judged this coil sound" }).waitFor();
    await expectedComplaint(page, /status of 400 .*\/api\/plan\?/);
    await page.context().close();
    done("a coil that was never judged sound is not planned as the other one was");
  } finally {
    bench.end();
  }
}

export async function planOfACoil(program, browser) {
  await eachAsItWas(program, browser);
  await notAsTheOtherWas(program, browser);
}
