// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/geodesy/geographic_point.hpp"
#include "core/reduction/sounding.hpp"

#include <filesystem>
#include <vector>

// One of the simulated evenings on a real lakebed, for the benchmarks.

namespace bedlore::bench {

struct TruthPoint {
    Point place;
    double depth = 0.0; // m below the surface of the day
};

/// A case as the product sees it, and the bed as it really is.
struct BedCase {
    std::string name;
    Reduction reduction;
    std::vector<TruthPoint> truth;
};

/// Reads `swims.csv`, `readings.csv` and `truth_grid.csv` of `folder`.
[[nodiscard]] Result<BedCase> readCase(const std::filesystem::path& folder);

/// The folders below `root` that hold a case, by name.
[[nodiscard]] std::vector<std::filesystem::path> caseFolders(const std::filesystem::path& root);

} // namespace bedlore::bench
