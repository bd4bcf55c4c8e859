# SPDX-License-Identifier: MIT
"""An invented bed of a square kilometre as a formula, and a boat's fixes over it."""

import numpy as np

WIDTH = 1024.0  # m
DEPTH_ERROR = 0.1  # m, 1 sd: of a sonar; stated in the table of fixes
PLACE_ERROR = 1.0  # m each way, 1 sd: what the program takes a fix to have


def depth(east, north):
    """Metres below the surface, at arrays of places: a bowl, three bars, a hundred humps and holes
    from 5 to 60 m wide, and relief of waves from 4 to 60 m long whose height grows with length."""
    chance = np.random.default_rng(1)
    result = 6.0 - 3.0 * np.hypot(east / WIDTH - 0.5, north / WIDTH - 0.5)
    for _ in range(3):
        across, phase = chance.uniform(200.0, 800.0), chance.uniform(0.0, 6.28)
        middle = across + 60.0 * np.sin(east / 130.0 + phase)
        result -= 1.5 * np.exp(-0.5 * ((north - middle) / 12.0) ** 2)
    for _ in range(100):
        x, y = chance.uniform(0.0, WIDTH, 2)
        size = np.exp(chance.uniform(np.log(5.0), np.log(60.0)))
        height = chance.normal(0.0, 0.2 * np.sqrt(size / 5.0))
        result += height * np.exp(-0.5 * ((east - x) ** 2 + (north - y) ** 2) / size**2)
    for _ in range(60):
        length = np.exp(chance.uniform(np.log(4.0), np.log(60.0)))
        heading, phase = chance.uniform(0.0, 6.28, 2)
        along = east * np.cos(heading) + north * np.sin(heading)
        result += 0.0015 * length * np.cos(6.28 * along / length + phase)
    return result


def track(count):
    """Where a boat takes `count` fixes: up and down on lines that wander a little, four times as
    close along a line as the lines are to each other."""
    chance = np.random.default_rng(2)
    lines = max(2, round(0.5 * np.sqrt(count)))
    spacing = WIDTH / lines
    gone = (np.arange(count) + 0.5) / count * lines
    line = np.floor(gone)
    along = gone - line
    north = np.where(line % 2 == 0, along, 1.0 - along) * WIDTH
    wander = 0.2 * np.sin(north / (3.0 * spacing) + 2.4 * line) + chance.normal(0.0, 0.05, count)
    east = (line + 0.5 + wander) * spacing
    return np.clip(east, 0.0, WIDTH), north


def fixes(count):
    """Columns east, north, depth: as noted, errors in."""
    chance = np.random.default_rng(3)
    east, north = track(count)
    noted = depth(east, north) + chance.normal(0.0, DEPTH_ERROR, count)
    east = np.clip(east + chance.normal(0.0, PLACE_ERROR, count), 0.0, WIDTH)
    north = np.clip(north + chance.normal(0.0, PLACE_ERROR, count), 0.0, WIDTH)
    return east, north, noted


def centres(columns):
    """Places of the cells' centres, row by row from the north-west."""
    at = (np.arange(columns) + 0.5) * (WIDTH / columns)
    return np.meshgrid(at, at[::-1])
