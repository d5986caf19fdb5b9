#!/usr/bin/env python3
"""Every document that a command prints as JSON has a schema in docs/schemas, and keeps to it; every schema there has a
document here, and is named in docs/. The shop and the captures are invented.

    schemas.py PROGRAM
"""

import json
import sys
from pathlib import Path

import jsonschema

sys.dont_write_bytecode = True  # nothing is left in the source
from commands import ROOT, Home

SETUP = "coilward import docs/shop.json && coilward pickup add --name Coil --model six-rod-42"
BOBBIN = "--core 56mm,4.8mm --flange 70mm,16mm --height 10.5mm --awg 42 --dc-resistance 6.1k"

DOCUMENTS = {
    "chart": "coilward chart six-rod-42 --json",
    "comparison": "coilward compare neck-red middle-red --json",
    "confirmation": "coilward confirm bridge-blue --json",
    "diagnosis": "coilward diagnose --readings docs/examples/two-coils.json --json",
    "export": "coilward export",
    "history": "coilward history bridge-blue --json",
    "meters": "coilward ports --meters --json",
    "pickup": "coilward pickup show bridge-blue --json",
    "pickups": "coilward pickup list --json",
    "plan": f"coilward plan {BOBBIN} --model six-rod-42 --json",
    "ports": "coilward ports --json",
    "readings": "cat docs/examples/own-past.json",
    "spool": "coilward spool --awg 44 --length 10±0.01 --resistance 85.2 --resistance-uncertainty 0.05 --json",
    "watch": "for each in captures/*/*.capture; do case $each in *nobody*) ;; *) "
             "coilward replay $each --full-speed --json 2>/dev/null;; esac; done",
}


def main():
    home, wrong = Home(sys.argv[1]), []
    code, text = home.run(SETUP)
    if code:
        sys.exit(text)
    schemas = {path.name.removesuffix(".schema.json") for path in (ROOT / "docs" / "schemas").glob("*.schema.json")}
    for name in sorted(schemas ^ set(DOCUMENTS)):
        wrong.append(f"{name}: {'no document is held against its schema' if name in schemas else 'has no schema'}")
    pages = "".join(page.read_text() for page in (ROOT / "docs").glob("*.md"))
    for name in sorted(schemas & set(DOCUMENTS)):
        if f"schemas/{name}.schema.json" not in pages:
            wrong.append(f"{name}: no page of docs/ names its schema")
        schema = json.loads((ROOT / "docs" / "schemas" / f"{name}.schema.json").read_text())
        code, text = home.run(DOCUMENTS[name])
        documents = text.splitlines() if name == "watch" else [text]
        for document in documents:
            try:
                jsonschema.validate(json.loads(document), schema)
            except (ValueError, jsonschema.ValidationError) as error:
                wrong.append(f"{name}: {DOCUMENTS[name]}: {str(error).splitlines()[0]}")
    print("\n".join(wrong) or f"{len(DOCUMENTS)} documents keep to their schemas")
    sys.exit(1 if wrong else 0)


if __name__ == "__main__":
    main()
