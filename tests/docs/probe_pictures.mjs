// docs/pictures/probes-*.svg, drawn by what draws them for the page (src/serve/page/probes.js):
//   node probe_pictures.mjs            compares
//   node probe_pictures.mjs --write    draws them anew
import { readFileSync, writeFileSync } from "node:fs";

const pictures = new URL("../../docs/pictures/", import.meta.url);

const escaped = (text) => String(text).replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll('"', "&quot;");

/** As much of a document as a drawing needs. */
class Node {
  constructor(name) {
    this.name = name;
    this.attributes = [];
    this.children = [];
  }
  setAttribute(key, value) {
    this.attributes.push([key, value]);
  }
  append(...children) {
    this.children.push(...children);
  }
  text() {
    const attributes = this.attributes.map(([key, value]) => ` ${key}="${escaped(value)}"`).join("");
    const inside = this.children.map((child) => (child instanceof Node ? `\n${child.text()}` : escaped(child))).join("");
    return inside ? `<${this.name}${attributes}>${inside}</${this.name}>` : `<${this.name}${attributes}/>`;
  }
}

globalThis.document = { createElementNS: (_, name) => new Node(name) };
const { probesOn } = await import("../../src/serve/page/probes.js");

const style = `.frame { fill: none; stroke: #667; stroke-width: 2 } .winding { fill: #b5652a; fill-opacity: .25; stroke: #b5652a }
.pole { fill: #889 } .lead { fill: none; stroke: #667; stroke-width: 2 } .words { fill: #223; font: 14px sans-serif }
.probe { stroke-width: 5; stroke-linecap: round } .clip { fill: none; stroke-width: 3 } .red { stroke: #c8312b } .black { stroke: #223 }`;

let different = 0;
for (const between of ["leads", "start-frame", "finish-frame", "start-shield", "finish-shield", "leads-frame"]) {
  const drawing = probesOn(between);
  drawing.attributes.unshift(["xmlns", "http://www.w3.org/2000/svg"], ["width", 340], ["height", 180]);
  const back = new Node("rect");
  for (const [key, value] of [["width", "100%"], ["height", "100%"], ["fill", "#fff"]]) back.setAttribute(key, value);
  const sheet = new Node("style");
  sheet.append(style);
  drawing.children.unshift(sheet, back);
  const file = new URL(`probes-${between}.svg`, pictures);
  const text = drawing.text() + "\n";
  if (process.argv.includes("--write")) {
    writeFileSync(file, text);
  } else if (readFileSync(file, "utf8") !== text) {
    console.error(`docs/pictures/probes-${between}.svg is not what the page draws; run: node tests/docs/probe_pictures.mjs --write`);
    different = 1;
  }
}
process.exit(different);
