// Pictures of every page as a person meets it, over the simulated bench: at five sizes, light and dark, into pictures/ beside
// this file. What docs/ shows is among them (tests/docs/page_pictures). All names are invented.
import { mkdirSync } from "node:fs";
import { done, forgiven, heading, opened, stepChanged, stepShown, takenIn, until } from "./browser.mjs";
import { simulatedBench } from "./simulated_bench.mjs";
import { readBy } from "./hands.mjs";

const looks = [
  { of: "desk", viewport: { width: 1280, height: 800 }, colorScheme: "light" },
  { of: "night", viewport: { width: 1280, height: 800 }, colorScheme: "dark" },
  { of: "phone", viewport: { width: 320, height: 640 }, colorScheme: "light" },
  { of: "tablet", viewport: { width: 820, height: 1180 }, colorScheme: "dark" },
  { of: "4k", viewport: { width: 3840, height: 2160 }, colorScheme: "light" },
];

/** One scene in every look. Whatever is folded stays folded. */
async function taken(page, scene, { whole = true } = {}) {
  for (const { of, viewport, colorScheme } of looks) {
    await page.setViewportSize(viewport);
    await page.emulateMedia({ colorScheme });
    await page.waitForTimeout(1300); // a trace is drawn once a second
    await page.screenshot({ path: `pictures/${scene}-${of}.png`, fullPage: whole });
  }
  await page.setViewportSize(looks[0].viewport);
  await page.emulateMedia({ colorScheme: "light" });
  done(`pictures of ${scene}`);
}

/** A sheet of A4 as it is printed, and as a picture. */
async function printed(page, name) {
  await page.emulateMedia({ media: "print" });
  await page.pdf({ path: `pictures/${name}.pdf`, preferCSSPageSize: true });
  await page.setViewportSize({ width: 688, height: 1017 }); // 182 mm by 269 mm, A4 without its margins
  await page.screenshot({ path: `pictures/${name}-print.png`, fullPage: true });
  await page.setViewportSize(looks[0].viewport);
  await page.emulateMedia({ media: "screen" });
}

async function anExamination(page, plug, meters) {
  await takenIn(page, "Lighthouse, bridge");
  await taken(page, "new-pickup");
  await page.getByLabel("What its owner complains of").fill("thin since it fell");
  await page.getByLabel("Temperature of the coil").fill("21.5");
  await page.getByRole("button", { name: "Begin the examination" }).click();
  await heading(page).filter({ hasText: /resistance/ }).waitFor();
  await page.getByLabel("Take a reading by itself").uncheck();
  await page.waitForTimeout(20000); // a trace worth the name
  await taken(page, "first-step");
  await page.keyboard.press("Space");
  await heading(page).filter({ hasText: /AC resistance|inductance|quality/ }).waitFor();
  await page.locator(".meter.used .number").filter({ hasText: /\d/ }).waitFor();
  await page.waitForTimeout(5000);
  await taken(page, "bench");
  await readBy(page, plug, meters);
  await taken(page, "verdict");
  await printed(page, "bench-card");
}

async function aPulledPlug(page, plug) {
  plug.pull();
  await page.locator(".meter .state").filter({ hasText: "is gone" }).waitFor();
  await taken(page, "pulled");
  await plug.plug();
  await page.locator(".meter .state").filter({ hasText: /^$/ }).first().waitFor({ state: "attached" });
}

async function theWorkshop(page, plug, meters, url) {
  await page.getByRole("link", { name: "Open the pickup" }).click();
  await page.getByLabel("Stage of the work").fill("rewound");
  await page.getByLabel("The winding is new").check();
  await page.getByRole("button", { name: "Begin the examination" }).click();
  await readBy(page, plug, meters);
  await page.getByRole("link", { name: "Open the pickup" }).click();
  await page.getByRole("button", { name: "Compare the two visits" }).click();
  await page.getByRole("region", { name: "Before and after" }).waitFor();
  await page.locator(".over-time canvas").first().waitFor();
  await taken(page, "pickup");
  await printed(page, "pickup");
  await page.getByRole("link", { name: "Plan or confirm a rewind" }).click();
  await page.getByLabel("How much").fill("6.25k");
  await page.getByText("Another bobbin or wire").click();
  await page.getByLabel("Core").fill("56mm,4.8mm");
  await page.getByLabel("Flanges", { exact: true }).fill("70mm,16mm");
  await page.getByLabel("Height between the flanges").fill("10.5mm");
  await page.getByRole("button", { name: "Plan the winding" }).click();
  await page.locator(".headline").filter({ hasText: "Set the counter to" }).waitFor();
  await page.getByLabel("Counted turns").fill("7950±5");
  await page.getByRole("button", { name: "Hold it against its limits" }).click();
  await page.locator(".headline").filter({ hasText: "Decision" }).waitFor();
  await taken(page, "rewind");
  const [record] = await Promise.all([page.waitForEvent("popup"), page.getByRole("link", { name: "Open the record to print" }).click()]);
  await record.getByRole("heading", { name: "Record of a rewind" }).waitFor();
  await printed(record, "record");
  await record.close();
  await page.goto(`${url}#/pickups`);
  await page.getByRole("link", { name: "Lighthouse, bridge" }).waitFor();
  await taken(page, "pickups");
  await page.goto(`${url}#/rules`);
  await page.getByText("Some turns are shorted").click();
  await page.getByText("Single coil, six rod").first().click();
  await taken(page, "rules");
}

async function aNewModel(page, url) {
  await page.goto(`${url}#/rules/new`);
  await page.getByLabel("Gauge, AWG").fill("42");
  await page.getByLabel("Core that the wire lies on").fill("56mm,4.8mm");
  await page.getByLabel("Flanges", { exact: true }).fill("70mm,16mm");
  await page.getByLabel("Height between the flanges").fill("10.5mm");
  await page.getByLabel("Turns, if they are known").focus();
  await until(page, "a narrowed resistance", () => page.getByRole("row", { name: /^DC resistance.*was open/ }).isVisible());
  forgiven(/status of 400 .*\/api\/new-coil-model\?/); // a core without flanges, then without a height
  await taken(page, "new-model");
}

export async function pictures(program, browser) {
  mkdirSync("pictures", { recursive: true });
  const noise = ["--noise", "0.00005"];
  const shorted = ["--fault", "shorted-turns", "--severity", "shorted_fraction=0.06"];
  const bench = await simulatedBench(program, [{ meter: "dmm-scpi", words: [...noise, ...shorted] }, { meter: "lcr-fetch-ab", words: [...noise, ...shorted] }]);
  try {
    const plug = bench.plugs[0];
    const meters = { leads: plug.meterPort, frame: await bench.another({ meter: "dmm-scpi", words: ["--probes", "start-frame"] }) };
    const page = await opened(browser, bench.url, { colorScheme: "light", viewport: looks[0].viewport });
    await page.locator(".meter").nth(1).waitFor();
    await taken(page, "idle");
    await anExamination(page, plug, meters);
    await theWorkshop(page, plug, meters, bench.url);
    await aNewModel(page, bench.url);
    await page.goto(`${bench.url}#/bench`);
    await page.getByRole("button", { name: "Clear the bench" }).click();
    await page.getByText("Nothing is being examined").waitFor();
    await aPulledPlug(page, plug);
  } finally {
    bench.end();
  }
}
