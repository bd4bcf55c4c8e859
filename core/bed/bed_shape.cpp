// SPDX-License-Identifier: MIT
#include "core/bed/bed_shape.hpp"

#include <cmath>

namespace bedlore {

BedTheta BedShape::medians() const {
    BedTheta theta{};
    for (std::size_t i = 0; i < theta.size(); ++i) {
        theta[i] = std::log(priors[i].median);
    }
    return theta;
}

CovariancePart BedShape::longPart(const BedTheta& theta) const {
    return {
        .family = longFamily,
        .variance = std::exp(2.0 * theta[LongSigma]),
        .range = std::exp(theta[LongRange])};
}

CovariancePart BedShape::shortPart(const BedTheta& theta) const {
    return {
        .family = shortFamily,
        .variance = hasShort ? std::exp(2.0 * theta[ShortSigma]) : 0.0,
        .range = std::exp(theta[ShortRange])};
}

double BedShape::nuggetVariance(const BedTheta& theta) const {
    return hasNugget ? std::exp(2.0 * theta[NuggetSigma]) : 0.0;
}

double BedShape::processVariance(const BedTheta& theta) const {
    return longPart(theta).variance + shortPart(theta).variance + nuggetVariance(theta);
}

BedShape usualShape(double levelVariance) {
    // Medians and spreads of the broad shape and of the small relief come from a comparison on real
    // lakebeds, where the map depended little on them. The noise factor is believed within a third.
    // However alike the readings are, a bed has small relief of a few centimetres, and readings
    // rounded to one and the same half foot are not exact: hence the least values [M].
    BedShape shape;
    const double sigma = std::sqrt(levelVariance);
    shape.priors[LongSigma] = {0.5 * sigma + 0.1, 1.0, 0.0067, 148.0};
    shape.priors[LongRange] = {40.0, 0.8, 2.0, 1500.0};
    shape.priors[ShortSigma] = {0.15, 1.0, 0.05, 20.0};
    shape.priors[ShortRange] = {6.0, 0.5, 1.0, 25.0};
    shape.priors[NuggetSigma] = {0.1, 1.0, 0.0025, 20.0};
    shape.priors[NoiseFactor] = {1.0, 0.3, 0.5, 10.0};
    shape.unknowns = {LongSigma, LongRange, ShortSigma, ShortRange, NoiseFactor};
    return shape;
}

} // namespace bedlore
