// The program with simulated meters whose plugs can be pulled, in a data folder of its own.
import { spawn, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import net from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";

/** Starts a program and gives it with its lines as they come and the first one. */
async function started(program, words) {
  const child = spawn(program, words, { stdio: ["ignore", "pipe", "inherit"] });
  const lines = createInterface({ input: child.stdout });
  const heard = [];
  lines.on("line", (line) => heard.push(line));
  await new Promise((resolve, reject) => {
    lines.once("line", resolve);
    child.once("exit", (code) => reject(new Error(`${words[0]} ended with ${code}`)));
  });
  return { child, heard, line: heard[0] };
}

async function ended(child, signal) {
  if (child.exitCode !== null || child.signalCode !== null) return;
  const gone = new Promise((resolve) => child.once("exit", resolve));
  child.kill(signal);
  await gone;
}

/** Milliseconds since 1970 with fractions, on the clock that a page's timeOrigin + now() shows too. */
export function now() {
  return performance.timeOrigin + performance.now();
}

/** A port of its own in front of a simulated meter's. It can be closed and opened again, and led to another meter. */
class Plug {
  constructor(meterPort) {
    this.meterPort = meterPort;
    this.sockets = new Set();
    this.port = 0;
    this.passed = () => {}; // hears the bytes of the meter as they go to the program
  }

  async plug() {
    this.server = net.createServer((near) => {
      near.setNoDelay(true);
      this.near = near;
      near.on("data", (bytes) => this.far.write(bytes));
      near.on("error", () => near.destroy());
      near.on("close", () => this.far?.destroy());
      this.sockets.add(near);
      this.lead();
    });
    await new Promise((resolve) => this.server.listen(this.port, "127.0.0.1", resolve));
    this.port = this.server.address().port;
  }

  lead() {
    const far = net.connect(this.meterPort, "127.0.0.1");
    far.setNoDelay(true);
    far.on("data", (bytes) => {
      if (far !== this.far) return;
      this.passed(bytes, now()); // before they go on: this process may have to wait between the two
      this.near.write(bytes);
    });
    far.on("error", () => far.destroy());
    this.far = far;
    this.sockets.add(far);
  }

  /** From now on another meter answers behind the plug: the probes are somewhere else. */
  leadTo(meterPort) {
    if (meterPort === this.meterPort) return;
    this.meterPort = meterPort;
    this.far?.destroy();
    this.lead();
  }

  pull() {
    this.server.close();
    for (const socket of this.sockets) socket.destroy();
    this.sockets.clear();
  }
}

/** A simulated meter: {meter: driver, words: more words for `simulate`}. */
async function simulated(program, { meter, words = [] }) {
  const { child, line } = await started(program, ["simulate", "--meter", meter, "--coil", "six-rod-42", ...words, "--on", "tcp"]);
  return { child, port: Number(line.split(":").at(-1)) };
}

/** A meter that says one line ten times a second, whatever it says. */
export async function saying(line) {
  const sockets = new Set();
  const server = net.createServer((socket) => {
    const timer = setInterval(() => socket.write(line), 100);
    socket.on("error", () => socket.destroy());
    socket.on("close", () => clearInterval(timer));
    sockets.add(socket);
  });
  await new Promise((resolve) => server.listen(0, "127.0.0.1", resolve));
  return {
    port: server.address().port,
    end() {
      server.close();
      for (const socket of sockets) socket.destroy();
    },
  };
}

function imported(program, data, history) {
  const { status, stderr } = spawnSync(program, ["import", "-", "--data", data], { input: JSON.stringify(history) });
  if (status !== 0) throw new Error(String(stderr));
}

/** The program over simulated meters. `listen` is an address without a port; `history`, as `export` prints it, is there before. */
export async function simulatedBench(program, meters, { listen = "127.0.0.1", history = null } = {}) {
  const data = mkdtempSync(join(tmpdir(), "coilward-page-"));
  if (history) imported(program, data, history);
  const children = [];
  const plugs = [];
  const words = [];
  for (const each of meters) {
    const { child, port } = await simulated(program, each);
    children.push(child);
    plugs.push(new Plug(port));
    await plugs.at(-1).plug();
    words.push("--meter", each.meter, "--port", `tcp://127.0.0.1:${plugs.at(-1).port}`);
  }
  const serve = (port) => started(program, ["serve", "--listen", `${listen}:${port}`, "--data", data, ...words]);
  let served = await serve(0);
  const urlOf = ({ heard }) => heard.map((line) => /http:\S+\//.exec(line)?.[0]).find(Boolean);
  const until = async (what) => {
    for (let tries = 0; tries < 200; tries += 1) {
      const found = what();
      if (found) return found;
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
    throw new Error("the program did not say its address");
  };
  const url = await until(() => urlOf(served));
  return {
    plugs,
    url,
    said: () => served.heard,
    another: async (meter) => {
      const { child, port } = await simulated(program, meter);
      children.push(child);
      return port;
    },
    /** Ends the program as hard as can be, and starts it again at the same address. */
    async killAndStart() {
      await ended(served.child, "SIGKILL");
      served = await serve(new URL(url).port);
      await until(() => urlOf(served));
    },
    end() {
      served.child.kill("SIGINT");
      for (const child of children) child.kill("SIGINT");
      for (const plug of plugs) plug.pull();
      rmSync(data, { recursive: true, force: true });
    },
  };
}
