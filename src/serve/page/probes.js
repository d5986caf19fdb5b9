// Where the probes go, as a drawing: the pickup from below with its two leads and its frame.
import { svg } from "./dom.js";

const places = {
  leads: ["start", "finish"],
  "start-frame": ["start", "frame"],
  "finish-frame": ["finish", "frame"],
  "start-shield": ["start", "shield"],
  "finish-shield": ["finish", "shield"],
  "leads-frame": ["both leads", "frame"],
};

const ends = { start: [250, 62], finish: [250, 108], "both leads": [250, 85], frame: [60, 150], shield: [160, 150] };

function words(x, y, text, anchor = "start") {
  return svg("text", { x, y, class: "words", "text-anchor": anchor }, text);
}

function probe(end, colour) {
  const [x, y] = ends[end];
  const tip = { x1: x, y1: y, x2: x + 52, y2: y + (end === "start" ? -26 : 26), class: `probe ${colour}` };
  return [svg("line", tip), svg("circle", { cx: x, cy: y, r: 7, class: `clip ${colour}` })];
}

function coil() {
  return [
    svg("rect", { x: 20, y: 40, width: 200, height: 90, rx: 45, class: "frame" }),
    svg("rect", { x: 36, y: 54, width: 168, height: 62, rx: 31, class: "winding" }),
    ...[0, 1, 2, 3, 4, 5].map((i) => svg("circle", { cx: 68 + i * 21, cy: 85, r: 6, class: "pole" })),
    svg("path", { d: "M200 72 H250 M250 62 L250 72", class: "lead" }),
    svg("path", { d: "M200 98 H250 M250 108 L250 98", class: "lead" }),
    svg("path", { d: "M60 126 V150", class: "lead" }),
  ];
}

/** A drawing for the points of an instruction ("leads", "start-frame", …). */
export function probesOn(between) {
  const [one, other] = places[between] ?? places.leads;
  const shield = one === "shield" || other === "shield";
  const parts = [...coil(), ...probe(one, "red"), ...probe(other, "black"),
    words(262, 84, "start lead"), words(262, 102, "finish lead"), words(52, 172, "frame", "end")];
  if (one === "both leads") parts.push(svg("path", { d: "M250 62 V108", class: "lead" }));
  if (shield) parts.push(svg("path", { d: "M160 130 V150", class: "lead" }), words(152, 172, "shield", "end"));
  return svg("svg", {
    viewBox: "0 0 340 180", class: "probes", role: "img",
    "aria-label": `One probe on the ${one}, the other on the ${other}`,
  }, ...parts);
}
