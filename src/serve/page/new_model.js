// A coil model for a pickup that none fits, from what can be measured; each answer shows at once what it narrows.
import { element } from "./dom.js";
import { choice, field, form, queryOf, trouble, valuesOf } from "./fields.js";
import { get } from "./server.js";
import { table, tableRow } from "./table.js";

function rangeRow(range, before) {
  const was = before?.words;
  const narrowed = was !== undefined && was !== range.words;
  return tableRow([range.quantity, range.words, range.range ? `by ${range.from}` : "",
    narrowed ? `${was === "open" ? "was open" : `was ${was}`}` : ""], { class: narrowed ? "narrowed" : null });
}

function fileShown(file, id) {
  const blob = new Blob([file], { type: "application/toml" });
  return [element("p", {}, "Keep this file in the folder rules/coils of the program's rules; it is read when the program starts. ",
    "Let measured coils narrow it."),
  element("p", {}, element("a", { class: "button ready", href: URL.createObjectURL(blob), download: `${id}.toml` }, `Save ${id}.toml`)),
  element("pre", { tabindex: "0", "aria-label": "The coil model's file" }, file)];
}

export async function showNewModel(main) {
  const { pickup_types: types } = await get("/api/pickup-types");
  const says = trouble();
  const ranges = element("div", { "aria-live": "polite" });
  const file = element("div", {});
  let before = [];
  let asked = 0;
  const ask = async (values) => {
    const mine = ++asked;
    const answer = await get(`/api/new-coil-model?${queryOf(values)}`);
    if (mine !== asked) return;
    says.textContent = answer.trouble ?? "";
    ranges.replaceChildren(table("What the answers say of a sound coil", ["Quantity", "Sound coils", "", ""],
      answer.ranges.map((range, i) => rangeRow(range, before[i]))));
    before = answer.ranges;
    file.replaceChildren(...(answer.file ? fileShown(answer.file, values.id) : []));
  };
  const made = form([
    choice("type", "Construction", [["", "not known"], ...types.map(({ id, title }) => [id, title])]),
    field("awg", "Gauge, AWG", { inputmode: "numeric" }, "36 to 46."),
    field("core", "Core that the wire lies on", {}, "LENGTH,WIDTH or a diameter, as 56mm,4.8mm."),
    field("flange", "Flanges", {}, "LENGTH,WIDTH or a diameter, as 70mm,16mm."),
    field("height", "Height between the flanges", {}, "As 10.5mm."),
    field("turns", "Turns, if they are known", {}, "As 7500..8100."),
    field("dc-resistance", "DC resistance of a coil that is taken for sound", {}, "As 6.1k, with its temperature."),
    field("temperature", "Its temperature, °C", { inputmode: "decimal" }),
    field("inductance", "Its series inductance at 1 kHz", {}, "As 2.3."),
    field("id", "Short name of the model", { pattern: "[a-z0-9\\-]+" }, "Small letters, digits and hyphens."),
    field("title", "What it is, in a few words"),
    element("button", { class: "ready" }, "Make the coil model"),
  ], says, (values) => {
    if (!values.id) throw new Error("Give the model a short name first.");
    return ask(values);
  });
  // A half-given answer, as a core without flanges, is said, and the table stays as it was.
  made.addEventListener("change", () => {
    const { id, title, ...values } = valuesOf(made);
    ask(values).catch((error) => { says.textContent = error.message; });
  });
  main.append(element("h1", {}, "A new coil model"),
    element("p", {}, "For a pickup that no model fits: answer what you can measure. Everything may stay open but what gives a resistance: ",
      "a coil that was read, or turns, bobbin and gauge."),
    element("div", { class: "bench" }, element("section", {}, made), element("section", {}, says, ranges, file)));
  await ask({});
}
