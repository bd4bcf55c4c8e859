// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"
#include "core/geometry/point.hpp"
#include "core/geometry/raster.hpp"
#include "core/reduction/sounding.hpp"

#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <vector>

// The bed and how sure it is, from soundings.

namespace bedlore {

struct BedFit;
struct BedDatum;

/// The bed at one point. `level` [m above the water's datum]; `sigma` [m], the error of the bed
/// there (small relief in, reading noise out), 1 sd. `known` is false where the soundings say too
/// little: far from all, or an error above what the bed varies by anyway.
struct BedEstimate {
    double level = 0.0;
    double sigma = 0.0;
    bool known = false;
};

/// The bed on a grid; the three rasters share their frame. `known` holds 1 or 0.
struct BedGrid {
    Raster<float> level;
    Raster<float> sigma;
    Raster<std::uint8_t> known;

    [[nodiscard]] const GridFrame& frame() const { return level.frame; }
};

/// What was found about the bed itself, for whoever looks under the lid.
struct BedParameters {
    double longSigma = 0.0;   ///< [m] sd of the bed's broad shape about the drift
    double longRange = 0.0;   ///< [m]
    double shortSigma = 0.0;  ///< [m] sd of its small shape
    double shortRange = 0.0;  ///< [m]
    double nuggetSigma = 0.0; ///< [m] sd of relief finer than any reading can tell
    double noiseFactor = 1.0; ///< on the stated errors of the depths
};

/// How a fit is run; the outcome does not depend on it.
struct BedOptions {
    int threads = 0; ///< for grids and lists of places; 0: one for each core
};

/// The surface fitted to a reduction's soundings. A value; copies share the factorisation. Works
/// for any number of soundings, none included (then nothing is known anywhere). The same soundings
/// give the same surface, to the byte, whatever the number of threads.
class BedSurface {
public:
    [[nodiscard]] static Result<BedSurface>
    fit(const Reduction& reduction, const Progress& progress = {}, const BedOptions& options = {});

    [[nodiscard]] std::size_t soundingCount() const;
    [[nodiscard]] BedParameters parameters() const;
    /// What he should know about how it was made, in sentences.
    [[nodiscard]] const std::vector<std::string>& notes() const;

    [[nodiscard]] BedEstimate at(Point place) const;
    [[nodiscard]] Result<std::vector<BedEstimate>>
    at(std::span<const Point> places, const Progress& progress = {}) const;
    [[nodiscard]] Result<BedGrid> grid(const GridFrame& frame, const Progress& progress = {}) const;

    /// The smallest frame of whole cells, edges at multiples of `cell`, that holds every place that
    /// could be known. Empty without soundings.
    [[nodiscard]] GridFrame frameFor(double cell) const;

    /// The most likely error of each cast's direction [rad, clockwise], in the order of
    /// `Reduction::casts`.
    [[nodiscard]] std::vector<double> aimErrors() const;

    /// Whether a place with this error (1 sd), this far from the nearest sounding [m], is known.
    [[nodiscard]] bool isKnown(double sigma, double nearest) const;
    /// How far from every sounding nothing is known any more [m].
    [[nodiscard]] double reach() const;

    /// A surface from a fit that is there already, to `data` of `reduction`.
    [[nodiscard]] static BedSurface made(
        const Reduction& reduction,
        BedFit fit,
        std::vector<BedDatum> data,
        const BedOptions& options = {});
    /// What it was fitted to and how, for what grows from it; null without soundings.
    [[nodiscard]] const BedFit* fitted() const;
    [[nodiscard]] std::span<const BedDatum> data() const;

private:
    class Fitted;
    std::shared_ptr<const Fitted> fitted_;
};

} // namespace bedlore
