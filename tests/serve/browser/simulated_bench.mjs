// The program with a simulated multimeter whose plug can be pulled, in a data folder of its own.
import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import net from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";

/** Starts a program and gives it with the first line that it prints. */
async function started(program, words) {
  const child = spawn(program, words, { stdio: ["ignore", "pipe", "inherit"] });
  const lines = createInterface({ input: child.stdout });
  const line = await new Promise((resolve, reject) => {
    lines.once("line", resolve);
    child.once("exit", (code) => reject(new Error(`${words[0]} ended with ${code}`)));
  });
  return { child, line };
}

/** A port of its own in front of the simulated meter's, which can be closed and opened again. */
class Plug {
  constructor(meterPort) {
    this.meterPort = meterPort;
    this.sockets = new Set();
    this.port = 0;
  }

  async plug() {
    this.server = net.createServer((near) => {
      const far = net.connect(this.meterPort, "127.0.0.1");
      for (const [from, to] of [[near, far], [far, near]]) {
        this.sockets.add(from);
        from.on("error", () => to.destroy());
        from.on("close", () => to.destroy());
        from.pipe(to);
      }
    });
    await new Promise((resolve) => this.server.listen(this.port, "127.0.0.1", resolve));
    this.port = this.server.address().port;
  }

  pull() {
    this.server.close();
    for (const socket of this.sockets) socket.destroy();
    this.sockets.clear();
  }
}

export async function simulatedBench(program) {
  const data = mkdtempSync(join(tmpdir(), "coilward-page-"));
  const meter = await started(program, ["simulate", "--meter", "dmm-scpi", "--coil", "six-rod-42", "--fault", "open", "--on", "tcp"]);
  const plug = new Plug(Number(meter.line.split(":").at(-1)));
  await plug.plug();
  const served = await started(program, ["serve", "--listen", "127.0.0.1:0", "--data", data,
    "--meter", "dmm-scpi", "--port", `tcp://127.0.0.1:${plug.port}`]);
  return {
    plug,
    url: /http:\S+/.exec(served.line)[0],
    end() {
      served.child.kill("SIGINT");
      meter.child.kill("SIGINT");
      plug.pull();
      rmSync(data, { recursive: true, force: true });
    },
  };
}
