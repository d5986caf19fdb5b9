// Tables that scroll by themselves where the screen is narrow.
import { element } from "./dom.js";

/** `rows` are lists of cells; the first of each heads its row. A row may be an element already. A column whose head is empty
 * has no header cell: an empty one would be read out as nothing. */
export function table(name, heads, rows) {
  return element("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": name },
    element("table", {},
      element("thead", {}, element("tr", {}, heads.map((head) => (head ? element("th", { scope: "col" }, head) : element("td", {}))))),
      element("tbody", {}, rows.map((row) => (row instanceof Element ? row : tableRow(row))))));
}

export function tableRow([head, ...cells], attributes = {}) {
  return element("tr", attributes, element("th", { scope: "row" }, head), cells.map((cell) => element("td", {}, cell)));
}
