// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/id.hpp"
#include "core/book/imported_file.hpp"
#include "core/book/kinds.hpp"
#include "core/book/place.hpp"
#include "core/book/water.hpp"

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

// Depths at positions from elsewhere: a boat, another person's data.

namespace bedlore {

enum class FixFrame : std::uint8_t { Geographic, Plane };

/// Columns of equal length, or empty where the file had none. `x` is longitude [°] or metres east,
/// `y` latitude [°] or metres north; `depth` [m] below the surface of its day; `sigma` [m] and
/// `level` [m] are NaN where empty; `day` counts from 1970-01-01, the smallest int where empty;
/// `substrate` and `cover` hold kinds, 255 where empty.
struct FixColumns {
    std::vector<double> x;
    std::vector<double> y;
    std::vector<double> depth;
    std::vector<float> sigma;
    std::vector<float> level;
    std::vector<std::int32_t> day;
    std::vector<std::uint8_t> substrate;
    std::vector<std::uint8_t> cover;
    friend bool operator==(const FixColumns&, const FixColumns&) = default;
};

/// One import. `excluded` has a non-zero byte for each row that he set aside, or is empty when he
/// set aside none.
struct FixSet {
    Id<FixSet> id;
    Id<Water> water;
    std::string name;
    std::optional<Id<ImportedFile>> file;
    FixFrame frame = FixFrame::Geographic;
    std::shared_ptr<const FixColumns> columns;
    std::shared_ptr<const std::vector<std::uint8_t>> excluded;
    friend bool operator==(const FixSet& a, const FixSet& b); ///< what is empty in both is equal
};

} // namespace bedlore
