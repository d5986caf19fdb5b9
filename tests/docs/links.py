#!/usr/bin/env python3
"""Every link of README.md, DEVELOPERS.md and docs/*.md to a file of this project leads somewhere, every heading that a link
names is there, and every page of docs/ is linked from README.md."""

import re
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
LINK = re.compile(r"\]\(([^)\s]+)\)")


def prose_of(page):
    """Without blocks and spans of code."""
    return re.sub(r"`[^`\n]*`", "", re.sub(r"^```.*?^```", "", page.read_text(), flags=re.M | re.S))


def anchors_of(page):
    headings = re.findall(r"^#+ (.*)$", page.read_text(), flags=re.M)
    return {re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-") for heading in headings}


def main():
    pages = [ROOT / "README.md", ROOT / "DEVELOPERS.md", *sorted((ROOT / "docs").glob("*.md"))]
    wrong, linked = [], set()
    for page in pages:
        for link in LINK.findall(prose_of(page)):
            if "://" in link:
                continue
            name, _, anchor = link.partition("#")
            target = (page.parent / name).resolve() if name else page
            if page.name == "README.md":
                linked.add(target)
            if not target.exists():
                wrong.append(f"{page.relative_to(ROOT)}: {link} leads nowhere")
            elif anchor and anchor not in anchors_of(target):
                wrong.append(f"{page.relative_to(ROOT)}: {link} names no heading of {target.name}")
    for page in sorted((ROOT / "docs").glob("*.md")):
        if page not in linked:
            wrong.append(f"docs/{page.name} is not linked from README.md")
    print("\n".join(wrong) or f"{len(pages)} pages: every link leads somewhere")
    sys.exit(1 if wrong else 0)


if __name__ == "__main__":
    main()
