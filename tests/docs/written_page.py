"""A page of docs/ that is written from the files which the program itself reads. Its beginning, up to a mark, is written by
hand and left alone."""

import sys
import tomllib
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def bullets(texts):
    return "".join(f"- {text}\n" for text in texts) + "\n"


def read(path):
    with open(path, "rb") as file:
        return tomllib.load(file)


def compare_or_write(name, text):
    """With --write puts the text behind the mark of docs/NAME; else ends with 1 where it does not stand there."""
    script = f"tests/docs/{Path(sys.argv[0]).name}"
    page = ROOT / "docs" / name
    mark = f"<!-- from here on written by {script} --write -->\n"
    shown = page.read_text()
    wanted = shown[: shown.index(mark) + len(mark)] + "\n" + text.rstrip("\n") + "\n"
    if "--write" in sys.argv[1:]:
        page.write_text(wanted)
    elif shown != wanted:
        sys.exit(f"docs/{name} is not what the files say that the program reads; run: python3 {script} --write")
