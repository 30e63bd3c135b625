#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Sees that the window's words stand in ui/dashboard/text only, so that one folder can be translated.

usage: text_in_one_place.py SOURCE_FOLDER

A string literal of two or more words of letters in ui/dashboard is taken for words to be read, except in text/, in
the staged pages, the pictures program and the SVG writer, and where a fault is told to whoever runs the program from a terminal."""
import pathlib
import re
import sys

LITERAL = re.compile(r'"((?:[^"\\\n]|\\.)*)"')
WORDS = re.compile(r"[A-Za-z]{2,} [A-Za-z]{2,}")
FREE = ("text/", "staged/", "pictures/", "window/", "widgets/picture_svg.cpp")
NAMES = {"DejaVu Sans"}


def main():
    folder = pathlib.Path(sys.argv[1]) / "ui/dashboard"
    wrong, seen = [], 0
    for path in sorted(folder.rglob("*.[ch]pp")):
        name = path.relative_to(folder).as_posix()
        if name.startswith(FREE):
            continue
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
            code = line.split("//")[0]
            if code.lstrip().startswith("#include"):
                continue
            for found in LITERAL.finditer(code):
                seen += 1
                if WORDS.search(found.group(1)) and found.group(1) not in NAMES:
                    wrong.append(f"ui/dashboard/{name}:{number}: {found.group(1)}")
    for line in wrong:
        print(line)
    print(f"{seen} literals read")
    return 1 if wrong or seen < 100 else 0


if __name__ == "__main__":
    sys.exit(main())
