// SPDX-License-Identifier: MIT
#include "core/chart/level_table.hpp"

#include "core/units/format.hpp"
#include "core/units/length.hpp"

#include <array>
#include <cmath>
#include <span>

namespace bedlore {

namespace {

/// A usual step and how many of them make the next heavy line: one that a person would name.
struct Step {
    double size;
    int boldEvery;
};

// Finer steps than these would draw the error of a float's depth as if it were the bed.
constexpr std::array<Step, 7> footSteps{
    {{1.0, 5}, {2.0, 5}, {5.0, 4}, {10.0, 5}, {20.0, 5}, {50.0, 4}, {100.0, 5}}};
constexpr std::array<Step, 8> metreSteps{
    {{0.25, 4}, {0.5, 4}, {1.0, 5}, {2.0, 5}, {5.0, 4}, {10.0, 5}, {20.0, 5}, {50.0, 4}}};

// A line for fewer than this many levels is still worth a number on each.
constexpr int fewLevels = 6;

struct Range {
    double first = 0.0; ///< in steps
    double last = 0.0;

    [[nodiscard]] double count() const { return last - first + 1.0; }
};

// Multiples of the step strictly between the ends: a line at the very end would be a dot.
Range multiplesBetween(double low, double high, double step) {
    constexpr double rounding = 1e-6; // of a step: 7 ft is 6.9999999 ft after a way through metres
    const double first = std::floor(low / step + rounding) + 1.0;
    const double last = std::ceil(high / step - rounding) - 1.0;
    return {first, last};
}

// Feet in quarters as he says them, metres in decimals.
std::string labelOf(double number, Unit unit) {
    if (unit == Unit::Foot) {
        return printNumber(number);
    }
    std::string text = printFixed(number + 0.0, 2); // never "-0"
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') {
        text.pop_back();
    }
    return text;
}

LevelTable tableOf(const Range& range, Step step, Unit unit, double unitInMetres) {
    LevelTable table{.unit = unit, .step = step.size, .levels = {}};
    bool anyBold = false;
    for (int i = 0; range.first + i <= range.last; ++i) {
        const double k = range.first + i;
        const double number = k * step.size;
        const bool bold = std::fmod(std::abs(k), step.boldEvery) == 0.0;
        anyBold = anyBold || bold;
        table.levels.push_back(
            {.depth = number * unitInMetres,
             .label = labelOf(number, unit),
             .bold = bold,
             .labelled = bold});
    }
    if (!anyBold || range.count() <= fewLevels) {
        for (ContourLevel& level : table.levels) {
            level.labelled = true;
        }
    }
    return table;
}

} // namespace

LevelTable levelsFor(double shallowest, double deepest, Unit unit, int most) {
    const bool feet = unit == Unit::Foot;
    const double unitInMetres = feet ? foot.si() : 1.0;
    const std::span<const Step> steps =
        feet ? std::span<const Step>(footSteps) : std::span<const Step>(metreSteps);
    const Unit written = feet ? Unit::Foot : Unit::Metre;
    LevelTable empty{.unit = written, .step = feet ? 1.0 : 0.5, .levels = {}};
    if (!std::isfinite(shallowest) || !std::isfinite(deepest) || !(shallowest < deepest)) {
        return empty;
    }
    const double low = shallowest / unitInMetres;
    const double high = deepest / unitInMetres;
    Step step = steps.back();
    for (const Step candidate : steps) {
        if (multiplesBetween(low, high, candidate.size).count() <= most) {
            step = candidate;
            break;
        }
    }
    // Beyond the table: powers of ten until the lines are few enough (nonsense depths, but no
    // endless loop and no endless table).
    while (multiplesBetween(low, high, step.size).count() > most) {
        step = {step.size * 10.0, 5};
    }
    const Range range = multiplesBetween(low, high, step.size);
    empty.step = step.size;
    return range.count() < 1.0 ? empty : tableOf(range, step, written, unitInMetres);
}

} // namespace bedlore
