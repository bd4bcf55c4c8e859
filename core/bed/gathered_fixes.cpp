// SPDX-License-Identifier: MIT
#include "core/bed/gathered_fixes.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <unordered_set>
#include <utility>

namespace bedlore {

namespace {

constexpr double finestCell = 0.25;            // m
constexpr double widening = 1.189207115002721; // the fourth root of two

struct Square {
    std::int64_t row = 0;
    std::int64_t column = 0;
    friend auto operator<=>(const Square&, const Square&) = default;
};

struct SquareHash {
    std::size_t operator()(const Square& square) const {
        const auto mixed = static_cast<std::uint64_t>(square.row) * 0x9E3779B97F4A7C15U;
        return mixed ^ static_cast<std::uint64_t>(square.column);
    }
};

Square squareOf(const BedDatum& fix, double cell) {
    constexpr double farthest = 1e15; // squares; well inside the integers
    const auto index = [&](double metres) {
        return static_cast<std::int64_t>(
            std::clamp(std::floor(metres / cell), -farthest, farthest));
    };
    return {index(fix.recorded.north), index(fix.recorded.east)};
}

bool fill(const std::vector<BedDatum>& fixes, double cell, std::size_t moreThan) {
    std::unordered_set<Square, SquareHash> squares;
    for (const BedDatum& fix : fixes) {
        squares.insert(squareOf(fix, cell));
        if (squares.size() > moreThan) {
            return true;
        }
    }
    return false;
}

/// The fixes from `begin` to before `end` as one.
BedDatum merged(const BedDatum* begin, const BedDatum* end) {
    double weight = 0.0;
    BedDatum sum;
    for (const BedDatum* fix = begin; fix != end; ++fix) {
        const double w = 1.0 / (fix->noise * fix->noise);
        weight += w;
        sum.recorded.east += w * fix->recorded.east;
        sum.recorded.north += w * fix->recorded.north;
        sum.level += w * fix->level;
        sum.placeSigma += w * fix->placeSigma;
    }
    sum.recorded.east /= weight;
    sum.recorded.north /= weight;
    sum.level /= weight;
    sum.placeSigma /= weight;
    const auto count = static_cast<double>(end - begin);
    double scatter = 0.0;
    for (const BedDatum* fix = begin; fix != end; ++fix) {
        scatter += (fix->level - sum.level) * (fix->level - sum.level);
    }
    const double ofMean = count > 1.0 ? scatter / (count * (count - 1.0)) : 0.0;
    sum.noise = std::sqrt(std::max(1.0 / weight, ofMean));
    return sum;
}

} // namespace

GatheredFixes gatheredFixes(std::vector<BedDatum> soundings, std::size_t most) {
    GatheredFixes result;
    if (soundings.size() <= most) {
        result.soundings = std::move(soundings);
        return result;
    }
    const auto firstFix =
        std::stable_partition(soundings.begin(), soundings.end(), [](const BedDatum& datum) {
            return datum.thrown.has_value();
        });
    std::vector<BedDatum> fixes(firstFix, soundings.end());
    soundings.erase(firstFix, soundings.end());
    result.soundings = std::move(soundings);
    result.from = fixes.size();
    if (fixes.empty()) {
        return result;
    }
    const std::size_t taken = result.soundings.size();
    const std::size_t room = most > taken ? most - taken : 1;
    result.cell = finestCell;
    while (fill(fixes, result.cell, room)) {
        result.cell *= widening;
    }
    // Stable, so that the sums run in the order of the content.
    std::stable_sort(fixes.begin(), fixes.end(), [&](const BedDatum& a, const BedDatum& b) {
        return squareOf(a, result.cell) < squareOf(b, result.cell);
    });
    for (std::size_t begin = 0; begin < fixes.size();) {
        std::size_t end = begin + 1;
        while (end < fixes.size() &&
               squareOf(fixes[end], result.cell) == squareOf(fixes[begin], result.cell)) {
            ++end;
        }
        result.soundings.push_back(merged(&fixes[begin], fixes.data() + end));
        begin = end;
    }
    return result;
}

} // namespace bedlore
