# SPDX-License-Identifier: MIT
"""The bed beside what a person could run instead: measures and prints one table as Markdown.
Called by tests/bench/compare, which installs and builds."""

import argparse
import importlib
import os
import platform
import signal
import subprocess
import sys
import tempfile
from pathlib import Path

from measure import Failed, say
from report import Report

PARTS = ["speed", "fixes", "cases", "live"]


def arguments():
    parser = argparse.ArgumentParser(prog="tests/bench/compare", description=__doc__)
    # Choices of an argument that may be absent are checked below: argparse cannot.
    parser.add_argument("parts", nargs="*", metavar="PART", help=", ".join(PARTS) + "; else all")
    parser.add_argument("--cases", action="append", type=Path, metavar="FOLDER")
    parser.add_argument("--runs", type=int, help="for each time; the median counts (5)")
    parser.add_argument("--quick", action="store_true", help="smaller, once: a quick look")
    parser.add_argument("--build", type=Path, required=True, help=argparse.SUPPRESS)
    given = parser.parse_args()
    for part in given.parts:
        if part not in PARTS:
            parser.error(f"there is no part {part}: {', '.join(PARTS)}")
    if given.runs is not None and given.runs < 1:
        parser.error("--runs: at least one")
    return given


class Setting:
    """What the parts go by."""

    def __init__(self, given):
        bench = given.build.resolve() / "tests/bench"
        self.programs = bench / "peers"
        self.window = bench / "bedlore_bench_window"
        self.quick = given.quick
        self.runs = given.runs or (1 if given.quick else 5)
        standard = Path(__file__).resolve().parents[2] / "data/cases"
        self.cases = [folder.resolve() for folder in given.cases or [standard]]


def first_line(command):
    """Of what a program says of itself; none where it is not there."""
    try:
        done = subprocess.run(command, capture_output=True, text=True, check=False)
    except OSError:
        return None
    return (done.stdout + done.stderr).strip().splitlines()[0] if done.returncode == 0 else None


def versions():
    gstat = """cat("gstat", format(packageVersion("gstat")), "with",
                   basename(extSoftVersion()["BLAS"]))"""
    asked = [
        ["gdalinfo", "--version"],
        ["gmt", "--version"],
        ["Rscript", "-e", gstat],
        [sys.executable, "-c", "import scipy; print('scipy', scipy.__version__)"],
    ]
    said = [first_line(command) for command in asked]
    if said[1]:
        said[1] = "GMT " + said[1]
    return ", ".join(line for line in said if line) or "no other program is here"


def machine():
    names = [
        line.split(":")[1].strip()
        for line in Path("/proc/cpuinfo").read_text(encoding="utf-8").splitlines()
        if line.startswith("model name")
    ]
    return f"{len(os.sched_getaffinity(0))} cores of {names[0] if names else platform.machine()}"


def main():
    # Told to end, it takes its folder and what it started with it, as when interrupted.
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(130))
    given = arguments()
    setting = Setting(given)
    report = Report()
    before = os.getloadavg()[0]
    for name in given.parts or PARTS:
        with tempfile.TemporaryDirectory(prefix="bedlore-compare-") as folder:
            try:
                importlib.import_module(name).add_rows(report, setting, Path(folder))
            except (Failed, ImportError) as failure:
                report.fault(f"{name}: {failure}")
    print(report.markdown())
    print()
    print(
        f"{'A quick look, smaller than what is asked for. ' if given.quick else ''}"
        f"Times are medians of {setting.runs}, run by turns. {machine()}; "
        f"load before {before:.1f}, after {os.getloadavg()[0]:.1f}. {versions()}."
    )
    for fault in report.faults:
        say(f"Not as it must be: {fault}")
    return 1 if report.faults else 0


if __name__ == "__main__":
    sys.exit(main())
