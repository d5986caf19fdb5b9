// Every page, from a small phone to a 4K screen, light and dark, and the whole of an examination by the keyboard alone.
import assert from "node:assert/strict";
import { networkInterfaces } from "node:os";
import { accessible, done, expectedComplaint, forgiven, heading, noSidewaysScroll, opened, takenIn, until } from "./browser.mjs";
import { tabTo } from "./hands.mjs";
import { simulatedBench } from "./simulated_bench.mjs";
import { twoCoils } from "./two_coils.mjs";

const pages = [ // address, what it is, its heading, what comes later than that
  ["#/bench", "the bench", "Bench"], ["#/pickups", "the list of pickups", "Pickups"],
  ["#/pickups/1", "a pickup", "Lantern, middle"], ["#/pickups/1/rewind", "a rewind", "Rewind of Lantern, middle"],
  ["#/pickups/2", "a pickup of two coils", "Breakwater, bridge", ".diagnosis .bars li"],
  ["#/rules", "coil models and faults", "Coil models and faults"], ["#/rules/new", "a new coil model", "A new coil model"],
];

const screens = [
  { width: 320, height: 568 }, { width: 1280, height: 800 }, { width: 3840, height: 2160 },
];

// Where axe looks: each page in each scheme, and at both ends of the sizes.
const looked_at = { light: 3840, dark: 320 };

async function atEverySize(browser, url) {
  for (const colorScheme of ["light", "dark"])
    for (const viewport of screens) {
      const page = await opened(browser, url, { viewport, colorScheme });
      for (const [at, what, title, later] of pages) {
        await page.goto(url + at);
        await page.getByRole("heading", { level: 1, name: title, exact: true }).waitFor();
        if (later) await page.locator(later).first().waitFor();
        for (const details of await page.locator("details").all()) await details.evaluate((node) => { node.open = true; });
        await noSidewaysScroll(page, `${what} at ${viewport.width} px`);
        if (looked_at[colorScheme] === viewport.width) await accessible(page, `${what}, ${colorScheme}, ${viewport.width} px`);
      }
      await page.context().close();
    }
  done(`no page scrolls sideways at ${screens.map(({ width }) => width).join(", ")} px`);
}

async function newModel(browser, url) {
  const page = await opened(browser, url, { at: "#/rules/new" });
  await page.getByLabel("Gauge, AWG").fill("42");
  await page.getByLabel("Core that the wire lies on").fill("56mm,4.8mm");
  await page.getByLabel("Flanges", { exact: true }).fill("70mm,16mm");
  await page.getByLabel("Height between the flanges").fill("10.5mm");
  await page.getByLabel("Turns, if they are known").focus(); // leaves the field, as a person does
  const row = page.getByRole("row", { name: /^DC resistance/ });
  await row.filter({ hasText: "was open" }).waitFor();
  for (let halves = 0; halves < 2; halves += 1) // a core without flanges, then without a height, are refused
    await expectedComplaint(page, /status of 400 .*\/api\/new-coil-model\?/);
  const before = await row.innerText();
  await page.getByLabel("Turns, if they are known").fill("7500..8100");
  await page.getByLabel("Short name").focus();
  await row.filter({ hasText: /was \d/ }).waitFor();
  assert.notEqual(await row.innerText(), before, "the turns narrow the resistance");
  await page.getByLabel("Short name").fill("lighthouse-neck");
  await page.getByRole("button", { name: "Make the coil model" }).click();
  const file = await page.locator("pre").innerText();
  assert.match(file, /id = "lighthouse-neck"/);
  const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("link", { name: "Save lighthouse-neck.toml" }).click()]);
  assert.equal(download.suggestedFilename(), "lighthouse-neck.toml");
  await page.context().close();
  done("a coil model is made from a form that shows what each answer narrows");
}

async function byKeyboard(browser, url) {
  const page = await opened(browser, url, { reducedMotion: "reduce" });
  await page.locator("h1").waitFor();
  await tabTo(page, "Skip to the work");
  await tabTo(page, "Pickups");
  await page.keyboard.press("Enter");
  await page.getByRole("link", { name: "Lantern, middle" }).waitFor();
  await tabTo(page, "Lantern, middle");
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { level: 1, name: "Lantern, middle" }).waitFor();
  await tabTo(page, "What its owner complains of");
  await page.keyboard.type("weak");
  await tabTo(page, "Begin the examination");
  await page.keyboard.press("Enter");
  await heading(page).filter({ hasText: "temperature" }).waitFor();
  await tabTo(page, "Degrees Celsius");
  await page.keyboard.type("20");
  await page.keyboard.press("Enter");
  await heading(page).filter({ hasText: "DC resistance" }).waitFor();
  await tabTo(page, "Take a reading by itself");
  await page.keyboard.press("Space");
  await tabTo(page, "Take it");
  await page.keyboard.press("Enter");
  await heading(page).filter({ hasNotText: "DC resistance" }).filter({ hasNotText: "Taking" }).waitFor();
  await page.locator(".bars li").first().waitFor();
  await page.getByRole("button", { name: "End here" }).waitFor();
  await tabTo(page, "End here");
  await page.keyboard.press("Enter");
  await heading(page).filter({ hasText: "The examination is done" }).waitFor();
  await tabTo(page, "Clear the bench");
  await page.keyboard.press("Enter");
  await page.getByText("Nothing is being examined").waitFor();
  const moving = await page.evaluate(() => [...document.querySelectorAll("*")].filter((each) =>
    parseFloat(getComputedStyle(each).transitionDuration) > 0 || getComputedStyle(each).animationName !== "none").length);
  assert.equal(moving, 0, "nothing moves by itself where motion is to be reduced");
  await page.context().close();
  done("a whole examination by the keyboard alone, and with motion reduced nothing moves");
}

async function begun(page, url) {
  await page.goto(`${url}#/pickups/1`);
  await page.getByLabel("Temperature of the coil").fill("20");
  await page.getByRole("button", { name: "Begin the examination" }).click();
  await heading(page).filter({ hasText: "DC resistance" }).waitFor();
}

async function next(page, title) {
  await heading(page).filter({ hasNotText: title }).filter({ hasNotText: "Taking" }).filter({ hasNotText: "Working out" }).waitFor();
  return heading(page).innerText();
}

/** A key that must do nothing, then one that must take the reading. */
async function only(page, none, one) {
  const before = await page.locator(".step").innerText();
  const title = await heading(page).innerText();
  await page.keyboard.press(none);
  await page.waitForTimeout(700);
  assert.equal(await page.locator(".step").innerText(), before, `${none} takes nothing`);
  await one();
  return next(page, title);
}

async function ended(page) {
  const [end, clear] = ["End here", "Clear the bench"].map((name) => page.getByRole("button", { name }));
  await end.or(clear).waitFor();
  if (await end.isVisible()) await end.click();
  await clear.click();
  await page.getByText("Nothing is being examined").waitFor();
}

/** Who unticks "by itself" by the mouse has the keys free again; who does it by the keys stays where he is. */
async function theBox(page, url) {
  await begun(page, url);
  const box = page.getByLabel("Take a reading by itself");
  await box.uncheck();
  await page.keyboard.press("Space");
  await next(page, "DC resistance");
  assert.equal(await box.isChecked(), false, "the space bar took the reading and left the box alone");
  await box.focus();
  await page.keyboard.press("Space");
  await until(page, "the box is ticked", () => box.isChecked());
  await page.keyboard.press("Space");
  await until(page, "the box is as it was", async () => !(await box.isChecked()));
  assert.ok(await box.evaluate((node) => node === document.activeElement), "the focus stays where the person put it");
  await ended(page);
  done("after the box for taking by itself the keys do what a person expects");
}

/** Which key takes a reading, the person chooses (WCAG 2.1, 2.1.4). */
async function aPedal(page, url) {
  await begun(page, url);
  await page.getByText("Key or pedal").click();
  await page.getByRole("button", { name: "Choose one key" }).click();
  await page.keyboard.press("PageDown");
  await page.getByText("From now on Page Down takes a reading").waitFor();
  await page.getByRole("button", { name: "Take it (Page Down)" }).waitFor();
  await accessible(page, "the choice of a pedal");
  await page.reload();
  await page.getByRole("button", { name: "Take it (Page Down)" }).waitFor(); // it is kept
  await only(page, "x", () => page.keyboard.press("PageDown"));
  await page.getByText("Key or pedal").click();
  await page.getByRole("button", { name: "No key" }).click();
  await only(page, "PageDown", async () => {
    await page.getByRole("button", { name: "Any key" }).click();
    await page.keyboard.press("x"); // while the focus is on that button
  });
  await ended(page);
  done("any key or one alone takes a reading, or none, as the person chooses");
}

async function byAKey(browser, url) {
  const page = await opened(browser, url);
  await page.locator("h1").waitFor();
  await theBox(page, url);
  await aPedal(page, url);
  await page.context().close();
}

const readable_px = 12.8 * 96 / 25.4; // 22 minutes of arc at two metres (ISO 9241-303's preferred height, from memory), in CSS pixels

/** The height of a meter's figures on a bench computer's screen. */
async function fromTwoMetres(browser, url) {
  for (const viewport of [{ width: 1280, height: 800 }, { width: 1920, height: 1080 }]) {
    const page = await opened(browser, url, { viewport });
    await page.locator(".meter .number").filter({ hasText: /\d/ }).first().waitFor();
    const heights = await page.locator(".meter .number").evaluateAll((numbers) => numbers.map((number) => {
      const pen = document.createElement("canvas").getContext("2d");
      const { fontSize, fontFamily } = getComputedStyle(number);
      pen.font = `${fontSize} ${fontFamily}`;
      return { height: pen.measureText("8").actualBoundingBoxAscent, cut: number.scrollWidth > number.clientWidth };
    }));
    for (const { height, cut } of heights) {
      assert.ok(height >= readable_px, `${height} px at ${viewport.width} px: less than ${readable_px}`);
      assert.ok(!cut, "a number is cut off");
    }
    await page.context().close();
  }
  done("figures are high enough to be read from two metres");
}

/** Beside this machine, where each device is paired first. */
async function pairing(program, browser) {
  const own = Object.values(networkInterfaces()).flat().find(({ family, internal }) => family === "IPv4" && !internal);
  if (!own) return console.log("    no address beside loopback here: the pairing page is not looked at");
  const bench = await simulatedBench(program, [], { listen: own.address });
  try {
    for (const colorScheme of ["light", "dark"]) {
      const page = await opened(browser, bench.url, { colorScheme, viewport: screens[0] });
      await page.getByRole("heading", { name: "Pair this device" }).waitFor();
      await noSidewaysScroll(page, "pairing at 320 px");
      await accessible(page, `pairing, ${colorScheme}`);
      const code = bench.said().map((line) => /code[^:]*: ([\d ]+)/.exec(line)?.[1]).filter(Boolean).at(-1);
      await page.getByLabel("The code that the terminal shows").fill(code);
      await page.getByRole("button", { name: "Pair" }).click();
      await page.getByText("Nothing is being examined").waitFor();
      await page.context().close();
    }
    // Chromium says of each document that it has no use for this header where plain HTTP comes from another address.
    forgiven(/^The Cross-Origin-Opener-Policy header has been ignored/);
    done("a device beside this machine is paired by the code");
  } finally {
    bench.end();
  }
}

export async function everyPage(program, browser) {
  const bench = await simulatedBench(program, [{ meter: "dmm-scpi" }]);
  try {
    const page = await opened(browser, bench.url);
    await takenIn(page, "Lantern, middle");
    await page.context().close();
    await fromTwoMetres(browser, bench.url);
    await byKeyboard(browser, bench.url);
    await byAKey(browser, bench.url);
    await twoCoils(browser, bench.url);
    await newModel(browser, bench.url);
    await atEverySize(browser, bench.url);
  } finally {
    bench.end();
  }
  await pairing(program, browser);
}
