// SPDX-License-Identifier: MIT
#include "tests/core/reduction/note_book.hpp"
#include "tests/support/csv_table.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <map>
#include <string>
#include <vector>

// Readings simulated on two real lakebeds, with the place where each lead really lay beside them.
// Source: tests/data/cases, whose error model is the aim 1° a cast, the line 0.35 m then rounded to
// a quarter wrap, the depth 0.10 m then rounded to half a foot (meta.json there).

namespace bedlore {
namespace {

using testing::CsvTable;
using testing::NoteBook;

struct SimulatedCase {
    NoteBook notes;
    std::vector<Id<Reading>> readings; ///< in the order of the files' rows
    CsvTable truth;
};

SimulatedCase readCase(const std::filesystem::path& folder) {
    SimulatedCase result;
    result.truth = testing::readCsvTable(folder / "truth_readings.csv");
    const CsvTable swims = testing::readCsvTable(folder / "swims.csv");
    const CsvTable rows = testing::readCsvTable(folder / "readings.csv");
    NoteBook& notes = result.notes;
    const auto swim = notes.swim(
        swims.text(0, "swim"),
        GeographicPoint{swims.number(0, "lat"), swims.number(0, "lon")},
        testing::m(swims.number(0, "tip_height_m")));
    const auto visit = notes.visit(swim, 4, 12, testing::m(0.0));
    std::map<std::string, Id<Cast>> casts;
    for (std::size_t i = 0; i < rows.rows.size(); ++i) {
        const std::string& name = rows.text(i, "cast");
        if (!casts.contains(name)) {
            casts[name] = notes.add(Cast{
                .visit = visit,
                .order = static_cast<int>(casts.size()) + 1,
                .name = name,
                .bearing = BearingEntry{testing::degrees(rows.number(i, "bearing")), North::True}});
        }
        const std::string& depth = rows.text(i, "depth");
        result.readings.push_back(notes.reading(
            casts[name],
            testing::wraps(rows.number(i, "distance")),
            depth.empty() ? std::nullopt
                          : std::optional(testing::depthOf(testing::ft(std::stod(depth))))));
    }
    return result;
}

/// Sums of squared errors by their stated sizes: about their count where the sizes are right.
struct Tally {
    double squares = 0.0;
    int count = 0;

    void add(double error, Length sigma) {
        squares += std::pow(error / sigma.si(), 2);
        ++count;
    }
    [[nodiscard]] double ratio() const { return std::sqrt(squares / count); }
};

struct Tallies {
    Tally along;
    Tally across;
    Tally depth;
};

void compare(const SimulatedCase& simulated, Tallies& tallies) {
    const Reduction reduction = simulated.notes.reduced();
    for (std::size_t i = 0; i < simulated.readings.size(); ++i) {
        const PlacedReading& placed = testing::placedOf(reduction, simulated.readings[i]);
        ASSERT_TRUE(placed.place.has_value());
        const Point truth = reduction.frame.toPlane(
            {simulated.truth.number(i, "lat"), simulated.truth.number(i, "lon")});
        const double east = truth.east - placed.place->east;
        const double north = truth.north - placed.place->north;
        const double angle = reduction.casts[placed.cast].direction.clockwise().si();
        const double s = std::sin(angle);
        const double c = std::cos(angle);
        tallies.along.add(east * s + north * c, placed.alongSigma);
        tallies.across.add(east * c - north * s, placed.acrossSigma);
        if (placed.depth) {
            tallies.depth.add(
                simulated.truth.number(i, "depth_m") - placed.depth->belowSurface.si(),
                *placed.depthSigma);
        }
    }
}

TEST(StatedErrors, AreAboutAsLargeAsTheRealOnes) {
    Tallies tallies;
    int cases = 0;
    for (const auto& entry : std::filesystem::directory_iterator(BEDLORE_TEST_DATA_DIR "/cases")) {
        if (entry.is_directory()) {
            SCOPED_TRACE(entry.path().filename().string());
            compare(readCase(entry.path()), tallies);
            ++cases;
        }
    }
    ASSERT_EQ(cases, 8);
    // Some ninety casts: their aims scatter by a tenth or so about the size that was simulated.
    EXPECT_NEAR(tallies.across.ratio(), 1.0, 0.25);
    EXPECT_NEAR(tallies.depth.ratio(), 1.0, 0.25);
    // The simulation has no errors of sticks, stance or rod position, so along the line ours, which
    // hold them, are the larger.
    EXPECT_GT(tallies.along.ratio(), 0.5);
    EXPECT_LT(tallies.along.ratio(), 1.0);
}

} // namespace
} // namespace bedlore
