# SPDX-License-Identifier: MIT
import math
import unittest

from scores import (
    coverage,
    coverage_by_thirds,
    crps,
    exponent,
    geometric_mean,
    interval_score,
    mean_score,
    rmse,
)

# Source: tables of the normal distribution: 97.5 % lie below 1.959964.
Z = 1.959964


class Rmse(unittest.TestCase):
    def test_is_the_root_of_the_mean_square(self):
        # By hand: sqrt((9 + 16) / 2).
        self.assertAlmostEqual(rmse([3.0, -4.0]), math.sqrt(12.5), places=12)


class Crps(unittest.TestCase):
    def test_of_a_forecast_that_hits(self):
        # By hand from the formula: at z = 0, s (2 / sqrt(2 pi) - 1 / sqrt(pi)).
        self.assertAlmostEqual(
            crps(0.0, 2.0), 2.0 * (math.sqrt(2.0) - 1.0) / math.sqrt(math.pi), places=12
        )

    def test_is_the_integral_that_defines_it(self):
        # Definition: the integral over x of (F(x) - 1[x >= truth])^2; here by the midpoint rule.
        s, error, step = 0.7, 0.9, 1e-3
        total = 0.0
        for i in range(-8000, 8000):
            x = (i + 0.5) * step
            # The forecast is around `error`, the truth at 0.
            below = 0.5 * math.erfc(-(x - error) / (s * math.sqrt(2.0)))
            total += (below - (1.0 if x >= 0.0 else 0.0)) ** 2 * step
        self.assertAlmostEqual(crps(error, s), total, places=6)

    def test_without_an_error_stated_is_the_size_of_the_error(self):
        self.assertEqual(crps(-0.3, 0.0), 0.3)

    def test_far_off_loses_the_spread_of_the_forecast(self):
        # By hand: as z grows, s (z - 1 / sqrt(pi)).
        self.assertAlmostEqual(crps(-50.0, 1.0), 50.0 - 1.0 / math.sqrt(math.pi), places=9)


class IntervalScore(unittest.TestCase):
    def test_inside_is_the_width(self):
        self.assertAlmostEqual(interval_score(0.1, 0.5), 2.0 * Z * 0.5, places=5)

    def test_outside_pays_forty_times_what_lies_outside(self):
        # By hand: 2 / (1 - 0.95) = 40.
        self.assertAlmostEqual(
            interval_score(-3.0, 1.0), 2.0 * Z + 40.0 * (3.0 - Z), places=4
        )

    def test_mean_over_places(self):
        self.assertAlmostEqual(
            mean_score(interval_score, [0.0, 0.0], [1.0, 2.0]), 3.0 * Z, places=5
        )


class Coverage(unittest.TestCase):
    def test_counts_what_lies_inside(self):
        self.assertEqual(coverage([1.9, -1.9, 2.0, 0.0], [1.0] * 4), 0.75)

    def test_by_thirds_goes_by_the_error_stated(self):
        # The two smallest s hold, of the middle two one, of the largest none.
        errors = [90.0, 0.0, 0.0, 5.0, 0.0, -90.0]
        sigmas = [6.0, 1.0, 2.0, 2.1, 2.2, 7.0]
        self.assertEqual(coverage_by_thirds(errors, sigmas), [1.0, 0.5, 0.0])

    def test_parts_differ_by_one_at_most_where_three_do_not_divide(self):
        self.assertEqual(
            coverage_by_thirds([0.0, 9.0, 0.0, 9.0], [1.0, 2.0, 3.0, 4.0]), [1.0, 0.0, 0.5]
        )


class Means(unittest.TestCase):
    def test_geometric_mean_of_a_half_and_a_double_is_one(self):
        self.assertAlmostEqual(geometric_mean([0.5, 2.0]), 1.0, places=12)

    def test_exponent_of_a_square_law_is_two(self):
        self.assertAlmostEqual(exponent([10, 100, 1000], [3.0, 300.0, 3e4]), 2.0, places=12)


if __name__ == "__main__":
    unittest.main()
