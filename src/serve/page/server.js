// Talks to the server of this page (docs/http.md).

async function answerOf(response) {
  const document = await response.json().catch(() => ({}));
  if (response.status === 401) location.assign("/pair");
  if (!response.ok) throw new Error(document.error ?? `the server answered ${response.status}`);
  return document;
}

export async function get(path) {
  return answerOf(await fetch(path));
}

export async function send(method, path, body = {}) {
  return answerOf(await fetch(path, {
    method,
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify(body),
  }));
}

/** A picture, as it is. */
export async function sendBytes(path, blob) {
  return answerOf(await fetch(path, { method: "POST", headers: { "Content-Type": blob.type }, body: blob }));
}

/** The bench as it is now, kept up to date; listeners are called with ("examination" | "meter" | "link", …). */
export class Bench extends EventTarget {
  constructor() {
    super();
    this.examination = { phase: "idle", heard: [], step: 0, take_by_settling: true };
    this.meters = [];
    this.connected = false;
    this.open();
  }

  open() {
    const stream = new EventSource("/api/bench/stream");
    const on = (name, take) => stream.addEventListener(name, (event) => {
      take(JSON.parse(event.data));
    });
    on("bench", ({ examination, meters }) => {
      this.examination = examination;
      this.meters = meters;
      this.link(true);
      this.say("examination");
      meters.forEach((meter) => this.say("meter", meter));
    });
    on("examination", (examination) => {
      if (examination.version < this.examination.version) return;
      this.examination = examination;
      this.say("examination");
    });
    on("meter", (meter) => {
      this.meters[meter.index] = meter;
      this.say("meter", meter);
    });
    on("pickups", () => this.say("pickups"));
    stream.addEventListener("error", () => {
      this.link(false);
      if (stream.readyState !== EventSource.CLOSED) return; // it tries again by itself
      setTimeout(() => this.open(), 2000);
    });
  }

  link(connected) {
    this.connected = connected;
    this.say("link");
  }

  say(name, detail) {
    this.dispatchEvent(new CustomEvent(name, { detail }));
  }
}
