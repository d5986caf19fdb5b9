// The live bench: meters, the one instruction that is open, and the diagnosis as it forms.
import { element, local, terms } from "./dom.js";
import { get, send } from "./server.js";
import { probesOn } from "./probes.js";
import { showMeters } from "./meters.js";
import { DiagnosisFace } from "./diagnosis.js";
import { keyChoice, keyInWords, takesReading, takingKey } from "./taking_key.js";

const phases = {
  thinking: "Working out what to measure next…",
  taking: "Taking the reading: hands off.",
};

function reply(bench, word, more = {}) {
  return send("POST", "/api/bench/reply", { step: bench.examination.step, reply: word, ...more });
}

function buttons(bench, act, ready) {
  return element("div", { class: "buttons" },
    ready,
    element("button", { type: "button", class: "plain", onclick: () => act(() => reply(bench, "skip")) }, "Skip this one"),
    element("button", { type: "button", class: "plain", onclick: () => act(() => reply(bench, "stop")) }, "End here"));
}

function takeButton(bench, act, words, key) {
  const named = key.kind === "none" ? words : `${words} (${keyInWords(key)})`;
  return element("button", { type: "button", class: "ready", onclick: () => act(() => reply(bench, "ready")) }, named);
}

/** Whether readings are taken by themselves. Who ticks it by a finger or a mouse has the keys free again: `moved_on` is called.
 * Who came to it by keys stays there, and Space is the box's until Tab. */
function settlingChoice(act, moved_on) {
  let by_pointer = false;
  const choose = (event) => {
    act(() => send("POST", "/api/bench/taking", { by_settling: event.target.checked }));
    if (by_pointer) moved_on();
    by_pointer = false;
  };
  const box = element("input", { type: "checkbox", onchange: choose, onkeydown: () => { by_pointer = false; } });
  return { box, label: element("label", { class: "choice", onpointerdown: () => { by_pointer = true; } },
    box, "Take a reading by itself once it has moved and stands still") };
}

function placing(bench, act, key) {
  const { instruction } = bench.examination;
  return [
    probesOn(instruction.between),
    element("h2", {}, instruction.what),
    element("p", { class: "how" }, instruction.how),
    instruction.by_hand ? element("p", { class: "how" }, `Set ${instruction.meter}: ${instruction.by_hand}`) : null,
    buttons(bench, act, takeButton(bench, act, "Take it", key)),
  ];
}

function temperatureForm(bench, act) {
  const value = element("input", { id: "told", type: "number", step: "0.1", min: "-40", max: "125", required: true });
  const tell = (event) => {
    event.preventDefault();
    act(() => reply(bench, "ready", { value: Number(value.value) }));
  };
  return element("form", { onsubmit: tell },
    element("label", { for: "told" }, "Degrees Celsius"), value,
    buttons(bench, act, element("button", { class: "ready" }, "Keep it")));
}

function polarityForm(bench, act) {
  const answers = [["as_expected", "As expected"], ["reversed", "The other way"], ["none", "No kick at all"]];
  return buttons(bench, act, answers.map(([polarity, words]) =>
    element("button", { type: "button", class: "ready", onclick: () => act(() => reply(bench, "ready", { polarity })) }, words)));
}

function telling(bench, act) {
  const { instruction } = bench.examination;
  return [
    element("h2", {}, instruction.what),
    element("p", { class: "how" }, instruction.how),
    ["polarity", "magnet_pole"].includes(instruction.quantity) ? polarityForm(bench, act) : temperatureForm(bench, act),
  ];
}

function mending(bench, act, key) {
  return [
    element("h2", {}, "Something is in the way"),
    element("p", { class: "trouble", role: "alert" }, bench.examination.trouble),
    buttons(bench, act, takeButton(bench, act, "Try again", key)),
  ];
}

function ended(bench, act) {
  const { phase, trouble, coil } = bench.examination;
  return [
    element("h2", {}, phase === "finished" ? "The examination is done" : "The examination could not go on"),
    trouble ? element("p", { class: "trouble", role: "alert" }, trouble) : null,
    element("p", {}, "Its readings are in the history."),
    element("div", { class: "buttons" },
      element("button", { type: "button", class: "ready", onclick: () => window.print() }, "Print the bench card"),
      element("a", { class: "button plain", href: `#/pickups/${coil.number}` }, "Open the pickup"),
      element("button", { type: "button", class: "plain", onclick: () => act(() => send("POST", "/api/bench/clear")) }, "Clear the bench")),
  ];
}

/** Examinations that were broken off, also by the end of the program. */
function unfinished(act) {
  const place = element("div", {});
  get("/api/bench/unfinished").then((answer) => place.append(...answer.unfinished.map(({ number, name, coil, visit, at, readings }) =>
    element("p", { class: "unfinished" },
      `${coil ? `${name}, ${coil} coil` : name}, ${local(at)}: not decided after ${readings} readings. `,
      element("button", { type: "button", class: "plain",
        onclick: () => act(() => send("POST", "/api/bench/examination", { pickup: number, coil, visit })) },
      `Go on with ${name}`)))))
    .catch(() => {}); // the list of pickups has them too
  return place;
}

function idle(bench, act) {
  return [
    element("h2", {}, "Nothing is being examined"),
    element("p", {}, "Choose the pickup that lies on the bench, or enter a new one, and begin there."),
    element("p", {}, element("a", { class: "button ready", href: "#/pickups" }, "Choose a pickup")),
    unfinished(act),
  ];
}

/** Says when to touch the pole, as it comes. */
function touching(bench, act) {
  return [
    element("h2", {}, "Watching for the kick"),
    element("p", { class: "now" }, bench.examination.heard.at(-1) ?? ""),
    element("p", { class: "how" }, bench.examination.instruction.how),
    element("div", { class: "buttons" },
      element("button", { type: "button", class: "plain", onclick: () => act(() => reply(bench, "skip")) }, "Do not wait for it"),
      element("button", { type: "button", class: "plain", onclick: () => act(() => reply(bench, "stop")) }, "End here")),
  ];
}

const steps = { placing, touching, telling, mending, finished: ended, failed: ended, idle };

function stepShown(bench, act, key) {
  const { phase } = bench.examination;
  if (steps[phase]) return steps[phase](bench, act, key);
  return [element("h2", {}, phases[phase]), element("p", {}, bench.examination.instruction?.what ?? "")];
}

function heading(coil) {
  if (!coil) return element("h1", {}, "Bench");
  return element("h1", {}, coil.coil ? `${coil.name}, ${coil.coil} coil` : coil.name,
    element("span", { class: "quiet" }, [coil.stage, coil.complaint].filter(Boolean).map((each) => ` · ${each}`).join("")));
}

/** What the printed card says of the pickup. */
function cardHead(coil) {
  if (!coil) return null;
  return terms([["Number", String(coil.number)], ["Instrument", coil.instrument], ["Owner", coil.owner], ["Coil model", coil.coil_model],
    ["Examined", local(coil.at)]], { class: "printed" });
}

const at_rest = ["idle", "finished", "failed"];

export function showBench(main, { bench, signal }) {
  const title = element("div", {});
  const step = element("section", { class: "step", tabindex: "-1", "aria-label": "Next measurement", "aria-live": "polite" });
  const refused = element("p", { class: "trouble", role: "alert" });
  const meters = element("div", { class: "meters" });
  const heard = element("ol", { class: "heard" });
  const found = new DiagnosisFace();
  let key = takingKey();
  let shown = "";

  const act = async (work) => {
    refused.textContent = "";
    await work().catch((error) => { refused.textContent = error.message; });
  };
  const settling = settlingChoice(act, () => step.focus());
  const taking = element("section", { class: "taking", "aria-label": "How a reading is taken" }, settling.label,
    keyChoice(signal, (chosen) => {
      key = chosen;
      refresh();
    }));
  const refresh = () => {
    const { examination } = bench;
    title.replaceChildren(...[heading(examination.coil), cardHead(examination.coil)].filter(Boolean));
    const heardNow = examination.phase === "touching" ? examination.heard.at(-1) : "";
    const now = JSON.stringify([examination.step, examination.phase, examination.trouble, heardNow, key]);
    if (now !== shown) {
      const focused = step.contains(document.activeElement);
      step.replaceChildren(...stepShown(bench, act, key).filter(Boolean));
      if (focused) step.focus(); // the button that had it is gone; Tab goes on from here
    }
    shown = now;
    settling.box.checked = examination.take_by_settling;
    taking.hidden = at_rest.includes(examination.phase);
    both.classList.toggle("idle", examination.phase === "idle");
    both.classList.toggle("done", ["finished", "failed"].includes(examination.phase));
    read.hidden = examination.heard.length === 0;
    heard.replaceChildren(...examination.heard.map((line) => element("li", {}, line)));
    found.show(examination.diagnosis);
  };
  const read = element("details", {}, element("summary", {}, "What was read"), heard);
  const both = element("div", { class: "bench" },
    element("div", {}, element("div", { class: "now-do" }, step, refused, taking), meters),
    element("div", {}, found.body, read));
  main.append(title, both);
  showMeters(meters, bench, signal);
  bench.addEventListener("examination", refresh, { signal });
  let answered = null;
  document.addEventListener("keydown", (event) => {
    const { phase, step: open } = bench.examination;
    if (!takesReading(event, key) || !["placing", "mending"].includes(phase)) return;
    event.preventDefault();
    if (answered === open) return; // a pedal that bounces
    answered = open;
    act(() => reply(bench, "ready").catch((error) => {
      answered = null;
      throw error;
    }));
  }, { signal });
  refresh();
}
