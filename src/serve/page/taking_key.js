// Which key takes a reading: any that types, the one that the person chose, or none. A pedal is a keyboard with one key. Each
// browser keeps its own choice. (WCAG 2.1, 2.1.4: what a single key does can be changed and turned off.)
import { element } from "./dom.js";

const kept = "coilward-taking-key";
const any = { kind: "any" };

export function takingKey() {
  try {
    return JSON.parse(localStorage.getItem(kept)) ?? any;
  } catch {
    return any; // a browser that keeps nothing, or something else under this name
  }
}

function keep(choice) {
  try {
    localStorage.setItem(kept, JSON.stringify(choice));
  } catch {
    // it holds until the page is left
  }
}

const names = { " ": "Space", Control: "Ctrl" };

/** "Page Down", "F8", "B" */
function nameOf(key) {
  if (names[key]) return names[key];
  return key.length === 1 ? key.toUpperCase() : key.replace(/([a-z])([A-Z])/g, "$1 $2");
}

export function keyInWords(choice) {
  return { any: "any key", none: "no key" }[choice.kind] ?? nameOf(choice.key);
}

/** True where the key works what has the focus: a form's field, a button, a link. */
function belongsToFocus({ target, key }) {
  if (target.closest("textarea, select, input:not([type=checkbox])")) return true;
  if (target.closest("input[type=checkbox]")) return key === " ";
  if (target.closest("button, summary")) return key === " " || key === "Enter";
  return target.closest("a") !== null && key === "Enter";
}

/** Any key that types something, and Enter: not those that move about the page, turn up the sound or work the browser. */
const types = (event) => !event.ctrlKey && !event.altKey && !event.metaKey && (event.key.length === 1 || event.key === "Enter");

export function takesReading(event, choice) {
  if (event.repeat || event.isComposing || choice.kind === "none" || belongsToFocus(event)) return false;
  return choice.kind === "one" ? event.key === choice.key && event.code === choice.code : types(event);
}

const gettingAbout = ["Tab", "Escape"];

/** Waits for a key and gives it; nothing where the person moved on. */
function nextKey(signal) {
  return new Promise((resolve) => {
    const heard = new AbortController();
    const end = (choice) => {
      heard.abort();
      resolve(choice);
    };
    signal.addEventListener("abort", () => end(null), { once: true });
    document.addEventListener("pointerdown", () => end(null), { signal: heard.signal, capture: true });
    document.addEventListener("keydown", (event) => {
      if (gettingAbout.includes(event.key)) return end(null);
      event.preventDefault();
      event.stopImmediatePropagation(); // it takes no reading yet
      if (!event.repeat && event.key !== "Unidentified") end({ kind: "one", key: event.key, code: event.code });
    }, { signal: heard.signal, capture: true });
  });
}

/** The choice as a fold with its buttons. `chosen` is called with each new one. */
export function keyChoice(signal, chosen) {
  const summary = element("summary", {});
  const says = element("p", { role: "status" });
  const show = (choice, words = "") => {
    summary.textContent = `Key or pedal: ${keyInWords(choice)}`;
    says.textContent = words;
  };
  const choose = (choice, words) => {
    keep(choice);
    chosen(choice);
    show(choice, words);
  };
  const one = async () => {
    says.textContent = "Press the key or the pedal now. Escape leaves it as it was.";
    const choice = await nextKey(signal);
    if (choice) choose(choice, `From now on ${keyInWords(choice)} takes a reading, and no other key.`);
    else says.textContent = "It stays as it was.";
  };
  const button = (words, work) => element("button", { type: "button", class: "plain", onclick: work }, words);
  show(takingKey());
  return element("details", { class: "taking-key" }, summary,
    element("p", {}, "A foot switch that acts as a keyboard is a pedal. This browser keeps the choice."),
    element("div", { class: "buttons" }, button("Choose one key", one),
      button("Any key", () => choose(any, "Any key that types takes a reading, and Enter.")),
      button("No key", () => choose({ kind: "none" }, "Only the button takes a reading."))), says);
}
