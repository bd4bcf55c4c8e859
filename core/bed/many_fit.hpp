// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"
#include "core/bed/bed_data.hpp"
#include "core/bed/bed_shape.hpp"
#include "core/bed/local_bed.hpp"
#include "core/reduction/sounding.hpp"

#include <cstddef>
#include <span>
#include <vector>

// A bed fitted to more soundings than can be solved for at once.

namespace bedlore {

/// What is believed of a bed after its unknowns were found, and the local model over it.
struct ManyFit {
    BedShape shape;
    BedTheta theta{};
    double meanLevel = 0.0;        ///< taken from the values of `bed` [m]
    std::vector<double> aimErrors; ///< of each cast [rad, clockwise]
    std::size_t leftOut = 0;       ///< soundings without a usable place
    LocalBed bed;
};

/// The most likely unknowns of a bed, from parts of its soundings as if each were independent of
/// the others (a composite likelihood): close neighbours, which tell of noise and small relief,
/// some spread wider, and one set over all. Cost linear in their number, and small. `data` may be
/// in any order that depends on their content only.
[[nodiscard]] Result<BedTheta> unknownsFromParts(
    const Reduction& reduction, std::span<const BedDatum> data, const Progress& progress = {});

/// Fits all usable soundings of a reduction, of which there must be some. The unknowns come from
/// parts (`unknownsFromParts`); the shared errors of his own casts from dense systems of some of
/// them at a time with the rest gathered round; the surface is local (`LocalBed`).
[[nodiscard]] Result<ManyFit>
fitMany(const Reduction& reduction, int threads, const Progress& progress = {});

} // namespace bedlore
