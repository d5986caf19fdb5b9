// A rewind from start to finish: planned, wound, measured, held against its limits, recorded. What was ordered and counted
// stands in the address, so that a reload, a bookmark or another device has it too.
import { element, listed, terms } from "./dom.js";
import { choice, coilChoice, field, form, queryOf, trouble } from "./fields.js";
import { get, send } from "./server.js";
import { table } from "./table.js";

function planShown(plan, coil) {
  const { words } = plan;
  return [
    element("p", { class: "headline" }, `Set the counter to ${words.turns} turns${coil ? ` for the ${coil} coil` : ""}`),
    element("p", {}, `Does it fit? ${words.fits}`),
    table("The plan", ["Figure", "Amount", "Its uncertainty comes from"], words.figures.map(({ title, amount, cause }) => [title, amount, cause])),
    words.other_wires.length > 0 ? table("With the next wires", ["Wire", "Turns for the target", "Would these turns fit?"],
      words.other_wires.map(({ wire, turns_for_target, fits }) => [wire, turns_for_target, fits])) : null,
    listed("Notes", words.notes),
    element("details", {}, element("summary", {}, "Where the inputs come from"),
      terms(Object.entries(plan.inputs.sources))),
  ].filter(Boolean);
}

const targets = [["dc-resistance", "DC resistance at 20 °C, as 6.1k"], ["turns", "Turns, as 7900"], ["inductance", "Inductance, as 2.4"],
  ["as-it-was", "As it was when it was last sound"]];

/** The coil model, which follows the coil that is planned. */
function modelOf(pickup, coils, models) {
  const first = pickup.coil_model ?? Object.values(pickup.coils ?? {})[0] ?? "";
  const model = choice("model", "Coil model", models.map(({ id, title }) => [id, `${title} (${id})`]), first);
  coils?.querySelector("select").addEventListener("change", (event) => {
    model.querySelector("select").value = pickup.coils[event.target.value];
  });
  return model;
}

function planForm(pickup, models) {
  const says = trouble();
  const coils = coilChoice(pickup);
  const answer = element("div", { "aria-live": "polite" });
  const bobbin = element("details", {}, element("summary", {}, "Another bobbin or wire than the coil model's"),
    field("core", "Core", {}, "LENGTH,WIDTH or a diameter, as 56mm,4.8mm."),
    field("flange", "Flanges", {}, "LENGTH,WIDTH or a diameter."),
    field("height", "Height between the flanges", {}, "As 10.5mm."),
    field("tape", "Depth to keep free for tape", {}, "As 0.2mm."),
    field("awg", "Gauge, AWG", { inputmode: "numeric" }),
    field("overall-diameter", "Diameter over the enamel", {}, "As 71u, measured over ten turns side by side."),
    field("ohm-per-metre", "Measured of this spool", {}, "As 5.41±0.02 ohm per metre at 20 °C."),
    field("controls", "Controls across the leads", {}, "As 250k; together with the cable."),
    field("cable", "Cable across the leads", {}, "As 500p."));
  return [[form([
    coils,
    modelOf(pickup, coils, models),
    choice("target", "What it is to have", targets),
    field("wanted", "How much", {}, "Left empty for “as it was”."),
    bobbin,
    element("button", { class: "plain" }, "Plan the winding"),
  ], says, async ({ target, wanted, coil = "", ...rest }) => {
    const words = target === "as-it-was" ? { "as-it-was": String(pickup.number), coil } : { [target]: wanted };
    answer.replaceChildren();
    const plan = await get(`/api/plan?${queryOf({ ...rest, ...words })}`).catch((error) => {
      bobbin.open ||= /^(core|flange|height|awg)/.test(error.message); // what is missing is in there
      throw error;
    });
    answer.replaceChildren(...planShown(plan, coil));
  }), says], answer];
}

function measureForm(pickup) {
  const says = trouble();
  return [form([
    coilChoice(pickup),
    field("stage", "Stage of the work", { value: "rewound" }),
    element("button", { class: "ready" }, "Measure the new winding"),
  ], says, async ({ coil = "", stage }) => {
    await send("POST", "/api/bench/examination", { pickup: pickup.number, coil, stage, rewound: true });
    location.hash = "#/bench";
  }), says];
}

const decisions = { pass: "passes", fail: "fails", "measure better": "measure better" };

function decided(decision) {
  return element("span", { class: `decision ${decision.replace(" ", "-")}` }, decisions[decision] ?? decision);
}

function confirmationShown(confirmation, record) {
  const { words } = confirmation;
  return [
    element("p", { class: "headline", role: "status" }, `Decision: ${words.decision}`),
    element("p", {}, `${words.subject}; ${words.temperature}`),
    table("Measured against its limits", ["", "Decision", "At 20 °C", "Limits", "Inside"], [ // a phone shows the first two
      ...words.checked.map((each) => [each.title, decided(each.decision), element("span", {}, each.judged, element("br"), element("span", { class: "quiet" }, each.says)),
        element("span", {}, each.limits, element("br"), element("span", { class: "quiet" }, each.from)), each.probability]),
      ...confirmation.conditions.map((each) => [each.condition, decided(each.decision), each.says, "", ""]),
    ]),
    words.turns.length > 0 ? table("Turns", ["By", "Turns"], words.turns.map(({ from, turns }) => [from, turns])) : null,
    listed("Of the turns", confirmation.turns.says),
    element("p", { class: "quiet" }, words.rule),
    element("p", {}, element("a", { class: "button ready", href: record, target: "_blank", rel: "noopener" }, "Open the record to print")),
  ].filter(Boolean);
}

const ordered = [["dc_resistance", "DC resistance"], ["inductance@1kHz", "Inductance at 1 kHz"]];

/** The words of the address' query, as the confirmation takes them. */
function queryOfOrder({ coil, turns, "as-it-was": past, tested_by, remarks, ...order }) {
  const limit = ordered.map(([name]) => (order[name] ? `${name}=${order[name]}` : "")).filter(Boolean);
  return queryOf({ coil, turns, "as-it-was": past, tested_by, remarks, limit });
}

function confirmForm(pickup, said) {
  const says = trouble();
  const answer = element("div", { "aria-live": "polite" });
  const confirm = async (values) => {
    const query = queryOfOrder(values);
    const confirmation = await get(`/api/pickups/${pickup.number}/confirmation?${query}`);
    answer.replaceChildren(...confirmationShown(confirmation, `/api/pickups/${pickup.number}/record?${query}`));
  };
  const made = form([
    coilChoice(pickup, said.coil),
    field("turns", "Counted turns", { value: said.turns ?? "", inputmode: "numeric" }, "As 7950, or 7950±5."),
    ordered.map(([name, title]) => field(name, `${title}, as ordered`, { value: said[name] ?? "" },
      "Limits at 20 °C, as 5.9k..6.4k; the coil model's where this is empty.")),
    field("as-it-was", "Within so many per cent of what it was", { value: said["as-it-was"] ?? "", inputmode: "decimal" },
      "In place of the coil model, where it was once judged sound here."),
    field("tested_by", "Tested by", { value: said.tested_by ?? "" }),
    field("remarks", "Remarks", { value: said.remarks ?? "" }),
    element("button", { class: "ready" }, "Hold it against its limits"),
  ], says, async (values) => {
    history.replaceState(null, "", `#/pickups/${pickup.number}/rewind?${queryOf(values)}`);
    await confirm(values);
  });
  if (Object.keys(said).length > 0) confirm(said).catch((error) => { says.textContent = error.message; });
  return [[made, says], answer];
}

/** A form and its answer, side by side where there is room. */
function beside([asked, answer]) {
  return element("div", { class: "bench work" }, element("div", {}, asked), answer);
}

export async function showRewind(main, { found }) {
  const [{ pickup, visits }, { coil_models: models }] = await Promise.all([get(`/api/pickups/${found[1]}`), get("/api/coil-models")]);
  const said = Object.fromEntries(new URLSearchParams(found[2] ?? ""));
  document.title = `Rewind of ${pickup.name} – Coilward`;
  main.append(element("h1", {}, "Rewind of ", element("a", { href: `#/pickups/${pickup.number}` }, pickup.name)),
    element("p", { class: "cautions" }, "Unplug and take the pickup out of its circuit first. A spinning winder takes fingers and hair; ",
      "hot wax burns; strong magnets pinch, and disturb pacemakers. Local codes and licensed practice come first."),
    element("section", {}, element("h2", {}, "1. Plan the winding"), beside(planForm(pickup, models))),
    element("section", {}, element("h2", {}, "2. Wind it, and measure it"), measureForm(pickup)),
    element("section", {}, element("h2", {}, "3. Confirm it"),
      visits.length > 0 ? beside(confirmForm(pickup, said)) : element("p", { class: "quiet" }, "Nothing was read of it yet.")));
}
