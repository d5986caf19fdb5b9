// The bench page in a real browser, over simulated meters. A third word picks one of the jobs.
import assert from "node:assert/strict";
import { complaints, done, launched } from "./browser.mjs";
import { deadPickup } from "./dead_pickup.mjs";
import { everyPage } from "./every_page.mjs";
import { latency } from "./latency.mjs";
import { pictures } from "./pictures.mjs";
import { planOfACoil } from "./plan_of_a_coil.mjs";
import { rewind } from "./rewind.mjs";
import { wrongFunction } from "./wrong_function.mjs";

const [program, executablePath, only] = process.argv.slice(2);
const jobs = { deadPickup, wrongFunction, rewind, planOfACoil, everyPage, latency };

const browser = await launched(executablePath);
try {
  for (const [name, job] of Object.entries(jobs)) if (!only || only === name) await job(program, browser, executablePath);
  if (only === "pictures") await pictures(program, browser);
  assert.deepEqual(complaints.filter((each) => !each.includes("ERR_")), []);
  done("the browser has nothing to complain of");
} finally {
  await browser.close();
}
