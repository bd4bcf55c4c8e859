# SPDX-License-Identifier: MIT
"""How well a bed, and the error stated of it, agree with the truth.

An error is the bed minus the truth [m]; s is what was stated of it (1 sd, normal) [m]. Plain sums
over lists: no library is needed.
"""

import math
from statistics import NormalDist, fmean

STANDARD_NORMAL = NormalDist()


def rmse(errors):
    """Root of the mean square error."""
    return math.sqrt(fmean(error * error for error in errors))


def crps(error, s):
    """Continuous ranked probability score of a normal forecast; lower is better.

    Source: Gneiting & Raftery (2007), JASA 102(477), equation 21 (its sign turned). Without an
    error stated it is the size of the error.
    """
    if s <= 0.0:
        return abs(error)
    z = error / s
    return s * (
        z * (2.0 * STANDARD_NORMAL.cdf(z) - 1.0)
        + 2.0 * STANDARD_NORMAL.pdf(z)
        - 1.0 / math.sqrt(math.pi)
    )


def interval_score(error, s, share=0.95):
    """Interval score of the central interval that is to hold `share` of the truth; lower is better:
    its width, and what lies outside multiplied by 2 / (1 - share).

    Source: Gneiting & Raftery (2007), JASA 102(477), equation 43.
    """
    half = STANDARD_NORMAL.inv_cdf(0.5 + 0.5 * share) * s
    return 2.0 * half + 2.0 / (1.0 - share) * max(abs(error) - half, 0.0)


def mean_score(score, errors, sigmas):
    """Mean of `crps` or `interval_score` over places."""
    return fmean(score(error, s) for error, s in zip(errors, sigmas, strict=True))


def coverage(errors, sigmas, share=0.95):
    """Share of the truth inside the central interval that is to hold `share` of it."""
    z = STANDARD_NORMAL.inv_cdf(0.5 + 0.5 * share)
    return fmean(abs(error) <= z * s for error, s in zip(errors, sigmas, strict=True))


def coverage_by_thirds(errors, sigmas, share=0.95):
    """The same for the third of the places with the smallest s, the middle one, the largest."""
    ranked = sorted(zip(sigmas, errors, strict=True))
    n = len(ranked)
    cuts = [0, n // 3, 2 * n // 3, n]
    return [
        coverage([e for _, e in part], [s for s, _ in part], share)
        for part in (ranked[a:b] for a, b in zip(cuts, cuts[1:]))
    ]


def geometric_mean(values):
    return math.exp(fmean(math.log(value) for value in values))


def exponent(sizes, times):
    """p of the least squares fit time = c size^p over logarithms."""
    x = [math.log(size) for size in sizes]
    y = [math.log(time) for time in times]
    mx, my = fmean(x), fmean(y)
    return sum((a - mx) * (b - my) for a, b in zip(x, y)) / sum((a - mx) ** 2 for a in x)
