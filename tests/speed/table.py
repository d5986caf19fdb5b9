"""Writes docs/speed.md; tests/bench/run calls it: table.py SPEED BESIDE PROGRAM."""

import datetime
import json
import os
import pathlib
import re
import signal
import subprocess
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests/history/speed"))
import measure  # noqa: E402

missed = []
ROUNDS = 5  # as rounds_beside in beside/cpu_time.h


def printed(words, **more):
    return subprocess.run([str(word) for word in words], check=True, capture_output=True, text=True, **more).stdout


def table(heads, rows):
    lines = ["| " + " | ".join(heads) + " |", "|" + " --- |" * len(heads)]
    return "\n".join(lines + ["| " + " | ".join(row) + " |" for row in rows]) + "\n"


def duration(seconds):
    for unit, size in (("s", 1.0), ("ms", 1e-3), ("µs", 1e-6)):
        if seconds >= size:
            return f"{seconds / size:.3g} {unit}"
    return f"{seconds / 1e-9:.3g} ns"


def judged(value, limit, at_least, name):
    """Says beside a figure what it must be, and remembers it where it is not."""
    good = value >= limit if at_least else value <= limit
    if not good:
        missed.append(name)
    return f"{'at least' if at_least else 'at most'} {limit:g}{'' if good else ': **missed**'}"


def beside_general_programs(beside):
    rows = []
    for row in json.loads(printed([beside])):
        must = judged(row["ratio"], row["least_ratio"], True, row["work"]) if row["least_ratio"] else "—"
        rows.append([row["work"], row["beside"], duration(row["our_seconds"]), duration(row["their_seconds"]),
                     f"{row['ratio']:.3g}", must, row["agreement"]])
    return table(["work", "beside", "ours", "theirs", "theirs / ours", "must be", "answers"], rows)


def start_up(program):
    """The commands take turns, so that an hour in which the machine is slow meets all of them."""
    commands = (["--help"], ["models"], ["diagnose", "--readings", str(ROOT / "docs/examples/shorted-turns.json")])
    times = [[] for _ in commands]
    for _ in range(20):
        for words, taken in zip(commands, times):
            taken.append(measure.user_seconds([program, *words]))
    rows = []
    for words, taken in zip(commands, times):
        cpu, wall = (1000 * min(each) for each in zip(*taken))
        rows.append([f"`coilward {words[0]}`", f"{wall:.1f} ms", f"{cpu:.1f} ms", judged(wall, 30, False, "start-up")])
    return table(["whole process", "wall", "processor", "ms must be"], rows)


def memory_of(process):
    status = pathlib.Path(f"/proc/{process}/status").read_text()
    return {name: int(value) / 1024 for name, value in re.findall(r"^(VmRSS|VmHWM|RssAnon):\s+(\d+) kB", status, re.M)}


def idle_serving(program, folder):
    server = subprocess.Popen([program, "--data", str(folder / "served"), "serve", "--listen", "127.0.0.1:0"],
                              stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
    try:
        said = server.stdout.readline()
        time.sleep(2.0)
        memory = memory_of(server.pid)
    finally:
        server.send_signal(signal.SIGINT)
        server.wait(20)
    return table(["`coilward serve`, two seconds after its first line", "MB", "must be"],
                 [["resident", f"{memory['VmRSS']:.1f}", judged(memory["VmRSS"], 40, False, "idle serving")],
                  ["of that, not read from files", f"{memory['RssAnon']:.1f}", "—"]]) + f"\nIts first line: `{said.strip()}`\n"


def least_of_repetitions(words):
    """Of each benchmark the repetition that took least, in the order of the program."""
    result = json.loads(printed([*words, "--benchmark_format=json", f"--benchmark_repetitions={ROUNDS}",
                                 "--benchmark_enable_random_interleaving=true", "--benchmark_min_time=0.1"]))
    least = {}
    for each in result["benchmarks"]:
        if each["run_type"] != "iteration":
            continue
        known = least.setdefault(each["run_name"], each)
        if each["cpu_time"] < known["cpu_time"]:
            least[each["run_name"]] = each
    return sorted(least.values(), key=lambda each: (each["family_index"], each["per_family_instance_index"]))


def growth(program, speed, folder):
    rows = []
    example = json.dumps(json.loads((ROOT / "docs/examples/shorted-turns.json").read_text()))
    for count in (1, 1_000, 20_000):
        file = folder / "lines.jsonl"
        file.write_text((example + "\n") * count)
        with open(file) as lines:
            cpu, wall = measure.user_seconds([program, "diagnose", "--jsonl"], stdin=lines)
        rows.append(["diagnoses by `--jsonl`, one process", f"{count:,}", duration(cpu), duration(wall)])
    for pickups, each in ((1, 1), (20, 50), (measure.PICKUPS, 50)):
        source, data = folder / "growth.csv", folder / f"growth-{pickups}"
        measure.invented_table(source, each, pickups)
        cpu, wall = measure.user_seconds([program, "--data", str(data), "import", "--csv", str(source)])
        rows.append(["readings imported", f"{pickups * each:,}", duration(cpu), duration(wall)])
    names = {"impedance_of_points": "points of a coil's impedance", "decoding_of_lines": "lines of a meter decoded"}
    for each in least_of_repetitions([speed, "--benchmark_filter=_of_(points|lines)/"]):
        name, count = each["run_name"].split("/")
        rows.append([names[name], f"{int(count):,}", duration(1e-9 * each["cpu_time"]), duration(1e-9 * each["real_time"])])
    return table(["work", "how many", "processor", "wall"], rows)


def benchmarks(speed):
    scale = {"ns": 1e-9, "us": 1e-6, "ms": 1e-3}
    rows = []
    for each in least_of_repetitions([speed, "--benchmark_filter=-_of_(points|lines)/"]):
        rate = f"{1e-6 * each['bytes_per_second']:.0f} MB/s" if "bytes_per_second" in each else ""
        rows.append([f"`{each['run_name']}`", duration(scale[each["time_unit"]] * each["cpu_time"]), rate])
    return table(["measurement", "processor time", "rate"], rows)


def history(program, folder):
    said = subprocess.run([sys.executable, ROOT / "tests/history/speed/measure.py", program, folder, "50"],
                          capture_output=True, text=True)
    if said.returncode != 0:
        missed.append("the history")
    return "```text\n" + said.stdout + said.stderr + "```\n"


def main():
    speed, beside, program = (str(pathlib.Path(word).resolve()) for word in sys.argv[1:4])
    model = re.search(r"model name\s*:\s*(.*)", pathlib.Path("/proc/cpuinfo").read_text()).group(1)
    with tempfile.TemporaryDirectory(prefix="coilward-speed-") as name:
        folder = pathlib.Path(name)
        load = os.getloadavg()[0]
        parts = [
            ("Beside general programs", "The same work with the same answers in the same run, five times in turn; the least processor time of each.",
             beside_general_programs(beside)),
            ("The history", "Written by the program's own import and by the sqlite3 shell; processor times.", history(program, folder)),
            ("Starting, and doing nothing", "The least of 20 runs of each, in turn.", start_up(program) + "\n" + idle_serving(program, folder)),
            ("How it grows", "A diagnosis takes milliseconds, so there are 20,000 of them in place of a million.",
             growth(program, speed, folder)),
            ("Every measurement", "By Google Benchmark: five repetitions in random order, the least of each.", benchmarks(speed)),
        ]
    text = f"""# Speed

Made by `bash tests/bench/run` on {datetime.date.today():%d %B %Y}: {model}, {os.cpu_count()} cores, Debian 12, GCC at -O2 and
-O3; the load of the machine was {load:.1f} when it began. Absolute times hold for such a machine only, and ratios for any.
What is compared is measured in turn and several times, and the least counts: a machine that others use too only ever adds.
"""
    for title, said, body in parts:
        text += f"\n## {title}\n\n" + (said + "\n\n" if said else "") + body
    if missed:
        text += "\n## Missed\n\n" + "".join(f"- {name}\n" for name in missed)
    (ROOT / "docs/speed.md").write_text(text)
    print("docs/speed.md written;", f"missed: {', '.join(missed)}" if missed else "nothing missed")


main()
