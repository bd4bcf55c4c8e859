// SPDX-License-Identifier: MIT
#include "gui/paint/grown_raster.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace bedlore {

namespace {

/// Cells next to those of `known` that are not known themselves, by columns of each row.
std::vector<std::vector<int>> cellsBeside(const Raster<std::uint8_t>& known) {
    const GridFrame& frame = known.frame;
    std::vector<std::vector<int>> beside(static_cast<std::size_t>(frame.rows));
    std::vector<std::uint8_t> near(static_cast<std::size_t>(frame.columns) + 2);
    for (int r = 0; r < frame.rows; ++r) {
        // Known somewhere in this column of three rows, with a column more at each end.
        std::fill(near.begin(), near.end(), std::uint8_t{0});
        for (int y = std::max(r - 1, 0); y <= std::min(r + 1, frame.rows - 1); ++y) {
            const std::uint8_t* row = &known.values[known.index(y, 0)];
            for (std::size_t c = 0; c + 2 < near.size(); ++c) {
                near[c + 1] |= row[c];
            }
        }
        const std::uint8_t* row = &known.values[known.index(r, 0)];
        for (std::size_t c = 0; c + 2 < near.size(); ++c) {
            if (row[c] == 0 && (near[c] | near[c + 1] | near[c + 2]) != 0) {
                beside[static_cast<std::size_t>(r)].push_back(static_cast<int>(c));
            }
        }
    }
    return beside;
}

/// Gives the cells next to what is known the mean of their known neighbours; they are known then.
void growByOneCell(Raster<float>& depth, Raster<std::uint8_t>& known) {
    const GridFrame& frame = depth.frame;
    const std::vector<std::vector<int>> beside = cellsBeside(known);
    const auto meanRound = [&](int r, int c) {
        float sum = 0.0F;
        float count = 0.0F;
        for (int y = std::max(r - 1, 0); y <= std::min(r + 1, frame.rows - 1); ++y) {
            for (int x = std::max(c - 1, 0); x <= std::min(c + 1, frame.columns - 1); ++x) {
                if (known.at(y, x) != 0) {
                    sum += depth.at(y, x);
                    count += 1.0F;
                }
            }
        }
        return sum / count;
    };
    // Known only when all are done: a cell that was given a mean gives none.
    for (int r = 0; r < frame.rows; ++r) {
        for (const int c : beside[static_cast<std::size_t>(r)]) {
            depth.at(r, c) = meanRound(r, c);
        }
    }
    for (int r = 0; r < frame.rows; ++r) {
        for (const int c : beside[static_cast<std::size_t>(r)]) {
            known.at(r, c) = 1;
        }
    }
}

} // namespace

Raster<float> grownByTwoCells(const Raster<float>& depth) {
    Raster<float> grown = depth;
    Raster<std::uint8_t> known(depth.frame, 0);
    std::transform(depth.values.begin(), depth.values.end(), known.values.begin(), [](float value) {
        return std::isfinite(value) ? std::uint8_t{1} : std::uint8_t{0};
    });
    growByOneCell(grown, known);
    growByOneCell(grown, known);
    return grown;
}

} // namespace bedlore
