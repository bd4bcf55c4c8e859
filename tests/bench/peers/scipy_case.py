# SPDX-License-Identifier: MIT
"""A case's bed with scipy, at places. All soundings are different places.

Usage: scipy_case.py WAY SOUNDINGS.csv PLACES.csv OUT.csv, where WAY is
  tin    linear on the Delaunay triangulation; nan outside its hull
  tps0   thin plate spline through every sounding
  tps    thin plate spline, as smooth as leaving out one sounding at a time finds best

Says as JSON what leaving out one sounding at a time missed by, root mean square [m] (`left_out`;
not for tps0), and the smoothing chosen.
"""

import json
import sys

import numpy as np
from scipy.interpolate import LinearNDInterpolator, RBFInterpolator
from scipy.spatial import cKDTree

from tables import read_numbers, write_column

SMOOTHINGS = [0.0, *np.logspace(-1.0, 6.0, 22)]


def tin(sites, levels, places):
    return LinearNDInterpolator(sites, levels)(places)


def tin_left_out(sites, levels):
    """Each level as the others have it, minus itself. A corner of the hull lies outside that of the
    others: the nearest of them is taken."""
    errors = []
    for i, keep in enumerate(~np.eye(len(levels), dtype=bool)):
        level = tin(sites[keep], levels[keep], sites[i : i + 1])[0]
        if np.isnan(level):
            level = levels[keep][cKDTree(sites[keep]).query(sites[i])[1]]
        errors.append(level - levels[i])
    return np.array(errors)


def spline(sites, levels, places, smoothing):
    way = RBFInterpolator(sites, levels, kernel="thin_plate_spline", smoothing=smoothing)
    return way(places)


def spline_left_out(sites, levels, smoothing):
    """The same for the spline, from one inverse: the coefficient over the inverse's diagonal.
    Source: Rippa (1999), Advances in Computational Mathematics 11, with the linear part in the
    matrix (Dubrule 1983, Mathematical Geology 15(6))."""
    n = len(levels)
    centred = (sites - sites.mean(axis=0)) / sites.std()
    r = np.linalg.norm(sites[:, None, :] - sites[None, :, :], axis=2)
    system = np.zeros((n + 3, n + 3))
    system[:n, :n] = r**2 * np.log(np.where(r > 0.0, r, 1.0)) + smoothing * np.eye(n)
    system[:n, n:] = np.column_stack([np.ones(n), centred])
    system[n:, :n] = system[:n, n:].T
    inverse = np.linalg.inv(system)
    return -(inverse[:n, :n] @ levels) / np.diag(inverse)[:n]


def root_mean_square(values):
    return float(np.sqrt(np.mean(values**2)))


def main():
    way, soundings, where, out = sys.argv[1:]
    rows = np.array(read_numbers(soundings))
    sites, levels = rows[:, :2], rows[:, 2]
    places = np.array(read_numbers(where))
    said = {}
    if way == "tin":
        found = tin(sites, levels, places)
        said["left_out"] = root_mean_square(tin_left_out(sites, levels))
    elif way == "tps0":
        found = spline(sites, levels, places, 0.0)
    else:
        tried = [root_mean_square(spline_left_out(sites, levels, each)) for each in SMOOTHINGS]
        best = int(np.argmin(tried))
        said = {"left_out": tried[best], "smoothing": float(SMOOTHINGS[best])}
        found = spline(sites, levels, places, SMOOTHINGS[best])
    write_column(out, "level_m", found)
    print(json.dumps(said))


if __name__ == "__main__":
    main()
