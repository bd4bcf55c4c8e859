// SPDX-License-Identifier: MIT
#include "core/bed/surface.hpp"
#include "core/reduction/uncertainty.hpp"
#include "tests/bench/live_entry.hpp"
#include "tests/bench/peers/point_files.hpp"

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <string>
#include <vector>

// Fixes from a table to a grid with its error, through `BedSurface` as the program does it.
// Usage: bedlore_bench_fixes FIXES.csv OUT COLUMNS CELL
//   FIXES.csv  east_m,north_m,depth_m,sigma_m
//   OUT        writes OUT.level, OUT.error (float32, row by row from the north-west) and OUT.known
//              (a byte each); the grid begins at the plane's zero and goes north and east
// Says as JSON how long fit and grid took [s].

namespace bedlore::bench {
namespace {

Reduction reductionOf(const char* path) {
    Reduction reduction;
    for (const auto& [east, north, depth, sigma] : readNumbers<4>(path)) {
        Sounding& fix = reduction.soundings.emplace_back();
        fix.source = FixRow{.set = {1}, .row = reduction.soundings.size() - 1};
        fix.place = {east, north};
        fix.level = {-depth * metre};
        fix.levelSigma = sigma * metre;
        fix.placeSigma = usual::fixPlace;
    }
    return reduction;
}

template <class T>
void write(const std::string& path, const std::vector<T>& values) {
    std::ofstream out(path, std::ios::binary);
    // The bytes as they lie in memory: whoever reads them is on the same machine.
    out.write(
        reinterpret_cast<const char*>(values.data()), // NOLINT(*-reinterpret-cast): see above
        static_cast<std::streamsize>(values.size() * sizeof(T)));
    out.close();
    must(out.good(), "writing");
}

void run(const char* in, const std::string& out, int columns, double cell) {
    const Reduction reduction = reductionOf(in);
    auto begin = Clock::now();
    const auto surface = BedSurface::fit(reduction);
    const double ofFit = since(begin) / 1000.0;
    must(surface.has_value(), "fitting");
    begin = Clock::now();
    const auto grid = surface->grid(
        {.west = 0.0, .north = columns * cell, .cell = cell, .rows = columns, .columns = columns});
    const double ofGrid = since(begin) / 1000.0;
    must(grid.has_value(), "the bed on the grid");
    write(out + ".level", grid->level.values);
    write(out + ".error", grid->sigma.values);
    write(out + ".known", grid->known.values);
    std::printf(
        R"({"fit":%.6f,"grid":%.6f})"
        "\n",
        ofFit,
        ofGrid);
}

} // namespace
} // namespace bedlore::bench

int main(int argc, char** argv) {
    using namespace bedlore::bench;
    must(argc == 5, "FIXES.csv OUT COLUMNS CELL: that");
    return reported([&] { run(argv[1], argv[2], std::atoi(argv[3]), std::atof(argv[4])); });
}
