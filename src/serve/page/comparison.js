// Two visits of one pickup beside each other: which differences are more than chance.
import { element, local } from "./dom.js";
import { choice, coilChoice, form, queryOf, trouble } from "./fields.js";
import { get } from "./server.js";
import { table } from "./table.js";

function difference(each) {
  return element("span", {}, each.difference, element("br"), element("span", { class: "quiet" }, each.per_cent));
}

function answerShown({ words }) {
  const compared = words.quantities.filter((each) => each.difference);
  if (compared.length === 0) return element("p", {}, "Nothing was read on both visits that could be compared.");
  return [table("Before and after", ["Reading", words.titles[0], words.titles[1], "Difference", ""],
    compared.map((each) => [each.title, ...each.values, difference(each), each.says])),
  element("p", { class: "quiet" }, `${words.rule} Resistances and Q are those at 20 °C.`)];
}

export function comparisonShown(pickup, visits) {
  if (visits.length < 2) return null;
  const says = trouble();
  const answer = element("div", { class: "compared" });
  const named = visits.map((visit) => [visit.id, `${local(visit.at)}${visit.stage ? `, ${visit.stage}` : ""}`]);
  return element("section", { class: "screen" }, element("h2", {}, "Before and after"),
    form([
      choice("before", "Before", named, visits.at(-2).id),
      choice("after", "After", named, visits.at(-1).id),
      coilChoice(pickup, "", "Of the coil"),
      element("button", { class: "plain" }, "Compare the two visits"),
    ], says, async (values) => {
      answer.replaceChildren(...[answerShown(await get(`/api/pickups/${pickup.number}/comparison?${queryOf(values)}`))].flat());
    }), says, answer);
}
