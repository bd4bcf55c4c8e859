// SPDX-License-Identifier: MIT
#pragma once

#include "core/geometry/point.hpp"

#include <array>
#include <charconv>
#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

// The plain tables that the programs beside each other are given: numbers alone, one header row.

namespace bedlore::bench {

/// A place with the level of the bed there, as somebody measured it [m].
struct LevelPoint {
    Point place;
    double level = 0.0;
};

/// The first N numbers of each row. Throws what is wrong in a sentence.
template <std::size_t N>
std::vector<std::array<double, N>> readNumbers(const std::string& path) {
    std::ifstream in(path);
    if (!in) {
        throw std::runtime_error(path + ": no such file\n");
    }
    std::vector<std::array<double, N>> rows;
    std::string line;
    std::getline(in, line);
    while (std::getline(in, line)) {
        std::array<double, N>& row = rows.emplace_back();
        const char* at = line.data();
        const char* const end = at + line.size();
        for (double& number : row) {
            const auto read = std::from_chars(at, end, number);
            if (read.ec != std::errc{}) {
                throw std::runtime_error(std::string(path).append(": no row of numbers: ") + line);
            }
            at = read.ptr == end ? end : read.ptr + 1;
        }
    }
    return rows;
}

/// `east_m,north_m,level_m`.
inline std::vector<LevelPoint> readLevelPoints(const std::string& path) {
    std::vector<LevelPoint> points;
    for (const auto& [east, north, level] : readNumbers<3>(path)) {
        points.push_back({.place = {east, north}, .level = level});
    }
    return points;
}

} // namespace bedlore::bench
