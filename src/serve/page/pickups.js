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

/** The models that the construction is wound to, before all others. */
function modelChoice(name, label, models, fitting) {
  const named = ({ id, title }) => [id, `${title} (${id})`];
  const fits = ({ id }) => fitting.includes(id);
  return choice(name, label, [...models.filter(fits), ...models.filter((model) => !fits(model))].map(named));
}

/** One model, or one for each coil of a construction that has several. */
function coilChoices(type, models) {
  const coils = type?.coils ?? [{ name: "", models: [] }];
  return coils.map((coil) => (coil.name === ""
    ? modelChoice("coil_model", "Coil model", models, coil.models)
    : modelChoice(`coil ${coil.name}`, `Coil model of the ${coil.name} coil`, models, coil.models)));
}

/** The fields as POST /api/pickups takes them. */
function asked(values) {
  const coils = Object.entries(values).filter(([name]) => name.startsWith("coil ")).map(([name, model]) => [name.slice(5), model]);
  const rest = Object.fromEntries(Object.entries(values).filter(([name]) => !name.startsWith("coil ")));
  return coils.length > 0 ? { ...rest, coils: Object.fromEntries(coils) } : rest;
}

function intake(models, types, says) {
  const coils = element("div", { "aria-live": "polite" });
  const construction = choice("pickup_type", "Construction", [["", "one coil, nothing more is known"], ...types.map(({ id, title }) => [id, title])]);
  const show = (id) => coils.replaceChildren(...coilChoices(types.find((type) => type.id === id), models));
  construction.querySelector("select").addEventListener("change", (event) => show(event.target.value));
  show("");
  return form([
    field("name", "What is written on its label", { required: true }),
    field("instrument", "Instrument"),
    field("owner", "Owner"),
    construction,
    coils,
    element("p", { class: "quiet" }, "None of them fits? ", element("a", { href: "#/rules/new" }, "Make a coil model"), "."),
    field("notes", "Notes", { rows: 3 }),
    element("button", { class: "ready" }, "Keep it"),
  ], says, async (values) => {
    const { number } = await send("POST", "/api/pickups", asked(values));
    location.hash = `#/pickups/${number}`;
  });
}

export async function showPickups(main, { bench, signal }) {
  const [{ coil_models: models }, { pickup_types: types }] = await Promise.all([get("/api/coil-models"), get("/api/pickup-types")]);
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
    element("details", {}, element("summary", {}, "Enter a new pickup"), intake(models, types, says), says));
  await refresh();
}
