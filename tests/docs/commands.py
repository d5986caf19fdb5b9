#!/usr/bin/env python3
"""Runs every command that README.md and docs/*.md show, and compares what it prints with what the page shows.

    commands.py PROGRAM            compares; fails with the page, the line and both texts
    commands.py PROGRAM --write    puts what the commands print into the pages, to be looked at before it is kept

A block of commands is fenced as ```console; every command begins with "$ " and may go on over lines that end in a
backslash; what stands behind it is what it prints, on both outputs. "…" stands for what differs from run to run: on
a line of its own for any lines, within a line for any characters of that line; both are counted. A block that ends in
another exit code than 0 is fenced as ```console exit=3.

The commands of one page run one after the other, in an empty home folder with the project's folders beside them;
where they print its name, the page shows /home/bench.

A block that shows a command and is not run stands behind <!-- not run: REASON -->. There are no more of them than
MOST_NOT_RUN; whoever needs one more says so there. What `coilward` commands the text itself names must exist.
"""

import difflib
import os
import re
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PAGES = [ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md"))]

MOST_NOT_RUN = 16  # blocks that show a command and are not run
MOST_LEFT_OUT = 16  # "…" in what commands print

COMMAND = re.compile(r"^(\$ |(sudo|bash|coilward(?! capture 1)|curl|build/\S+|sqlite3|eval) )")
INLINE = re.compile(r"`coilward ([a-z-]+)(?: ([a-z|]+))?")
SECONDS = 120  # for one command


class Block:
    """A fenced or indented block: its first line's number, its fence's words, its lines."""

    def __init__(self, line, words, reason):
        self.line, self.words, self.reason, self.lines = line, words, reason, []


def blocks_of(lines):
    """All blocks of code of a page, in order."""
    found, block, fenced, reason = [], None, False, None
    for number, line in enumerate(lines, 1):
        if fenced:
            if line.startswith("```"):
                fenced = False
                block = None
            else:
                block.lines.append(line)
            continue
        if line.startswith("```"):
            block = Block(number, line[3:].split(), reason)
            found.append(block)
            fenced, reason = True, None
        elif line.startswith("    ") and (block or not lines[number - 2].strip()):
            if not block:
                block = Block(number, ["indented"], reason)
                found.append(block)
                reason = None
            block.lines.append(line[4:])
        elif line.strip():
            block = None
            told = re.fullmatch(r"<!-- not run: (\S.*\S) -->", line.strip())
            reason = told[1] if told else None
    return found


def steps_of(block):
    """Command, its line's offset in the block, and the lines it is said to print."""
    steps, going_on = [], False
    for offset, line in enumerate(block.lines):
        if going_on:
            steps[-1][0] += "\n" + line
        elif line.startswith("$ "):
            steps.append([line[2:], offset, []])
        elif steps:
            steps[-1][2].append(line)
        else:
            raise SystemExit(f"a console block begins with what is no command: {line}")
        going_on = (going_on or line.startswith("$ ")) and line.endswith("\\")
    return steps


def matches(shown, printed):
    pattern = ""
    for line in shown:
        if line == "…":
            pattern += r"(?:[^\n]*\n)*?"
        else:
            pattern += r"[^\n]+?".join(re.escape(piece) for piece in line.split("…")) + r"\n"
    return re.fullmatch(pattern, "".join(line + "\n" for line in printed)) is not None


class Home:
    """An empty home folder, with the project's folders in it as if one stood in the project."""

    def __init__(self, program):
        self.folder = tempfile.TemporaryDirectory(prefix="coilward-docs-")
        for name in ("captures", "docs", "drivers", "rules", "src", "tests"):
            os.symlink(ROOT / name, Path(self.folder.name) / name)
        self.environment = {
            "HOME": self.folder.name,
            "PATH": f"{Path(program).resolve().parent}:/usr/bin:/bin",
            "LANG": "C.UTF-8",
            "TZ": "UTC",
        }

    def run(self, command):
        end = subprocess.run(
            ["bash", "-c", command],
            cwd=self.folder.name,
            env=self.environment,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            timeout=SECONDS,
        )
        return end.returncode, end.stdout.decode().replace(self.folder.name, "/home/bench")


class Checker:
    def __init__(self, program, write):
        self.program, self.write = program, write
        self.failures, self.run_count, self.not_run, self.left_out = [], 0, 0, 0
        self.named = {}

    def fail(self, page, line, text):
        self.failures.append(f"{page.relative_to(ROOT)}:{line}: {text}")

    def page(self, page):
        lines = page.read_text().splitlines()
        home = Home(self.program)
        blocks = blocks_of(lines)
        for block in blocks:
            if block.words[:1] == ["console"] and not block.reason:
                self.console(page, block, home)
            elif any(COMMAND.match(line) for line in block.lines):
                self.not_run += 1
                if not block.reason:
                    self.fail(page, block.line, "shows a command that is not run; fence it as ```console, or say why "
                                                "not in a line before it: <!-- not run: REASON -->")
            elif block.reason:
                self.fail(page, block.line, "is said not to be run, and shows no command")
        if self.write:
            self.put(page, lines, blocks)
        for number, line in enumerate(lines, 1):
            for name, second in INLINE.findall(line):
                self.named.setdefault((name, second), (page, number))

    def console(self, page, block, home):
        code = int(dict(word.split("=") for word in block.words[1:]).get("exit", 0))
        block.printed = []
        for command, offset, shown in steps_of(block):
            line = block.line + 1 + offset
            self.run_count += 1
            self.left_out += sum(text.count("…") for text in shown)
            ended, text = home.run(command)
            printed = text.splitlines()
            if ended != code:
                self.fail(page, line, f"ended with exit code {ended}, not {code}: {command}\n{text}")
            same = matches(shown, printed)
            if not same and not self.write:
                difference = "\n".join(difflib.unified_diff(shown, printed, "shown", "printed", lineterm="", n=2))
                self.fail(page, line, f"prints something else: {command}\n{difference}")
            block.printed += ["$ " + command, *(shown if same else printed)]

    @staticmethod
    def put(page, lines, blocks):
        out, at = [], 0
        for block in blocks:
            if hasattr(block, "printed"):
                out += lines[at : block.line] + block.printed
                at = block.line + len(block.lines)
        page.write_text("\n".join(out + lines[at:]) + "\n")

    def names(self):
        """What the text calls a command must be one."""
        home = Home(self.program)
        for (name, second), (page, number) in self.named.items():
            words = [name] + [each for each in second.split("|") if each][:1]
            for tried in (words, words[:1]):
                code, _ = home.run("coilward " + " ".join(tried) + " --help")
                if code == 0:
                    break
            else:
                self.fail(page, number, f"names the command coilward {name}, which does not exist")


def main():
    program, write = sys.argv[1], "--write" in sys.argv[2:]
    only = [Path(word).name for word in sys.argv[2:] if word.endswith(".md")]
    checker = Checker(program, write)
    pages = [page for page in PAGES if not only or page.name in only]
    for page in pages:
        checker.page(page)
    checker.names()
    for failure in checker.failures:
        print(failure)
    print(f"{len(pages)} pages: {checker.run_count} commands run, {checker.not_run} blocks not run, "
          f"{checker.left_out} left out of what they print, {len(checker.named)} commands named in the text")
    for what, count, most in (("MOST_NOT_RUN", checker.not_run, MOST_NOT_RUN),
                              ("MOST_LEFT_OUT", checker.left_out, MOST_LEFT_OUT)):
        if count > most:
            checker.failures.append(what)
            print(f"tests/docs/commands.py: {what} is {most}, and there are {count}: run more, or say why there are so many")
    sys.exit(1 if checker.failures else 0)


if __name__ == "__main__":
    main()
