# SPDX-License-Identifier: MIT
"""Natural neighbour interpolation, by its definition: a place takes from each site the share of the
site's cell that it would take over if it were a site itself.

Source: Sibson (1981), A brief description of natural neighbour interpolation, in Interpreting
Multivariate Data. Areas by clipping convex polygons, without a triangulation. Outside the hull of
the sites there is no value (nan).

Usage: natural_neighbour.py SOUNDINGS.csv PLACES.csv OUT.csv
"""

import math
import sys

from tables import read_numbers, write_column

# Cells of sites on the hull have no end: this far off [m] they are cut, which takes nothing from
# the shares that counts.
FAR = 1e6


def closer_part(polygon, near, far):
    """The part of a convex polygon that lies closer to `near` than to `far`."""
    across = (far[0] - near[0], far[1] - near[1])
    middle = (0.5 * (far[0] + near[0]), 0.5 * (far[1] + near[1]))
    beyond = [
        (x - middle[0]) * across[0] + (y - middle[1]) * across[1] for x, y in polygon
    ]
    if max(beyond, default=0.0) <= 0.0:
        return polygon
    part = []
    for i, corner in enumerate(polygon):
        before, d = polygon[i - 1], beyond[i - 1]
        if (d < 0.0 < beyond[i]) or (beyond[i] < 0.0 < d):
            t = d / (d - beyond[i])
            part.append(
                (before[0] + t * (corner[0] - before[0]), before[1] + t * (corner[1] - before[1]))
            )
        if beyond[i] <= 0.0:
            part.append(corner)
    return part


def area(polygon):
    """Corners counted from the first one, so that far polygons lose no digits."""
    if len(polygon) < 3:
        return 0.0
    x0, y0 = polygon[0]
    corners = [(x - x0, y - y0) for x, y in polygon]
    return 0.5 * abs(
        sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(corners, corners[1:]))
    )


def square_distance(a, b):
    return (a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2


def weights(sites, place):
    """Index and share of each site that gives something; `place` lies inside the sites' hull. The
    sites are all different."""
    by_distance = sorted((square_distance(site, place), i) for i, site in enumerate(sites))
    if by_distance[0][0] == 0.0:
        return {by_distance[0][1]: 1.0}
    x, y = place
    cell = [(x - FAR, y - FAR), (x + FAR, y - FAR), (x + FAR, y + FAR), (x - FAR, y + FAR)]
    around = []
    for square, i in by_distance:
        # A site more than twice as far as the cell's farthest corner takes nothing from it.
        if square > 4.0 * max(square_distance(corner, place) for corner in cell):
            break
        smaller = closer_part(cell, place, sites[i])
        if smaller is not cell:
            cell = smaller
            around.append(i)
    taken = {}
    for i in around:
        part = cell
        for j in around:
            if j != i and part:
                part = closer_part(part, sites[i], sites[j])
        taken[i] = area(part)
    whole = sum(taken.values())
    return {i: share / whole for i, share in taken.items() if share > 0.0}


def turn(a, b, c):
    """Twice the area of the triangle, positive where it turns left."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def hull(sites):
    """Corners of the convex hull, anticlockwise. Source: Andrew (1979), Inf. Proc. Letters 9."""
    ordered = sorted(set(sites))

    def half(points):
        chain = []
        for point in points:
            while len(chain) > 1 and turn(chain[-2], chain[-1], point) <= 0.0:
                chain.pop()
            chain.append(point)
        return chain[:-1]

    return half(ordered) + half(reversed(ordered))


def is_inside(corners, place):
    """Strictly inside an anticlockwise polygon."""
    return len(corners) > 2 and all(
        turn(corners[i - 1], corners[i], place) > 0.0 for i in range(len(corners))
    )


def interpolate(sites, levels, places):
    """Levels at the places; nan outside the hull."""
    corners = hull(sites)
    return [
        sum(share * levels[i] for i, share in weights(sites, place).items())
        if is_inside(corners, place)
        else math.nan
        for place in places
    ]


def main():
    soundings, places, out = sys.argv[1:]
    rows = read_numbers(soundings)
    levels = interpolate(
        [(east, north) for east, north, _ in rows],
        [level for _, _, level in rows],
        [tuple(place) for place in read_numbers(places)],
    )
    write_column(out, "level_m", levels)


if __name__ == "__main__":
    main()
