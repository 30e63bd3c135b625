#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Reads every #include of the tree and fails on one that goes against the arrow ui -> db -> src.

A folder may include itself, the folders listed for it here, and what those may include."""
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent

ALLOWED = {
    "src/base": [],
    "src/units": ["src/base"],
    "src/harp": ["src/units"],
    "src/signal": ["src/units"],
    "src/strings": ["src/harp"],
    "src/stats": ["src/units"],
    "src/measure": ["src/harp", "src/signal", "src/stats"],
    "src/records": ["src/measure"],
    "src/exchange": ["src/records"],
    "src/upkeep": ["src/records"],
    "src/reason": ["src/measure", "src/records", "src/strings", "src/stats"],
    "src/live": ["src/measure"],
    "src/synth": ["src/harp", "src/signal", "src/strings"],
    "src/report": ["src/reason", "src/upkeep", "src/exchange"],
    "src/audio": ["src/units", "src/signal"],
    "db/sqlite": ["src/records"],
    "src/intake": ["src/measure", "src/audio"],
    "db": ["db/sqlite", "src/records", "src/exchange", "src/upkeep", "src/reason", "src/live", "src/audio", "src/report"],
    "ui/support": ["db", "src/synth", "src/audio"],
    "ui/cli": ["ui/support", "ui/dashboard", "src/intake", "src/synth"],
    "ui/dashboard": ["ui/support", "src/intake", "src/synth"],
}

# Third-party headers that only some folders may know.
RESERVED = {
    r"SQLiteCpp/|sqlite3\.h": ["db/sqlite"],
    r"imgui|GLFW/|GL/|EGL/": ["ui/dashboard"],
    r"CLI/": ["ui/cli"],
    r"portaudio\.h|libav|libsw|alsa/": ["src/audio"],
    r"pango/": ["src/report"],
    # the window writes its plots and pictures as PNG
    r"cairo": ["src/report", "ui/dashboard"],
    r"kiss_fft|kissfft": ["src/signal"],
    # the pure part reads no clock and keeps no log
    r"chrono|ctime|iostream|fstream|filesystem": ["db", "db/sqlite", "ui/support", "ui/cli", "ui/dashboard", "src/audio"],
}


def reachable(folder):
    seen, todo = set(), [folder]
    while todo:
        current = todo.pop()
        if current not in seen:
            seen.add(current)
            todo += ALLOWED[current]
    return seen


def folder_of(path):
    for folder in sorted(ALLOWED, key=len, reverse=True):
        if path == folder or path.startswith(folder + "/"):
            return folder
    return None


def main():
    problems, files = [], 0
    for path in sorted([*ROOT.glob("src/**/*.?pp"), *ROOT.glob("db/**/*.?pp"), *ROOT.glob("ui/**/*.?pp")]):
        name = path.relative_to(ROOT).as_posix()
        folder = folder_of(name)
        if folder is None:
            problems.append(f"{name}: its folder is in no layer; add it to scripts/check_layers.py")
            continue
        files += 1
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
            match = re.match(r'\s*#\s*include\s*([<"])([^>"]+)[>"]', line)
            if not match:
                continue
            target = match.group(2)
            if match.group(1) == '"':
                place = target if target.startswith(("db/", "ui/")) else "src/" + target
                layer = folder_of(place)
                if layer is None or not (ROOT / place).exists():
                    problems.append(f"{name}:{number}: {target} is not named from src/ or the root")
                elif layer not in reachable(folder):
                    problems.append(f"{name}:{number}: {folder} may not include {target} of {layer}")
            else:
                for pattern, owners in RESERVED.items():
                    if re.match(pattern, target) and folder not in owners:
                        problems.append(f"{name}:{number}: only {', '.join(owners)} may include <{target}>")
    print("\n".join(problems) or f"{files} files keep to their layers")
    return 1 if problems or not files else 0


if __name__ == "__main__":
    sys.exit(main())
