#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Sees that every command named in a message of the program exists.

usage: named_commands.py HARPKEEP SOURCE_FOLDER

Reads "harpkeep word word ..." out of the string literals of src, db and ui, and asks the program for the help of
each. Words in capitals and options end a command; so does a word that its help does not list as a subcommand."""
import pathlib
import re
import subprocess
import sys

LITERAL = re.compile(r'"((?:[^"\\\n]|\\.)*)"')
COMMAND = re.compile(r"(?<![./\w])harpkeep((?: [a-z][a-z-]*)+)((?: --[a-z][a-z-]*)?)")
# Prose about the program, not a command to type.
PROSE = {"listens", "and"}


def literals(folder):
    for path in sorted(folder.rglob("*.[ch]pp")):
        text = path.read_text(encoding="utf-8")
        # Neighbouring literals are one text.
        text = re.sub(r'"\s*\n\s*"', "", text)
        for found in LITERAL.finditer(text):
            yield path, found.group(1)


def subcommands_of(program, words, cache):
    key = tuple(words)
    if key not in cache:
        done = subprocess.run([program, *words, "--help"], capture_output=True, text=True)
        names = set()
        if done.returncode == 0 and "Subcommands:" in done.stdout:
            for line in done.stdout.split("Subcommands:", 1)[1].splitlines():
                found = re.match(r"  ([a-z][a-z-]*)\b", line)
                if found:
                    names.add(found.group(1))
        cache[key] = (done.returncode == 0, names, done.stdout)
    return cache[key]


def main():
    program, source = sys.argv[1], pathlib.Path(sys.argv[2])
    cache, checked, wrong = {}, set(), []
    for layer in ("src", "db", "ui"):
        for path, literal in literals(source / layer):
            for found in COMMAND.finditer(literal):
                words = found.group(1).split()
                if words[0] in PROSE:
                    continue
                command = []
                for word in words:
                    _, names, _ = subcommands_of(program, command, cache)
                    if word not in names:
                        break
                    command.append(word)
                good = bool(command)
                if good and subcommands_of(program, command, cache)[1]:
                    good = len(words) == len(command)  # a noun alone, or followed by a verb it does not have
                option = found.group(2).strip()
                if good and option and len(words) == len(command):
                    good = option in subcommands_of(program, command, cache)[2]
                checked.add(" ".join(command) or found.group(0))
                if not good:
                    wrong.append(f"{path.relative_to(source)}: no such command: {found.group(0)}")
    for line in sorted(set(wrong)):
        print(line)
    print(f"{len(checked)} commands are named in messages")
    return 1 if wrong or len(checked) < 5 else 0


if __name__ == "__main__":
    sys.exit(main())
