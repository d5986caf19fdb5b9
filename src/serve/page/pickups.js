// The pickups that the bench knows, and a new one.
import { element } from "./dom.js";
import { choice, field, valuesOf } from "./fields.js";
import { get, send } from "./server.js";

function row(pickup) {
  const model = pickup.coil_model ?? pickup.pickup_type ?? "";
  return element("tr", {},
    element("td", {}, String(pickup.number)),
    element("th", { scope: "row" }, element("a", { href: `#/pickups/${pickup.number}` }, pickup.name)),
    element("td", {}, pickup.instrument), element("td", {}, pickup.owner), element("td", {}, model));
}

function table(pickups) {
  if (pickups.length === 0) return element("p", { class: "quiet" }, "No pickup is found.");
  return element("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": "Pickups" },
    element("table", {},
      element("thead", {}, element("tr", {},
        ["No.", "Pickup", "Instrument", "Owner", "Model"].map((head) => element("th", { scope: "col" }, head)))),
      element("tbody", {}, pickups.map(row))));
}

function intake(models, says) {
  const form = element("form", { class: "intake" },
    field("name", "What is written on its label", { required: true, autocomplete: "off" }),
    field("instrument", "Instrument", { autocomplete: "off" }),
    field("owner", "Owner", { autocomplete: "off" }),
    choice("coil_model", "Coil model", models.map(({ id, title }) => [id, `${title} (${id})`])),
    field("notes", "Notes", { rows: 3 }),
    element("button", { class: "ready" }, "Keep it"));
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    try {
      const { number } = await send("POST", "/api/pickups", valuesOf(form));
      location.hash = `#/pickups/${number}`;
    } catch (error) {
      says.textContent = error.message;
    }
  });
  return form;
}

export async function showPickups(main, { bench, signal }) {
  const { coil_models: models } = await get("/api/coil-models");
  const says = element("p", { class: "trouble", role: "alert" });
  const list = element("div", {});
  const search = element("input", { id: "search", type: "search", autocomplete: "off" });
  let asked = 0;
  const refresh = async () => {
    const mine = ++asked;
    const { pickups } = await get(`/api/pickups?search=${encodeURIComponent(search.value)}`);
    if (mine === asked) list.replaceChildren(table(pickups));
  };
  search.addEventListener("input", refresh);
  bench.addEventListener("pickups", refresh, { signal });
  main.append(element("h1", {}, "Pickups"),
    element("p", { class: "field" }, element("label", { for: "search" }, "Search"), search), list,
    element("details", {}, element("summary", {}, "Enter a new pickup"), intake(models, says), says));
  await refresh();
}
