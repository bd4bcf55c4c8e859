# SPDX-License-Identifier: MIT
"""Runs other programs and measures them: wall time, processor time, the most memory held."""

import dataclasses
import os
import shutil
import signal
import statistics
import subprocess
import sys
import tempfile
import time

# It starts the program from a small process of its own, so that nothing of ours is counted.
TIME = "/usr/bin/time"


class Failed(Exception):
    """A program could not do its work; the text says which and why."""


@dataclasses.dataclass
class Run:
    seconds: float  # from start to end, files read and written
    cpu: float | None  # on all cores together [s]
    megabytes: float | None  # the most memory held at once; of several programs the largest
    output: str  # standard output


def say(text):
    """Progress, beside the table."""
    print(text, file=sys.stderr, flush=True)


def ended(command, folder, limit):
    """Status, output and words of complaint; None, and nothing of it left, beyond the limit."""
    with subprocess.Popen(
        list(map(str, command)),
        cwd=folder,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    ) as child:
        try:
            output, complaint = child.communicate(timeout=limit)
        except BaseException as stop:
            # Too long, or we are stopped ourselves: what it started goes with it.
            os.killpg(child.pid, signal.SIGKILL)
            child.communicate()
            if isinstance(stop, subprocess.TimeoutExpired):
                return None
            raise
    return child.returncode, output, complaint


def run(command, folder, limit=None):
    """Runs a program in a folder. None when it takes longer than `limit` seconds."""
    with tempfile.NamedTemporaryFile("r") as measured:
        timed = [TIME, "-f", "%U %S %M", "-o", measured.name] if os.access(TIME, os.X_OK) else []
        begin = time.perf_counter()
        end = ended([*timed, *command], folder, limit)
        seconds = time.perf_counter() - begin
        if end is None:
            return None
        status, output, complaint = end
        if status != 0:
            raise Failed(f"{command[0]}: {complaint.strip()[-500:]}")
        numbers = [float(number) for number in measured.read().split()[-3:]]
    if not numbers:
        return Run(seconds, None, None, output)
    user, system, kilobytes = numbers
    return Run(seconds, user + system, kilobytes / 1000.0, output)


def run_all(commands, folder, limit=None):
    """Several programs one after another, measured as one."""
    runs = []
    for command in commands:
        runs.append(run(command, folder, limit))
        if runs[-1] is None:
            return None
    return Run(
        sum(one.seconds for one in runs),
        sum_of([one.cpu for one in runs]),
        most_of([one.megabytes for one in runs]),
        runs[-1].output,
    )


def sum_of(values):
    return None if None in values else sum(values)


def most_of(values):
    return None if None in values else max(values)


def median(values):
    return statistics.median(values)


# Whether what we compare with is here: a sentence says what is missing, None that nothing is.


def missing_program(name, package):
    return None if shutil.which(name) else f"not installed ({package})"


def missing_gstat():
    if shutil.which("Rscript") is None:
        return "not installed (r-base-core)"
    asked = ["Rscript", "-e", 'quit(status = !requireNamespace("gstat", quietly = TRUE))']
    there = subprocess.run(asked, capture_output=True, check=False).returncode == 0
    return None if there else "not installed (r-cran-gstat)"


def missing_scipy():
    asked = [sys.executable, "-c", "import scipy.interpolate"]
    there = subprocess.run(asked, capture_output=True, check=False).returncode == 0
    return None if there else "not installed (python3-scipy)"
