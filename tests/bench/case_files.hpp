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
    std::vector<TruthPoint> truth;         ///< on a lattice
    std::vector<TruthPoint> trueSoundings; ///< where somebody really sounded it
};

/// Takes in the notes of `folder` as the program does: `swims.csv`, `readings.csv`, and `reels.csv`
/// and `shoreline.csv` where they are there; and `truth_grid.csv` and `truth_soundings.csv`.
[[nodiscard]] Result<BedCase> readCase(const std::filesystem::path& folder);

/// The folders below `root` that hold a case, by name.
[[nodiscard]] std::vector<std::filesystem::path> caseFolders(const std::filesystem::path& root);

} // namespace bedlore::bench
