#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Does what a page of the user guide says: runs every command on it, in order, in a folder of its own.

A command is an indented line that begins with `harpkeep`. What a page needs is said in comments of its own:

    <!-- test: demo -->           the ledger of the invented school is the user's ledger; heron.flac is there
    <!-- test: demo, check -->    and heron.flac is checked already
    <!-- test: phone -->          flats.m4a, naturals.m4a, sharps.m4a are there
    <!-- test: microphone -->     from here on a microphone hears a harp, and `q` is typed after a while
    <!-- test: no microphone -->  until here
    <!-- test: run                the lines that follow are run, and not shown to the reader
    ... -->

Commands named within the text must exist, and so must their options.
usage: run_guide.py PAGE --harpkeep PROGRAM --recordings PROGRAM --plugin ALSA_PLUGIN
"""
import argparse
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

SECONDS_AT_THE_MICROPHONE = 4
TIME_LIMIT_S = 120


class Reader:
    """Somebody who follows one page, in a home of their own."""

    def __init__(self, programs, folder):
        self.programs = programs
        self.folder = pathlib.Path(folder)
        self.at_microphone = False
        self.failures = []
        home = self.folder / "home"
        home.mkdir()
        self.work = self.folder / "work"
        self.work.mkdir()
        self.environment = {
            "PATH": f"{programs.harpkeep.parent}:{os.environ['PATH']}",
            "HOME": str(home),
            "XDG_DATA_HOME": str(home / "data"),
            "XDG_STATE_HOME": str(home / "state"),
            "LANG": "C.UTF-8",
            "JACK_NO_START_SERVER": "1",
        }

    def shell(self, line, typed=None):
        script = line if typed is None else f"(sleep {SECONDS_AT_THE_MICROPHONE}; echo {typed}) | {line}"
        return subprocess.run(["sh", "-c", script], cwd=self.work, env=self.environment, stdin=subprocess.DEVNULL,
                              text=True, capture_output=True, timeout=TIME_LIMIT_S)

    def run(self, line, place):
        done = self.shell(line, "q" if self.at_microphone else None)
        if done.returncode != 0:
            self.failures.append(f"{place}: {line}\n  exit code {done.returncode}\n{done.stdout}{done.stderr}")

    def prepare(self, need, place):
        data = self.folder / "home" / "data" / "harpkeep"
        if need == "demo":
            self.run("harpkeep demo school", place)
            data.mkdir(parents=True, exist_ok=True)
            shutil.move(self.work / "school" / "larkmoor.harpkeep", data / "ledger.harpkeep")
            shutil.move(self.work / "school" / "heron.flac", self.work / "heron.flac")
        elif need == "check":
            self.run("harpkeep check heron.flac --harp Heron", place)
        elif need == "phone":
            subprocess.run([self.programs.recordings, "phone", self.work], check=True)
        elif need == "microphone":
            self.listen()
        elif need == "no microphone":
            self.at_microphone = False
        else:
            self.failures.append(f"{place}: there is no such need as '{need}'")

    def listen(self):
        """An ALSA configuration whose only device plays a harp, at the pace of a real one."""
        samples = self.folder / "microphone.f32"
        if not samples.exists():
            subprocess.run([self.programs.recordings, "microphone", samples], check=True)
        configuration = self.folder / "alsa.conf"
        # The default device is busy: PortAudio aborts when every device of a private configuration opens.
        configuration.write_text(
            f'pcm_type.virtual_microphone {{ lib "{self.programs.plugin}" }}\n'
            f'pcm.default {{ type virtual_microphone infile "{samples}" busy 1 }}\n'
            f'pcm.harp {{ type virtual_microphone infile "{samples}" loop 1 }}\n')
        self.environment["ALSA_CONFIG_PATH"] = str(configuration)
        self.at_microphone = True

    def name_within_text(self, words, place):
        """`harpkeep string off 3A --reason broke` names commands and options; both must be in the help."""
        named = words.split()[1:]
        commands, options = [], [word.split("=")[0] for word in named if word.startswith("--")]
        for word in named:
            known = self.shell(" ".join(["harpkeep", *commands, word, "--help"])).returncode == 0
            if word.startswith("-") or not known:
                break
            commands.append(word)
        help_text = self.shell(" ".join(["harpkeep", *commands, "--help"])).stdout
        if named and not named[0].startswith("-") and not commands:
            self.failures.append(f"{place}: there is no command '{named[0]}'")
        self.failures += [f"{place}: `{words}`: no option {option}" for option in options if option not in help_text]

    def follow(self, page):
        hidden = False
        for number, line in enumerate(page.read_text(encoding="utf-8").splitlines(), 1):
            place = f"{page.name}:{number}"
            if hidden:
                hidden = line.strip() != "-->"
                if hidden:
                    self.run(line, place)
            elif line.strip() == "<!-- test: run":
                hidden = True
            elif match := re.fullmatch(r"\s*<!-- test: (.*) -->", line):
                for need in match[1].split(", "):
                    self.prepare(need, place)
            elif re.match(r" {4,}harpkeep\b", line):
                self.run(line.strip(), place)
            elif not line.startswith("    "):
                for words in re.findall(r"`(harpkeep [^`]+)`", line):
                    self.name_within_text(words, place)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("page", type=pathlib.Path)
    for program in ("harpkeep", "recordings", "plugin"):
        parser.add_argument(f"--{program}", required=True, type=lambda path: pathlib.Path(path).resolve())
    programs = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="harpkeep_guide_") as folder:
        reader = Reader(programs, folder)
        reader.follow(programs.page)
    for failure in reader.failures:
        print(failure)
    return 1 if reader.failures else 0


sys.exit(main())
