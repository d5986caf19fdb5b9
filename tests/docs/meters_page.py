#!/usr/bin/env python3
"""docs/meter-families.md from drivers/: cable settings, what is set by hand, what no document told.

    meters_page.py            compares the page with the drivers
    meters_page.py --write    writes it anew
"""

import sys

sys.dont_write_bytecode = True  # nothing is left in the source
from written_page import ROOT, bullets, compare_or_write, read

LINES = {True: "on", False: "off"}


def line_words(serial):
    parity = {"none": "no parity", "odd": "odd parity", "even": "even parity"}[serial.get("parity", "none")]
    stop = serial.get("stop_bits", 1)
    words = [f"{serial['baud']} baud", f"{serial.get('data_bits', 8)} data bits", parity,
             f"{stop} stop bit{'s' if stop > 1 else ''}"]
    words += [f"{name.upper()} {LINES[serial[name]]}" for name in ("dtr", "rts") if name in serial]
    return ", ".join(words)


def family(driver):
    text = f"## {driver['title']}\n\n`{driver['id']}`, {driver['status']}. "
    text += f"Documents are known of: {'; '.join(driver['instruments'])}.\n\n" if driver["instruments"] else "\n\n"
    if "serial" in driver:
        text += f"- Line: {line_words(driver['serial'])} ({driver['serial']['source']}).\n"
    text += "- It is asked for each reading.\n" if "poll" in driver else "- It sends by itself.\n"
    text += f"- Measures: {', '.join(setup['name'] for setup in driver['setup'])}.\n"
    by_hand = dict.fromkeys(setup["by_hand"] for setup in driver["setup"] if setup.get("by_hand"))
    if by_hand:
        text += "- By hand: " + " ".join(line.replace("{frequency}", "the wanted") for line in by_hand) + "\n"
    else:
        text += "- It is set by commands.\n"
    if driver.get("same_wire"):
        names = ", ".join(f"`{name}`" for name in driver["same_wire"])
        text += f"- Its bytes look like those of {names}: only you can tell which meter it is.\n"
    if driver.get("gaps"):
        text += "- No document told: " + "; ".join(driver["gaps"]) + ".\n"
    return text + "\n"


def page_from_drivers():
    return "".join(family(read(path)) for path in sorted((ROOT / "drivers").glob("*.toml")))


if __name__ == "__main__":
    compare_or_write("meter-families.md", page_from_drivers())
