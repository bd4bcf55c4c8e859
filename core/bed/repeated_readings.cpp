// SPDX-License-Identifier: MIT
#include "core/bed/repeated_readings.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <utility>

namespace bedlore {

namespace {

// Far less than any count or bearing is read to; more than a tip an inch higher changes.
constexpr double sameLine = 0.02;      // m
constexpr double sameDrop = 0.005;     // m
constexpr double samePlace = 0.02;     // m
constexpr double sameDirection = 2e-3; // radians, about 0.1°

bool isRepeat(const ThrowGeometry& a, const ThrowGeometry& b) {
    return std::abs(a.line - b.line) <= sameLine && std::abs(a.drop - b.drop) <= sameDrop &&
           std::abs(std::remainder(a.direction - b.direction, 2.0 * std::numbers::pi)) <=
               sameDirection &&
           std::hypot(a.tip.east - b.tip.east, a.tip.north - b.tip.north) <= samePlace;
}

} // namespace

std::vector<BedDatum> withoutRepeats(std::span<const BedDatum> data) {
    // Candidates share a square of the two lengths, or lie in the next one.
    using Square = std::pair<long, long>;
    const auto squareOf = [](const ThrowGeometry& thrown) {
        return Square(std::lround(thrown.line / sameLine), std::lround(thrown.drop / sameDrop));
    };
    std::map<Square, std::vector<const ThrowGeometry*>> kept;
    std::vector<BedDatum> result;
    result.reserve(data.size());
    for (const BedDatum& datum : data) {
        if (!datum.thrown) {
            result.push_back(datum);
            continue;
        }
        const ThrowGeometry& thrown = *datum.thrown;
        const Square square = squareOf(thrown);
        bool repeats = false;
        for (long line = -1; line <= 1 && !repeats; ++line) {
            for (long drop = -1; drop <= 1 && !repeats; ++drop) {
                const auto near = kept.find({square.first + line, square.second + drop});
                repeats = near != kept.end() &&
                          std::any_of(
                              near->second.begin(),
                              near->second.end(),
                              [&](const ThrowGeometry* other) { return isRepeat(*other, thrown); });
            }
        }
        if (!repeats) {
            kept[square].push_back(&thrown);
            result.push_back(datum);
        }
    }
    return result;
}

} // namespace bedlore
