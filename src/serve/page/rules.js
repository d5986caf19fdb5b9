// The coil models and faults that the program knows, to read.
import { element, listed, terms } from "./dom.js";
import { get } from "./server.js";

function modelShown(model) {
  return element("details", {},
    element("summary", {}, model.title, element("span", { class: "quiet" }, ` ${model.id}`)),
    terms([["Wire", model.wire], ...model.ranges.map(({ what, words }) => [what, words])]),
    element("p", { class: "quiet" }, `Source: ${model.source}`));
}

function faultShown(fault) {
  return element("details", {},
    element("summary", {}, fault.title, element("span", { class: "quiet" }, ` ${fault.id}, ${fault.status}`)),
    terms(fault.signs.map(({ reading, shows }) => [reading, shows])),
    listed("What to do", fault.advice),
    listed("Take care", fault.cautions, { class: "cautions" }));
}

export async function showRules(main) {
  const [{ coil_models: models }, { faults }] = await Promise.all([get("/api/coil-models"), get("/api/faults")]);
  main.append(element("h1", {}, "Coil models and faults"), element("div", { class: "bench alike shelf" },
    element("section", {}, element("h2", {}, "Coil models: what sound coils measure, the central 95 %"), models.map(modelShown),
      element("p", {}, element("a", { class: "button plain", href: "#/rules/new" }, "Make a new coil model"))),
    element("section", {}, element("h2", {}, "Faults, the most frequent first"), faults.map(faultShown))));
}
