#!/usr/bin/env python3
"""docs/faults.md from rules/faults and rules/pickups: what stands there is what the program goes by.

    faults_page.py            compares the page with the rules
    faults_page.py --write    writes it anew
"""

import sys

sys.dont_write_bytecode = True  # nothing is left in the source
from written_page import ROOT, bullets, compare_or_write, read

PREFIXES = [(1e9, "G"), (1e6, "M"), (1e3, "k"), (1, ""), (1e-3, "m"), (1e-6, "µ"), (1e-9, "n"), (1e-12, "p")]
NAMES = {"dc_resistance": "DC resistance", "ac_resistance": "AC resistance", "quality_factor": "Q"}
POINTS = {"start-frame": "start to frame", "finish-frame": "finish to frame", "start-shield": "start to shield",
          "finish-shield": "finish to shield"}


def engineering(value, unit):
    if unit in ("1", "degC", "rad", "deg"):
        return f"{value:.4g}" + {"1": "", "degC": " °C"}.get(unit, " " + unit)
    for factor, prefix in PREFIXES:
        if abs(value) >= factor * 0.9999999 or factor == 1e-12:
            return f"{value / factor:.4g} {prefix}{'Ω' if unit == 'ohm' else unit}"
    return None


def reading_words(reading):
    name = NAMES.get(reading["quantity"], reading["quantity"].replace("_", " "))
    if "between" in reading and reading["between"] in POINTS:
        name += " from " + POINTS[reading["between"]]
    if "frequency" in reading:
        name += " at " + engineering(reading["frequency"], "Hz")
    if "state" in reading and reading["state"] != "ok":
        shown = reading["state"].replace("_", " ")
        if "value" in reading:
            shown += ", about " + engineering(reading["value"], reading["unit"])
    elif isinstance(reading["value"], str):
        shown = {"none": "no kick"}.get(reading["value"], reading["value"].replace("_", " "))
    else:
        shown = engineering(reading["value"], reading["unit"])
    return f"{name} {shown}"


def fault_section(fault, of_all):
    text = f"## {fault['title']}\n\n"
    text += f"`{fault['id']}`, {fault['status']}; of a hundred coils that come to a bench, about {100 * fault['prior']:.3g}.\n\n"
    if "sign" in fault:
        text += "| reading | shows |\n| --- | --- |\n"
        text += "".join(f"| {sign['reading']} | {sign['shows']} |\n" for sign in fault["sign"]) + "\n"
    firing = [case for case in fault.get("case", []) if case["fires"]]
    if firing:
        example = max(firing, key=lambda case: min(len(case["readings"]), 5))  # the first with enough to see it by
        text += f"For example ({example['name']}; `{example['coil_model']}`): "
        text += "; ".join(reading_words(reading) for reading in example["readings"]) + ".\n\n"
    text += "What to do:\n\n" + bullets(fault["advice"])
    own = [caution for caution in fault["cautions"] if caution not in of_all]
    if own:
        text += "Cautions:\n\n" + bullets(own)
    return text


def joint_section(pickup):
    text = "## Two coils, joined\n\n"
    text += (f"What may be wrong with the joint of a pickup of two coils; here of `{pickup['id']}`, the other types' are "
             "in their files in rules/pickups. Each coil is judged by the faults above besides.\n\n")
    for joint in pickup["joint"]:
        text += f"**{joint['title']}** (`{joint['id']}`, about {100 * joint['prior']:.3g} in a hundred): "
        text += " ".join(joint["advice"]) + "\n\n"
    return text


def page_from_rules():
    faults = [read(path) for path in (ROOT / "rules" / "faults").glob("*.toml")]
    first_and_last = {"none": -1, "unlisted": 1}
    faults.sort(key=lambda fault: (first_and_last.get(fault["primitive"], 0), -fault["prior"], fault["id"]))
    of_all = [caution for caution in faults[0]["cautions"] if all(caution in fault["cautions"] for fault in faults)]
    text = "Before any of them:\n\n" + bullets(of_all)
    text += "".join(fault_section(fault, of_all) for fault in faults)
    text += joint_section(read(ROOT / "rules" / "pickups" / "dual-coil-series.toml"))
    return text.rstrip("\n") + "\n"


if __name__ == "__main__":
    compare_or_write("faults.md", page_from_rules())
