# SPDX-License-Identifier: MIT
import math
import random
import unittest

from natural_neighbour import area, closer_part, hull, interpolate, is_inside, weights


class Weights(unittest.TestCase):
    def test_of_the_middle_of_a_square_are_equal(self):
        found = weights([(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)], (0.5, 0.5))
        self.assertEqual(sorted(found), [0, 1, 2, 3])
        for share in found.values():
            self.assertAlmostEqual(share, 0.25, places=9)

    def test_beside_a_row_are_the_areas_taken_over(self):
        # By hand: sites at (+-2, 0) and (0, +-2), the place at (1, 0). Its cell is bounded by the
        # bisectors x = 3/2 (towards (2, 0)), x = -1/2 (towards (-2, 0)) and 2 y = x + 3/2 and its
        # mirror image (towards (0, 2) and (0, -2)): with x = -1/2 gives y = +-1/2, x = 3/2 gives
        # y = +-3/2; a trapezium of area 2 (1 + 3) / 2 = 4. The cells of the sites meet on y = +-x.
        # Of (2, 0): the part with |y| <= x, 0 <= x <= 3/2: its area is (3/2)^2 = 9/4.
        # Of (-2, 0): |y| <= -x, -1/2 <= x <= 0: (1/2)^2 = 1/4. The rest, 3/2, is halved.
        found = weights([(2.0, 0.0), (-2.0, 0.0), (0.0, 2.0), (0.0, -2.0)], (1.0, 0.0))
        for i, share in enumerate([9 / 16, 1 / 16, 3 / 16, 3 / 16]):
            self.assertAlmostEqual(found[i], share, places=9)

    def test_at_a_site_are_its_own(self):
        self.assertEqual(weights([(0.0, 0.0), (1.0, 0.0), (0.0, 1.0)], (1.0, 0.0)), {1: 1.0})


class Interpolation(unittest.TestCase):
    def test_of_a_plane_is_the_plane(self):
        # An invariant of the method (Sibson's identity): a place is the weighted mean of its
        # neighbours. What is lost is that cells without an end are cut 1000 km away.
        chance = random.Random(7)
        sites = [(chance.uniform(0, 50), chance.uniform(0, 50)) for _ in range(60)]
        levels = [2.0 - 0.3 * x + 0.1 * y for x, y in sites]
        places = [(chance.uniform(0, 50), chance.uniform(0, 50)) for _ in range(80)]
        inside = [place for place in places if is_inside(hull(sites), place)]
        self.assertGreater(len(inside), 50)
        got = interpolate(sites, levels, inside)
        for (x, y), level in zip(inside, got):
            self.assertAlmostEqual(level, 2.0 - 0.3 * x + 0.1 * y, places=4)

    def test_outside_the_hull_is_none(self):
        sites = [(0.0, 0.0), (4.0, 0.0), (0.0, 4.0)]
        beyond, inside = interpolate(sites, [1.0, 1.0, 1.0], [(9.0, -1.0), (1.0, 1.0)])
        self.assertTrue(math.isnan(beyond))
        self.assertAlmostEqual(inside, 1.0, places=9)


class Polygons(unittest.TestCase):
    SQUARE = [(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)]

    def test_are_cut_halfway(self):
        # By hand: the bisector of (0, 1) and (2, 1) is x = 1.
        self.assertAlmostEqual(area(closer_part(self.SQUARE, (0.0, 1.0), (2.0, 1.0))), 2.0)

    def test_that_lie_closer_are_left_alone(self):
        self.assertIs(closer_part(self.SQUARE, (1.0, 1.0), (9.0, 1.0)), self.SQUARE)

    def test_hull_leaves_out_what_lies_inside_and_on_it(self):
        self.assertEqual(hull(self.SQUARE + [(1.0, 1.0), (1.0, 0.0)]), self.SQUARE)

    def test_of_a_line_has_no_inside(self):
        self.assertFalse(is_inside(hull([(0.0, 0.0), (1.0, 1.0), (2.0, 2.0)]), (1.0, 1.0)))


if __name__ == "__main__":
    unittest.main()
