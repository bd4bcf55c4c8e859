# SPDX-License-Identifier: MIT
"""What a person could run instead on a case's soundings: each gives the bed's level at the same
places. A place that one gives no value for gets its nearest sounding's level."""

import json
import math
import sys
from pathlib import Path

from measure import missing_gstat, missing_program, missing_scipy, run
from tables import read_columns, read_numbers, write_rows

HERE = Path(__file__).parent

SOUNDINGS, PLACES = "peer_soundings.csv", "places.csv"


def merge_coincident(folder):
    """Soundings at one and the same place become their mean: none of the others takes them."""
    by_place = {}
    for east, north, level in read_numbers(folder / "soundings.csv"):
        by_place.setdefault((east, north), []).append(level)
    rows = [(*place, sum(levels) / len(levels)) for place, levels in by_place.items()]
    write_rows(folder / SOUNDINGS, "east_m,north_m,level_m", rows)


def with_nearest(levels, folder):
    """Levels with the nearest sounding's where there is none, and how many these were."""
    soundings = read_numbers(folder / SOUNDINGS)
    places = read_numbers(folder / PLACES)
    if len(levels) != len(places):
        raise ValueError(f"{len(levels)} levels for {len(places)} places")
    filled, result = 0, []
    for level, (east, north) in zip(levels, places):
        if math.isnan(level):
            filled += 1
            level = min(soundings, key=lambda s: math.hypot(s[0] - east, s[1] - north))[2]
        result.append(level)
    return result, filled


def column(path):
    return [float(cell) for cell in read_columns(path)["level_m"]]


def by_scipy(way):
    def interpolate(folder):
        done = run(
            [sys.executable, HERE / "scipy_case.py", way, SOUNDINGS, PLACES, "out.csv"], folder
        )
        return column(folder / "out.csv"), json.loads(done.output)

    return interpolate


def by_natural_neighbour(folder):
    run([sys.executable, HERE / "natural_neighbour.py", SOUNDINGS, PLACES, "out.csv"], folder)
    return column(folder / "out.csv"), {}


def by_gstat(folder):
    done = run(["Rscript", HERE / "fitted_kriging.R", SOUNDINGS, PLACES, "out.csv"], folder)
    return column(folder / "out.csv"), {"model": done.output}


def by_gmt(folder):
    """A grid of one metre with tension 0.25, and from it between its four nodes."""
    everywhere = read_numbers(folder / PLACES) + [
        row[:2] for row in read_numbers(folder / SOUNDINGS)
    ]
    east, north = zip(*everywhere)
    margin = 5.0
    region = [
        f"-R{math.floor(min(east) - margin)}/{math.ceil(max(east) + margin)}"
        f"/{math.floor(min(north) - margin)}/{math.ceil(max(north) + margin)}",
        "-I1",
    ]
    mean = f"gmt blockmean {SOUNDINGS} -h1 {' '.join(region)} > means.txt"
    run(["sh", "-c", mean], folder)
    run(["gmt", "surface", "means.txt", *region, "-T0.25", "-Ggmt.nc"], folder)
    done = run(["gmt", "grdtrack", PLACES, "-h1", "-Ggmt.nc", "-nl"], folder)
    rows = [line.split() for line in done.output.splitlines() if not line.startswith(("#", ">"))]
    # The header comes through where there is one.
    return [float(row[2]) for row in rows if row[0] != "east_m"], {}


class Peer:
    """`interpolate(folder)` gives the levels at the places and what else the program says."""

    def __init__(self, name, missing, interpolate):
        self.name = name
        self.missing = missing  # a sentence, or None
        self.interpolate = interpolate

    def levels(self, folder):
        found, said = self.interpolate(folder)
        filled, said["filled"] = with_nearest(found, folder)
        return filled, said


def peers():
    no_scipy = missing_scipy()
    return [
        Peer("TIN", no_scipy, by_scipy("tin")),
        Peer("natural neighbour", None, by_natural_neighbour),
        Peer("GMT surface", missing_program("gmt", "gmt"), by_gmt),
        Peer("spline", no_scipy, by_scipy("tps0")),
        Peer("smoothed spline", no_scipy, by_scipy("tps")),
        Peer("gstat kriging", missing_gstat(), by_gstat),
    ]
