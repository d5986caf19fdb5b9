// The pickups that the bench knows, and a new one.
import { element } from "./dom.js";
import { choice, field, form, trouble } from "./fields.js";
import { get, send } from "./server.js";
import { table } from "./table.js";

function listedPickups(pickups) {
  if (pickups.length === 0) return element("p", { class: "quiet" }, "No pickup is found.");
  return table("Pickups", ["Pickup", "No.", "Instrument", "Owner", "Model"], pickups.map((pickup) => [
    element("a", { href: `#/pickups/${pickup.number}` }, pickup.name), String(pickup.number), pickup.instrument, pickup.owner,
    pickup.coil_model ?? pickup.pickup_type ?? ""]));
}

function intake(models, says) {
  return form([
    field("name", "What is written on its label", { required: true }),
    field("instrument", "Instrument"),
    field("owner", "Owner"),
    choice("coil_model", "Coil model", models.map(({ id, title }) => [id, `${title} (${id})`])),
    element("p", { class: "quiet" }, "None of them fits? ", element("a", { href: "#/rules/new" }, "Make a coil model"), "."),
    field("notes", "Notes", { rows: 3 }),
    element("button", { class: "ready" }, "Keep it"),
  ], says, async (values) => {
    const { number } = await send("POST", "/api/pickups", values);
    location.hash = `#/pickups/${number}`;
  });
}

export async function showPickups(main, { bench, signal }) {
  const { coil_models: models } = await get("/api/coil-models");
  const says = trouble();
  const list = element("div", {});
  const search = element("input", { id: "search", type: "search", autocomplete: "off" });
  let asked = 0;
  const refresh = async () => {
    const mine = ++asked;
    const { pickups } = await get(`/api/pickups?search=${encodeURIComponent(search.value)}`);
    if (mine === asked) list.replaceChildren(listedPickups(pickups));
  };
  search.addEventListener("input", refresh);
  bench.addEventListener("pickups", refresh, { signal });
  main.append(element("h1", {}, "Pickups"),
    element("p", { class: "field" }, element("label", { for: "search" }, "Search"), search), list,
    element("details", {}, element("summary", {}, "Enter a new pickup"), intake(models, says), says));
  await refresh();
}
