# SPDX-License-Identifier: MIT
"""Fixes to a grid with scipy: linear on the Delaunay triangulation, outside its hull the nearest.

Usage: scipy_fixes.py FIXES.csv OUT.npy COLUMNS CELL
"""

import sys

import numpy as np
from scipy.interpolate import LinearNDInterpolator
from scipy.spatial import cKDTree


def main():
    source, out, columns, cell = sys.argv[1], sys.argv[2], int(sys.argv[3]), float(sys.argv[4])
    rows = np.loadtxt(source, delimiter=",", skiprows=1)
    places, depths = rows[:, :2], rows[:, 2]
    centres = (np.arange(columns) + 0.5) * cell
    east, north = np.meshgrid(centres, centres[::-1])
    grid = LinearNDInterpolator(places, depths)(east, north)
    outside = np.isnan(grid)
    nearest = cKDTree(places).query(np.column_stack([east[outside], north[outside]]))[1]
    grid[outside] = depths[nearest]
    np.save(out, grid.astype(np.float32))


if __name__ == "__main__":
    main()
