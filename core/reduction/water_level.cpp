// SPDX-License-Identifier: MIT
#include "core/reduction/water_level.hpp"

#include "core/reduction/uncertainty.hpp"
#include "core/units/format.hpp"

#include <cmath>

namespace bedlore {

std::optional<MeasuredLevel> measuredLevel(const Entered& level, const LevelReference& reference) {
    if (!std::isfinite(level.number)) {
        return std::nullopt;
    }
    if (level.unit == Unit::One) {
        return MeasuredLevel{.level = {level.number * metre}, .sigma = usual::levelInMetres};
    }
    if (const auto fixed = fixedLength(level)) {
        return MeasuredLevel{.level = {*fixed}, .sigma = usual::levelInMetres};
    }
    if (level.unit == Unit::Step && reference.stepHeight) {
        if (const auto step = fixedLength(*reference.stepHeight)) {
            const double way = reference.counts == LevelCounts::DownWithWater ? -1.0 : 1.0;
            return MeasuredLevel{
                .level = {way * level.number * *step}, .sigma = usual::levelInSteps};
        }
    }
    return std::nullopt;
}

} // namespace bedlore
