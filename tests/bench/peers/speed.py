# SPDX-License-Identifier: MIT
"""Kriging under a fixed covariance: the program's kernel beside R's gstat, and their answers."""

import json
import math
import random
from pathlib import Path

from measure import Failed, median, missing_gstat, run, say
from tables import read_numbers, write_rows

HERE = Path(__file__).parent

# The same in both: an exponential covariance (Matérn of smoothness 1/2) and noise of the levels.
SIGMA, RANGE, NOISE = 1.0, 30.0, 0.1  # m
WIDTH = 400.0  # m


def made_readings(count):
    """Readings of an invented bed, anywhere on a square; which bed does not matter for the time."""
    chance = random.Random(500)
    rows = []
    for _ in range(count):
        east, north = chance.uniform(0.0, WIDTH), chance.uniform(0.0, WIDTH)
        level = -4.0 + math.sin(east / 30.0) + math.cos(north / 40.0) + chance.gauss(0.0, NOISE)
        rows.append((east, north, level))
    return rows


def largest_difference(one, other):
    """Of levels and of errors, over all places."""
    if len(one) != len(other):
        raise Failed(f"{len(one)} and {len(other)} places are not the same")
    return [max(abs(a[i] - b[i]) for a, b in zip(one, other, strict=True)) for i in (0, 1)]


def add_rows(report, setting, folder):
    count, columns = (100, 100) if setting.quick else (500, 400)
    write_rows(folder / "readings.csv", "east_m,north_m,level_m", made_readings(count))
    given = [columns, WIDTH / columns, SIGMA, RANGE, NOISE]
    ours = [setting.programs / "bedlore_bench_kriging", "readings.csv", "bedlore.csv", *given]
    gstat = ["Rscript", HERE / "fixed_kriging.R", "readings.csv", "gstat.csv", *given]
    missing = missing_gstat()
    times = {"all": [], "one": [], "cpu": [], "map": [], "gstat": [], "gstat cpu": []}
    for i in range(setting.runs):
        say(f"speed: run {i + 1} of {setting.runs}")
        alone = json.loads(run([*ours, 1], folder).output)
        together = json.loads(run([*ours, 0], folder).output)
        times["one"].append(alone["places"])
        times["cpu"].append(alone["cpu"])
        times["all"].append(together["places"])
        times["map"].append(together["grid"])
        if missing is None:
            try:
                elapsed, cpu = map(float, run(gstat, folder).output.split())
                times["gstat"].append(elapsed)
                times["gstat cpu"].append(cpu)
            except Failed as failure:
                say(f"speed: {failure}")
                missing = "failed"

    what = f"{count} readings to {columns} × {columns} with error, fixed exponential covariance"
    add_times(report, f"{what}: s", {name: median(of) for name, of in times.items() if of}, missing)
    if missing is None:
        add_difference(report, folder, together["apart"])


def add_times(report, what, times, missing):
    theirs, beside = missing, ""
    if not missing:
        theirs = f"{times['gstat']:.1f} ({times['gstat cpu']:.1f} of a processor)"
        beside = (
            f"{times['gstat'] / times['all']:.0f} × faster; on one core "
            f"{times['gstat'] / times['one']:.0f} ×, by the processor's time "
            f"{times['gstat cpu'] / times['cpu']:.0f} ×"
        )
    report.add(
        what,
        f"{times['all']:.2f} on all cores, {times['one']:.2f} on one ({times['cpu']:.2f} of a "
        f"processor); in a map's precision {times['map']:.2f}",
        {"gstat ordinary kriging": theirs},
        beside,
        "≥ 50 × faster",
    )


def add_difference(report, folder, apart):
    level, error = largest_difference(
        read_numbers(folder / "bedlore.csv"), read_numbers(folder / "gstat.csv")
    )
    report.add(
        "the same: largest difference of the answers, m",
        f"level {level:.1e}, error {error:.1e}; a map's precision adds {apart:.1e}",
        {},
        "",
        "≤ 1e-6",
    )
    if not max(level, error) <= 1e-6:
        report.fault(f"kriging differs from gstat's by {max(level, error):.1e} m")
