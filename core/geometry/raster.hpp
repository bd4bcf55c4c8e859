// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/contract.hpp"
#include "core/geometry/point.hpp"

#include <cstddef>
#include <vector>

// Values on a square grid in the water's plane.

namespace bedlore {

/// Where a grid lies. Row 0 is the northernmost; (`west`, `north`) is the outer corner of cell (0,
/// 0); cells are areas `cell` metres wide, so the centre of cell (r, c) is half a cell in from its
/// edges.
struct GridFrame {
    double west = 0.0;
    double north = 0.0;
    double cell = 1.0;
    int rows = 0;
    int columns = 0;

    [[nodiscard]] Point centre(int row, int column) const {
        return {west + (column + 0.5) * cell, north - (row + 0.5) * cell};
    }
    [[nodiscard]] std::size_t size() const {
        return static_cast<std::size_t>(rows) * static_cast<std::size_t>(columns);
    }
    friend bool operator==(const GridFrame&, const GridFrame&) = default;
};

/// Values row by row from the north-west corner.
template <class T>
struct Raster {
    GridFrame frame;
    std::vector<T> values;

    Raster() = default;
    Raster(GridFrame f, T fill)
        : frame(f)
        , values(f.size(), fill) {}

    [[nodiscard]] const T& at(int row, int column) const { return values[index(row, column)]; }
    [[nodiscard]] T& at(int row, int column) { return values[index(row, column)]; }
    [[nodiscard]] std::size_t index(int row, int column) const {
        BEDLORE_EXPECTS(row >= 0 && row < frame.rows && column >= 0 && column < frame.columns);
        return static_cast<std::size_t>(row) * static_cast<std::size_t>(frame.columns) +
               static_cast<std::size_t>(column);
    }
    friend bool operator==(const Raster&, const Raster&) = default;
};

} // namespace bedlore
