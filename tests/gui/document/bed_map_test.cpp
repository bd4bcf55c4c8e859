// SPDX-License-Identifier: MIT
#include "gui/document/bed_builder.hpp"
#include "gui/document/bed_map.hpp"
#include "gui/document/map_export.hpp"
#include "tests/gui/document/typed_book.hpp"
#include "tests/support/matchers.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <filesystem>
#include <stop_token>

namespace bedlore {
namespace {

using testing::isWithin;
using testing::openBook;
using testing::TypedBook;
using testing::waitUntilIdle;

TEST(BedMap, KnowsTheTipAndTheWrapOfTheVisit) {
    const TypedBook typed({"A 28 9"});
    const auto map = makeBedMap(typed.document->book(), typed.request());
    ASSERT_TRUE(map.has_value()) << map.error().message;
    EXPECT_THAT((*map)->tipHeight(), isWithin(1.0_mm, 6.0_ft));
    EXPECT_THAT((*map)->wrap(), isWithin(1.0_mm, 12.0_ft));
    ASSERT_NE((*map)->standing(), nullptr);
    EXPECT_EQ((*map)->standing()->name, "the Point");
}

TEST(BedMap, OfAWaterWithoutReadingsIsEmptyAndNoFault) {
    const TypedBook typed({});
    const auto map = makeBedMap(typed.document->book(), typed.request());
    ASSERT_TRUE(map.has_value()) << map.error().message;
    EXPECT_EQ((*map)->surface.soundingCount(), 0U);
    EXPECT_FALSE((*map)->levelAt({0.0, 50.0}).has_value());
    const testing::TempFolder folder;
    const auto written = writeMapFiles(
        *map,
        {},
        {.geotiff = folder / "bed.tif"},
        Date{std::chrono::year{2025}, std::chrono::April, std::chrono::day{12}});
    ASSERT_FALSE(written.has_value());
    EXPECT_THAT(written.error().message, ::testing::HasSubstr("type a reading with a depth"));
    EXPECT_FALSE(std::filesystem::exists(folder / "bed.tif"));
}

TEST(BedMap, HasNoLevelWhereItHasNoCellsOrFarBeyondThem) {
    EXPECT_FALSE(BedMap{}.levelAt({3.0, 4.0}).has_value());
    const TypedBook typed({"A 28 9"});
    const auto map = makeBedMap(typed.document->book(), typed.request()).value();
    ASSERT_GT(map->grid.frame().size(), 0U);
    for (const double far : {1e9, -1e9, 1e300, -1e300}) {
        EXPECT_FALSE(map->levelAt({far, 0.0}).has_value()) << far;
        EXPECT_FALSE(map->levelAt({0.0, far}).has_value()) << far;
    }
}

TEST(BedMap, StopsWhenAskedTo) {
    const TypedBook typed({"A 28 9"});
    std::stop_source stop;
    stop.request_stop();
    const auto map =
        makeBedMap(typed.document->book(), typed.request(), Progress(stop.get_token()));
    ASSERT_FALSE(map.has_value());
    EXPECT_EQ(map.error().fault, Fault::Cancelled);
}

TEST(BedBuilder, FollowsTheBook) {
    TypedBook typed({"A 28 9"});
    JobBoard jobs;
    BedBuilder builder(*typed.document, jobs);
    builder.show(typed.request());
    ASSERT_TRUE(waitUntilIdle(jobs));
    ASSERT_NE(builder.map(), nullptr);
    EXPECT_EQ(builder.map()->surface.soundingCount(), 1U);
    std::vector<std::string> lines = typed.session.keptLines();
    lines.emplace_back("26 8");
    ASSERT_TRUE(typed.session.keep(lines).has_value());
    EXPECT_FALSE(builder.isCurrent());
    ASSERT_TRUE(waitUntilIdle(jobs));
    EXPECT_TRUE(builder.isCurrent());
    EXPECT_EQ(builder.map()->surface.soundingCount(), 2U);
    EXPECT_EQ(builder.map()->book, typed.document->book());
}

TEST(BedBuilder, ThreeQuickEditsGiveOneMap) {
    TypedBook typed({"A 28 9"});
    JobBoard jobs;
    BedBuilder builder(*typed.document, jobs);
    builder.show(typed.request());
    ASSERT_TRUE(waitUntilIdle(jobs));
    QSignalSpy built(&builder, &BedBuilder::built);
    std::vector<std::string> lines = typed.session.keptLines();
    for (const char* line : {"27 9", "26 9", "25 9"}) {
        lines.emplace_back(line);
        ASSERT_TRUE(typed.session.keep(lines).has_value());
    }
    ASSERT_TRUE(waitUntilIdle(jobs));
    EXPECT_EQ(built.count(), 1);
    EXPECT_EQ(builder.map()->surface.soundingCount(), 4U);
}

TEST(BedBuilder, AnotherLookKeepsTheBed) {
    TypedBook typed({"A 28 9"});
    JobBoard jobs;
    BedBuilder builder(*typed.document, jobs);
    builder.show(typed.request());
    ASSERT_TRUE(waitUntilIdle(jobs));
    const auto bed = builder.map();
    MapLook night;
    night.palette = PaletteKind::Night;
    builder.setLook(night);
    ASSERT_TRUE(waitUntilIdle(jobs));
    EXPECT_EQ(builder.map(), bed);
    EXPECT_EQ(builder.picture()->look.palette, PaletteKind::Night);
}

TEST(BedBuilder, ANoteMovesNothing) {
    TypedBook typed({"A 28 9"});
    JobBoard jobs;
    BedBuilder builder(*typed.document, jobs);
    builder.show(typed.request());
    ASSERT_TRUE(waitUntilIdle(jobs));
    std::vector<std::string> lines = typed.session.keptLines();
    lines.emplace_back("wind got up at four, moved the bivvy");
    ASSERT_TRUE(typed.session.keep(lines).has_value());
    EXPECT_TRUE(jobs.isIdle());
}

TEST(BedBuilder, UndoOfEverythingClearsTheMap) {
    TypedBook typed({"A 28 9"});
    JobBoard jobs;
    BedBuilder builder(*typed.document, jobs);
    builder.show(typed.request());
    ASSERT_TRUE(waitUntilIdle(jobs));
    ASSERT_TRUE(typed.document->undo().has_value());
    ASSERT_TRUE(waitUntilIdle(jobs));
    EXPECT_EQ(builder.map(), nullptr);
}

TEST(BedBuilder, WritesTheTablesForOtherPrograms) {
    TypedBook typed({"A 28 9"});
    JobBoard jobs;
    BedBuilder builder(*typed.document, jobs);
    builder.show(typed.request());
    ASSERT_TRUE(waitUntilIdle(jobs));
    std::vector<std::string> lines = typed.session.keptLines();
    lines.emplace_back("26 8");
    ASSERT_TRUE(typed.session.keep(lines).has_value());
    ASSERT_TRUE(waitUntilIdle(jobs));
    const auto written = builder.writeDerived();
    EXPECT_TRUE(written.has_value()) << written.error().message;
    EXPECT_FALSE(typed.document->derivedIsStale());
}

TEST(BedBuilder, WritesTheTablesOfABookThatWasOpenedStale) {
    const TypedBook typed({"A 28 9"});
    ASSERT_TRUE(typed.document->derivedIsStale());
    JobBoard jobs;
    BedBuilder builder(*typed.document, jobs);
    ASSERT_TRUE(builder.writeDerived().has_value());
    EXPECT_FALSE(typed.document->derivedIsStale());
}

} // namespace
} // namespace bedlore
