// SPDX-License-Identifier: MIT
#include "core/bed/surface.hpp"
#include "tests/bench/case_files.hpp"
#include "tests/bench/live_entry.hpp"

#include <cstdio>
#include <filesystem>
#include <stdexcept>
#include <vector>

// One case as tables for others: what the notes say, what is true, and what the program makes of
// it. Usage: bedlore_bench_case CASE OUT
//   OUT/soundings.csv  east_m,north_m,level_m          places and levels as reduced from the notes
//   OUT/places.csv     east_m,north_m                  where the truth is known
//   OUT/truth.csv      set,level_m                     the bed there; set is grid or soundings
//   OUT/bedlore.csv    level_m,error_m,known           the program's bed there
// Says as JSON how long the fit took [s].

namespace bedlore::bench {
namespace {

namespace fs = std::filesystem;

/// A table that is written line by line.
class Table {
public:
    Table(const fs::path& path, const char* header)
        : file_(std::fopen(path.c_str(), "w")) {
        must(file_ != nullptr, "opening a file to write");
        std::fprintf(file_, "%s\n", header);
    }
    ~Table() { must(std::fclose(file_) == 0, "writing"); }
    Table(const Table&) = delete;
    Table& operator=(const Table&) = delete;
    Table(Table&&) = delete;
    Table& operator=(Table&&) = delete;
    [[nodiscard]] FILE* get() const { return file_; }

private:
    FILE* file_;
};

void writeSoundings(const fs::path& out, const Reduction& reduction) {
    const Table table(out / "soundings.csv", "east_m,north_m,level_m");
    for (const Sounding& sounding : reduction.soundings) {
        std::fprintf(
            table.get(),
            "%.6f,%.6f,%.6f\n",
            sounding.place.east,
            sounding.place.north,
            sounding.level.aboveDatum.si());
    }
}

/// The truth of one kind and the program's bed there, one row each in three tables.
class TruthTables {
public:
    explicit TruthTables(const fs::path& out)
        : places_(out / "places.csv", "east_m,north_m")
        , truth_(out / "truth.csv", "set,level_m")
        , bed_(out / "bedlore.csv", "level_m,error_m,known") {}

    void add(const char* set, const std::vector<TruthPoint>& truth, const BedSurface& surface) {
        std::vector<Point> places;
        places.reserve(truth.size());
        for (const TruthPoint& point : truth) {
            places.push_back(point.place);
        }
        const auto bed = surface.at(places);
        must(bed.has_value(), "the bed at the places");
        for (std::size_t i = 0; i < truth.size(); ++i) {
            const BedEstimate& at = (*bed)[i];
            std::fprintf(places_.get(), "%.6f,%.6f\n", places[i].east, places[i].north);
            std::fprintf(truth_.get(), "%s,%.6f\n", set, -truth[i].depth);
            std::fprintf(bed_.get(), "%.9f,%.9f,%d\n", at.level, at.sigma, at.known ? 1 : 0);
        }
    }

private:
    Table places_;
    Table truth_;
    Table bed_;
};

void run(const fs::path& folder, const fs::path& out) {
    const auto one = readCase(folder);
    if (!one) {
        throw std::runtime_error(folder.string() + ": " + one.error().message + "\n");
    }
    const auto begin = Clock::now();
    const auto surface = BedSurface::fit(one->reduction);
    const double ofFit = since(begin) / 1000.0;
    must(surface.has_value(), "fitting");
    writeSoundings(out, one->reduction);
    TruthTables tables(out);
    tables.add("grid", one->truth, *surface);
    tables.add("soundings", one->trueSoundings, *surface);
    std::printf(
        R"({"fit":%.6f})"
        "\n",
        ofFit);
}

} // namespace
} // namespace bedlore::bench

int main(int argc, char** argv) {
    using namespace bedlore::bench;
    must(argc == 3, "CASE OUT: that");
    return reported([&] { run(argv[1], argv[2]); });
}
