// Which part of the page is shown, by the address behind "#".
import { element } from "./dom.js";
import { Bench } from "./server.js";
import { showBench } from "./bench.js";
import { showPickups } from "./pickups.js";
import { showPickup } from "./pickup.js";
import { showRewind } from "./rewind.js";
import { showRules } from "./rules.js";
import { showNewModel } from "./new_model.js";

const bench = new Bench();
const main = document.getElementById("main");
const link = document.getElementById("link");
let leave = new AbortController();

const parts = [
  [/^#\/bench$/, "Bench", showBench],
  [/^#\/pickups$/, "Pickups", showPickups],
  [/^#\/pickups\/(\d+)$/, "Pickup", showPickup],
  [/^#\/pickups\/(\d+)\/rewind(?:\?(.*))?$/, "Rewind", showRewind],
  [/^#\/rules$/, "Coil models and faults", showRules],
  [/^#\/rules\/new$/, "A new coil model", showNewModel],
];

async function show() {
  leave.abort(); // whatever the part before was listening to
  leave = new AbortController();
  const address = location.hash || "#/bench";
  const part = parts.find(([pattern]) => pattern.test(address)) ?? parts[0];
  const [pattern, title, fill] = part;
  document.title = `${title} – Coilward`;
  for (const each of document.querySelectorAll("nav a")) {
    if (address.startsWith(each.getAttribute("href"))) each.setAttribute("aria-current", "page");
    else each.removeAttribute("aria-current");
  }
  main.replaceChildren();
  try {
    await fill(main, { bench, signal: leave.signal, found: pattern.exec(address) ?? [] });
  } catch (error) {
    main.replaceChildren(element("p", { class: "trouble", role: "alert" }, error.message));
  }
}

bench.addEventListener("link", () => {
  link.textContent = bench.connected ? "" : "No connection to the program; it is tried again";
});
window.addEventListener("hashchange", () => {
  show();
  main.focus();
});
show();
