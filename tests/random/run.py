#!/usr/bin/env python3
"""Runs a program on every project of a folder: how each run ended, the longest and the largest.

    tests/random/run.py PROGRAM FOLDER [COMMAND ...]     default: check

A COMMAND is check, full, compare, json, explain, plot, packet, size or sweep. A run is told as soon as
it ends with something else than 0 or 1, prints a number that isn't one, takes over 5 s or over 300 MB.
"""

import os
import re
import subprocess
import sys
import tempfile
import time
from pathlib import Path

COMMANDS = {
    "check": ["check", "P"],
    "full": ["check", "P", "--full"],
    "json": ["check", "P", "--format", "json"],
    "compare": ["compare", "P"],
    "explain": ["explain", "P"],
    "plot": ["plot", "P", "-o", "O/plots"],
    "packet": ["packet", "P", "-o", "O/packet"],
    "size": ["size", "P"],
    "sweep": ["sweep", "P", "-o", "O/table.csv"],
}
SECONDS, MEGABYTES = 5.0, 300.0
NO_NUMBER = re.compile(r"(?<![A-Za-z])(NaN|nan|inf)(?![A-Za-z])")


def run(program, words):
    """The exit code, seconds, megabytes and what was printed."""
    with tempfile.TemporaryDirectory() as folder:
        arguments = [program, *(word.replace("O/", folder + "/") for word in words)]
        start = time.monotonic()
        child = subprocess.Popen(arguments, stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
        printed = child.stdout.read().decode(errors="replace")
        _, status, usage = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
        seconds = time.monotonic() - start
        written = [path.read_text(errors="replace") for path in Path(folder).rglob("*") if path.is_file()
                   and path.suffix in {".svg", ".html", ".csv", ".txt", ".json"}]
        return child.returncode, seconds, usage.ru_maxrss / 1024, printed, written


def main():
    program, folder, *commands = sys.argv[1:]
    for name in commands or ["check"]:
        ends, longest, largest, told = {}, (0.0, ""), (0.0, ""), 0
        for path in sorted(Path(folder).glob("*.yaml")):
            text = path.read_text()
            if name in ("size", "sweep") and f"\n{name}:" not in text:
                continue
            words = [str(path) if word == "P" else word for word in COMMANDS[name]]
            code, seconds, megabytes, printed, written = run(program, words)
            ends[code] = ends.get(code, 0) + 1
            longest, largest = max(longest, (seconds, path.name)), max(largest, (megabytes, path.name))
            wrong = [NO_NUMBER.search(output) for output in [printed, *written]]
            if code not in (0, 1) or any(wrong) or seconds > SECONDS or megabytes > MEGABYTES:
                told += 1
                last = (printed.strip().splitlines() or [""])[-1]
                print(f"{name} {path.name}: ended with {code}, {seconds:.2f} s, {megabytes:.0f} MB"
                      f"{', a number that is none' if any(wrong) else ''}: {last[:150]}", flush=True)
        runs = sum(ends.values())
        print(f"{name}: {runs} runs, ended with {dict(sorted(ends.items()))}; longest {longest[0]:.2f} s "
              f"({longest[1]}), largest {largest[0]:.0f} MB ({largest[1]}); {told} told", flush=True)


main()
