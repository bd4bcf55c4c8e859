// SPDX-License-Identifier: MIT
#include "core/chart/map_drawing.hpp"
#include "core/chart/map_words.hpp"
#include "tests/support/drawn_pit.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <vector>

namespace bedlore {
namespace {

using ::testing::AllOf;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using testing::pit;
using ::testing::ResultOf;
using ::testing::SizeIs;

std::string allWords(const MapDrawing& map) {
    std::string words = map.title + "\n" + map.levelWords + "\n" + map.emptyWords + "\n";
    for (const auto* list : {&map.subtitle, &map.cautions, &map.notes}) {
        for (const std::string& line : *list) {
            words += line + "\n";
        }
    }
    for (const LegendRow& row : map.legend) {
        words += row.words + "\n";
    }
    for (const ContourLevel& level : map.contours.table.levels) {
        words += level.label + "\n";
    }
    return words;
}

TEST(MapDrawing, AtTierAllHoldsWhatHeNoted) {
    const MapDrawing map = pit().map(SharingTier::All);
    EXPECT_THAT(map.swims, SizeIs(2));
    // By hand: bearings -32 to 34 by 9 are 8 casts; -46 to -8 by 9.5 are 5; ranges 104 to 23 by 9
    // are 10 readings each.
    EXPECT_THAT(map.casts, SizeIs(13));
    EXPECT_THAT(map.readings, SizeIs(130));
    ASSERT_NE(map.sigma, nullptr);
    EXPECT_EQ(map.title, "Alder Stand");
    EXPECT_THAT(map.subtitle, Contains("Harl Pit"));
    EXPECT_TRUE(map.hatchUnknown);
    EXPECT_TRUE(map.asSeenFromBank);
    EXPECT_FALSE(map.anglesGuessed);
}

TEST(MapDrawing, ShowsEveryKnownCellAndNoOther) {
    const MapDrawing map = pit().map(SharingTier::All);
    const BedGrid& grid = pit().grid;
    for (std::size_t i = 0; i < grid.known.values.size(); ++i) {
        ASSERT_EQ(std::isfinite(map.depth->values[i]), grid.known.values[i] != 0);
        ASSERT_EQ(std::isfinite(map.sigma->values[i]), grid.known.values[i] != 0);
        if (grid.known.values[i] != 0) {
            // Depth at the level -0.36 m is -0.36 - bed level.
            ASSERT_NEAR(map.depth->values[i], -0.36F - grid.level.values[i], 1e-5F);
        }
    }
}

TEST(MapDrawing, BelowAllHoldsNothingThatHeNoted) {
    for (const SharingTier tier : {SharingTier::Depth, SharingTier::Bottom}) {
        const MapDrawing map = pit().map(tier);
        EXPECT_THAT(map.swims, IsEmpty());
        EXPECT_THAT(map.casts, IsEmpty());
        EXPECT_THAT(map.readings, IsEmpty());
        EXPECT_THAT(map.spots, IsEmpty());
        EXPECT_THAT(map.marks, IsEmpty());
        EXPECT_THAT(map.waterline, IsEmpty());
        EXPECT_EQ(map.sigma, nullptr);
        EXPECT_FALSE(map.hatchUnknown);
        for (const char* secret : testing::secretsOfThePit) {
            EXPECT_THAT(allWords(map), Not(HasSubstr(secret)));
        }
    }
}

TEST(MapDrawing, BelowAllGivesEveryDepthInsideOneOutline) {
    const MapDrawing map = pit().map(SharingTier::Depth);
    ASSERT_THAT(map.contours.shown, SizeIs(1));
    const Polygon& outline = map.contours.shown.front();
    EXPECT_THAT(outline.holes, IsEmpty());
    const GridFrame& frame = map.depth->frame;
    std::size_t known = 0;
    std::size_t kept = 0;
    for (int r = 0; r < frame.rows; ++r) {
        for (int c = 0; c < frame.columns; ++c) {
            const bool inside = contains(outline, frame.centre(r, c));
            EXPECT_EQ(std::isfinite(map.depth->at(r, c)), inside) << r << " " << c;
            if (pit().grid.known.at(r, c) != 0) {
                ++known;
                kept += inside ? 1 : 0;
            }
        }
    }
    // Rounding off the corners loses some, but not much, of what is known.
    EXPECT_GT(static_cast<double>(kept), 0.9 * static_cast<double>(known));
    double bands = 0.0;
    for (const DepthBand& band : map.contours.bands) {
        for (const Polygon& part : band.areas) {
            bands += area(part);
        }
    }
    EXPECT_NEAR(bands, area(outline), 0.01 * area(outline));
}

// The sharpest turn of an outline over a stretch of about `step` metres.
Angle sharpestTurn(const Ring& ring, double step) {
    std::vector<Point> walked{ring.front()};
    for (std::size_t i = 1; i <= ring.size(); ++i) {
        const Point to = ring[i % ring.size()];
        Point from = walked.back();
        double rest = std::hypot(to.east - from.east, to.north - from.north);
        while (rest >= step) {
            from = {
                from.east + step / rest * (to.east - from.east),
                from.north + step / rest * (to.north - from.north)};
            walked.push_back(from);
            rest = std::hypot(to.east - from.east, to.north - from.north);
        }
    }
    Angle sharpest;
    const std::size_t n = walked.size();
    for (std::size_t i = 0; i < n; ++i) {
        const Point a = walked[i];
        const Point b = walked[(i + 1) % n];
        const Point c = walked[(i + 2) % n];
        const double u = std::atan2(b.east - a.east, b.north - a.north);
        const double v = std::atan2(c.east - b.east, c.north - b.north);
        const Angle turn = PlaneBearing(v * radian) - PlaneBearing(u * radian);
        sharpest = std::max(sharpest, turn < Angle{} ? -turn : turn);
    }
    return sharpest;
}

TEST(MapDrawing, BelowAllHasAnOutlineTooSmoothToShowCasts) {
    // Casts of the pit end 9.5° apart at 104 m, known 9 m round each reading: the known area itself
    // is a comb with teeth 17 m apart. An outline that turns at most 60° in 4 m has no corner
    // tighter than a radius of about 4 m.
    const MapDrawing map = pit().map(SharingTier::Depth);
    EXPECT_LT(sharpestTurn(map.contours.shown.front().outer, 4.0) / degree, 60.0);
    const MapDrawing all = pit().map(SharingTier::All);
    EXPECT_GT(sharpestTurn(all.contours.shown.front().outer, 4.0) / degree, 60.0);
}

TEST(MapDrawing, BelowAllJoinsPartsThatLieApart) {
    const GridFrame frame{.west = 0.0, .north = 100.0, .cell = 2.0, .rows = 50, .columns = 150};
    BedGrid grid{{frame, -3.0F}, {frame, 0.1F}, {frame, 0}};
    for (int r = 15; r < 35; ++r) {
        for (int c = 5; c < 25; ++c) {
            grid.known.at(r, c) = 1;
            grid.known.at(r, c + 100) = 1;
        }
    }
    grid.level.at(20, 20) = -4.0F;
    const MapDrawing map =
        drawMap(Book{}, Reduction{}, grid, {.level = {}, .tier = SharingTier::Depth, .swim = {}});
    EXPECT_THAT(map.contours.shown, SizeIs(1));
}

TEST(MapDrawing, BelowAllSaysHowMuchWasNotRead) {
    const GridFrame frame{.west = 0.0, .north = 200.0, .cell = 2.0, .rows = 100, .columns = 100};
    // Read in a frame so many cells wide round a square of 60; the outline has no hole. By hand:
    // 1 - (60² - (60 - 2 w)²) / 60² of it was not read: 11 % for 20, 49 % for 9, 69 % for 5.
    const auto noteOfFrame = [&](int width) {
        BedGrid grid{{frame, -3.0F}, {frame, 0.1F}, {frame, 0}};
        for (int r = 0; r < 60; ++r) {
            for (int c = 0; c < 60; ++c) {
                const int fromEdge = std::min({r, c, 59 - r, 59 - c});
                grid.known.at(20 + r, 20 + c) = fromEdge < width ? 1 : 0;
            }
        }
        grid.level.at(21, 21) = -4.0F;
        const MapDrawing map = drawMap(
            Book{}, Reduction{}, grid, {.level = {}, .tier = SharingTier::Depth, .swim = {}});
        return map.notes.empty() ? std::string() : map.notes.front();
    };
    EXPECT_EQ(
        noteOfFrame(20),
        "Some of the depths inside the outline lie between casts and were not read.");
    EXPECT_THAT(noteOfFrame(9), HasSubstr("About half of the depths inside the outline"));
    EXPECT_THAT(noteOfFrame(5), HasSubstr("Most of the depths inside the outline"));
}

TEST(MapDrawing, LeavesPrivateThingsOutUnlessAsked) {
    const auto name = [](const auto& thing) { return thing.name; };
    MapOptions options = pit().options(SharingTier::All);
    const MapDrawing without = drawMap(pit().book, pit().reduction, pit().grid, options);
    EXPECT_THAT(without.marks, ElementsAre(ResultOf(name, "dead pine"), ResultOf(name, "pole")));
    EXPECT_THAT(without.spots, ElementsAre(ResultOf(name, "Gravel Tooth")));
    options.privateThings = PrivateThings::Include;
    const MapDrawing with = drawMap(pit().book, pit().reduction, pit().grid, options);
    EXPECT_THAT(with.marks, SizeIs(3));
    EXPECT_THAT(with.spots, SizeIs(2));
    options.tier = SharingTier::Depth;
    EXPECT_THAT(drawMap(pit().book, pit().reduction, pit().grid, options).spots, IsEmpty());
}

TEST(MapDrawing, TurnsTheMiddleOfTheFanUpright) {
    // By hand: bearings -32, -23 … 31: the middle is -0.5 degrees.
    const MapDrawing map = pit().map(SharingTier::All);
    EXPECT_NEAR((map.up - PlaneBearing{}) / degree, -0.5, 1e-9);
    // Coarsely below All: to 15 degrees from north.
    const MapDrawing shared = pit().map(SharingTier::Depth);
    EXPECT_EQ(shared.up, shared.trueNorth);
    MapOptions whole = pit().options(SharingTier::All);
    whole.swim.reset();
    const MapDrawing north = drawMap(pit().book, pit().reduction, pit().grid, whole);
    EXPECT_FALSE(north.asSeenFromBank);
    ASSERT_TRUE(north.trueNorth);
    EXPECT_EQ(north.up, *north.trueNorth);
    EXPECT_EQ(north.title, "Harl Pit");
}

TEST(MapDrawing, BelowAllIsTurnedByWholeStepsThatDoNotPointAtTheSwim) {
    // Steps of 15 degrees from true north: a sheet tells no more of where he stood than in which
    // of 24 sectors. The fan's middle is at -0.5 degrees, turned by `degrees` here.
    const auto turned = [](double degrees, SharingTier tier) {
        Reduction reduction = pit().reduction;
        for (ReducedCast& cast : reduction.casts) {
            cast.direction = cast.direction + degrees * degree;
        }
        return drawMap(pit().book, reduction, pit().grid, pit().options(tier));
    };
    for (const SharingTier tier : {SharingTier::Depth, SharingTier::Bottom}) {
        for (double degrees = -180.0; degrees < 180.0; degrees += 7.0) {
            const MapDrawing map = turned(degrees, tier);
            ASSERT_TRUE(map.trueNorth.has_value());
            const double steps = (map.up - *map.trueNorth) / degree / 15.0;
            EXPECT_NEAR(steps, std::round(steps), 1e-9) << degrees;
            const MapDrawing own = turned(degrees, SharingTier::All);
            EXPECT_LE(std::abs((map.up - own.up) / degree), 7.5 + 1e-9) << degrees;
        }
        // By hand: -6.9 to 7.4 degrees are all nearest to north.
        for (const double degrees : {-6.4, -2.0, 0.3, 5.0, 7.9}) {
            EXPECT_EQ(turned(degrees, tier).up, turned(0.0, tier).up) << degrees;
            EXPECT_NE(turned(degrees + 15.0, tier).up, turned(0.0, tier).up) << degrees;
        }
    }
}

TEST(MapDrawing, SaysTheLevelAsHeReadsIt) {
    MapOptions options = pit().options(SharingTier::All);
    const auto words = [&] { return levelWordsFor(pit().book, pit().reduction, options); };
    // By hand: 2 steps of 18 cm, counted down, are -0.36 m = -1.18 ft.
    EXPECT_EQ(words(), "at the level of 2 steps showing (1.2 ft below the level mark)");
    options.depthUnit = Unit::Metre;
    EXPECT_EQ(words(), "at the level of 2 steps showing (0.36 m below the level mark)");
    options.level = {0.2 * metre};
    EXPECT_EQ(words(), "at a level 0.20 m above the level mark");
    options.level = {-0.36 * metre};
    options.tier = SharingTier::Depth;
    EXPECT_EQ(words(), "at a level 0.36 m below the level mark");
    EXPECT_EQ(levelWordsFor(Book{}, Reduction{}, {}), "at the level of the first visit");
}

TEST(MapDrawing, ExplainsOnlyWhatIsThere) {
    const auto symbols = [](const MapDrawing& map) {
        std::vector<LegendSymbol> found;
        for (const LegendRow& row : map.legend) {
            found.push_back(row.symbol);
        }
        return found;
    };
    EXPECT_THAT(
        symbols(pit().map(SharingTier::Depth)),
        ElementsAre(LegendSymbol::DepthColours, LegendSymbol::Contour));
    EXPECT_THAT(
        symbols(pit().map(SharingTier::All)),
        AllOf(
            Contains(LegendSymbol::HardDrop),
            Contains(LegendSymbol::Outcome),
            Contains(LegendSymbol::Stretch),
            Not(Contains(LegendSymbol::Waterline))));
}

TEST(MapDrawing, ExplainsEachPullThatWasFeltAndNoOther) {
    testing::DrawnPit felt;
    std::vector<Reading> readings(felt.book.all<Reading>().begin(), felt.book.all<Reading>().end());
    ASSERT_GT(readings.size(), 3U);
    readings[0].pull = Pull::Plug;
    readings[1].pull = Pull::Tap;
    readings[2].pull = Pull::Tap;
    for (std::size_t i = 0; i < 3; ++i) {
        felt.book.all<Reading>().put(readings[i]);
    }
    const MapDrawing map = felt.map(SharingTier::All);
    std::vector<LegendRow> rows;
    std::copy_if(
        map.legend.begin(), map.legend.end(), std::back_inserter(rows), [](const LegendRow& row) {
            return row.symbol == LegendSymbol::Pull;
        });
    EXPECT_THAT(
        rows,
        ElementsAre(
            LegendRow{LegendSymbol::Pull, "tap on the pull", Pull::Tap},
            LegendRow{LegendSymbol::Pull, "plug on the pull", Pull::Plug}));
    std::size_t drawn = 0;
    for (const DrawnReading& reading : map.readings) {
        drawn += reading.pull ? 1U : 0U;
    }
    EXPECT_EQ(drawn, 3U);
}

TEST(MapDrawing, KnowsAReadingOfThePullOrTheBottomAlone) {
    DrawnReading reading;
    reading.substrate = Substrate::Gravel;
    EXPECT_TRUE(isBottomAlone(reading));
    EXPECT_FALSE(isPullAlone(reading));
    reading.pull = Pull::Tap;
    EXPECT_FALSE(isBottomAlone(reading));
    EXPECT_TRUE(isPullAlone(reading));
    reading.drop = DropSymbol::Hard;
    EXPECT_FALSE(isPullAlone(reading));
    EXPECT_FALSE(isBottomAlone({}));
}

TEST(MapDrawing, OfNothingSaysSoAndStillHasAnExtent) {
    for (const SharingTier tier : {SharingTier::Depth, SharingTier::All}) {
        const MapDrawing map = drawMap(
            Book{}, Reduction{}, BedGrid{}, {.level = {}, .tier = tier, .swim = std::nullopt});
        EXPECT_THAT(map.emptyWords, HasSubstr("No depth has been noted yet"));
        EXPECT_THAT(map.contours.lines, IsEmpty());
        EXPECT_GE(map.extent.width(), 10.0);
        EXPECT_GE(map.framed.size(), 3U);
        EXPECT_NE(map.depth, nullptr);
    }
}

TEST(MapDrawing, WithDepthsThatCannotBeUsedDoesNotSayThatNoneWasNoted) {
    // Every reading of the pit has a depth; none of them is on this map.
    Reduction unusable = pit().reduction;
    unusable.soundings.clear();
    const MapDrawing map = drawMap(
        pit().book, unusable, BedGrid{}, {.level = {}, .tier = SharingTier::All, .swim = {}});
    EXPECT_EQ(
        map.emptyWords, "No depth that was noted can be used yet; its line on the page says why.");
}

TEST(MapDrawing, NeverUsesWordsOfStatistics) {
    for (const SharingTier tier : {SharingTier::Depth, SharingTier::Bottom, SharingTier::All}) {
        const std::string words = allWords(pit().map(tier));
        for (const char* word :
             {"datum", "sounding", "reduction", "residual", "sigma", "kriging"}) {
            EXPECT_THAT(words, Not(HasSubstr(word)));
        }
    }
}

} // namespace
} // namespace bedlore
