// SPDX-License-Identifier: MIT
#include "core/bed/surface.hpp"
#include "core/io/book_file.hpp"
#include "core/reduction/reduction.hpp"
#include "tests/app/program.hpp"
#include "tests/support/practice_book.hpp"
#include "tests/support/practice_water.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iterator>
#include <string>
#include <utility>
#include <vector>

// The practice water that ships: its pages and book, its planted mistakes against the formula that
// it was made from, and what is odd about it and true.

namespace bedlore::testing {
namespace {

const std::filesystem::path mere =
    std::filesystem::path(BEDLORE_SOURCE_DIR) / "samples" / "wrackle-mere";

using Mended = std::set<std::string_view>;
const Mended all(plantedMistakes.begin(), plantedMistakes.end());

std::string fileText(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

Reduction reduced(const Book& book) {
    auto reduction = reduce(book, {.water = book.all<Water>().begin()->id, .alone = std::nullopt});
    EXPECT_TRUE(reduction.has_value()) << reduction.error().message;
    return std::move(reduction).value_or(Reduction{});
}

BedSurface bedOf(const Reduction& reduction) {
    return BedSurface::fit(reduction).value();
}
BedSurface bedOf(const Mended& mended) {
    return bedOf(reduced(practiceBook(mended)));
}

/// Only what `wanted` says of a sounding's reading.
Reduction only(
    Reduction reduction, const Book& book, const std::function<bool(const Visit&, Point)>& wanted) {
    std::erase_if(reduction.soundings, [&](const Sounding& sounding) {
        const Reading& reading = book.get(std::get<Id<Reading>>(sounding.source));
        return !wanted(book.get(book.get(reading.cast).visit), sounding.place);
    });
    return reduction;
}

bool isAt(const Book& book, const Visit& visit, const std::string& swim) {
    return book.get(visit.swim).name == swim;
}

std::vector<Point> waterGrid() {
    std::vector<Point> places;
    for (int east = -84; east <= 60; east += 3) {
        for (int north = -54; north <= 54; north += 3) {
            places.push_back({static_cast<double>(east), static_cast<double>(north)});
        }
    }
    return places;
}

/// The same places for every map, so that they can be held against each other: where the map of
/// the mended pages claims to know.
std::vector<Point> knownWhenMended() {
    const BedSurface mended = bedOf(all);
    std::vector<Point> known = waterGrid();
    std::erase_if(known, [&](Point place) { return !mended.at(place).known; });
    return known;
}

/// [m] how far the bed is out at these places, as the square root of the mean square.
double howFarOut(const BedSurface& bed, const std::vector<Point>& places) {
    double squares = 0.0;
    for (const Point place : places) {
        const double error = bed.at(place).level - wrackleBed(place);
        squares += error * error;
    }
    return std::sqrt(squares / static_cast<double>(places.size()));
}

TEST(PracticeWater, NotebookIsWhatItsProgramWrites) {
    const auto notebook = practiceNotebook();
    ASSERT_EQ(notebook.size(), 6U) << "four pages, the swims and the reel";
    for (const auto& [name, text] : notebook) {
        EXPECT_EQ(fileText(mere / name), text) << name;
    }
}

TEST(PracticeWater, BookIsWhatItsPagesGive) {
    const ScratchFolder folder;
    const std::string fresh = folder / "fresh.gpkg";
    std::vector<std::string> arguments{"import", fresh, "--water", "Wrackle Mere"};
    for (const auto& [name, text] : practiceNotebook()) {
        arguments.push_back((mere / name).string());
    }
    const Ran ran = bedlore(arguments);
    ASSERT_EQ(ran.status, 0) << ran.err;
    const std::string copy = folder / "copy.gpkg";
    std::filesystem::copy_file(mere / "wrackle-mere.gpkg", copy);
    const auto recordsOf = [](const std::string& path) {
        const auto file = BookFile::open(path, BookAccess::ReadOnly);
        EXPECT_TRUE(file) << file.error().message;
        return file ? file->book() : Book{};
    };
    const Book shipped = recordsOf(copy);
    EXPECT_TRUE(recordsOf(fresh) == shipped) << "run samples/make after a change of the notes";
    EXPECT_EQ(shipped.all<Page>().size(), 4U) << "every line is on a page, to be changed";
    EXPECT_TRUE(std::all_of(
        shipped.all<Reading>().begin(), shipped.all<Reading>().end(), [&](const Reading& reading) {
            const auto& lines = shipped.all<PageLine>();
            return std::any_of(lines.begin(), lines.end(), [&](const PageLine& line) {
                return line.reading == reading.id;
            });
        }));
}

TEST(PracticeWater, HasNoLineThatCannotBeUnderstood) {
    const Book book = practiceBook();
    for (const PageLine& line : book.all<PageLine>()) {
        EXPECT_NE(line.kind, LineKind::Unclear) << line.text;
    }
    EXPECT_TRUE(reduced(book).notices.empty()) << reduced(book).notices.front().sentence;
}

TEST(PracticeWater, EachPlantedMistakeMakesTheMapWorse) {
    const std::vector<Point> places = knownWhenMended();
    ASSERT_GT(places.size(), 300U);
    const double mended = howFarOut(bedOf(all), places);
    // Half a foot, the step that he reads a depth to, is 0.15 m.
    EXPECT_LT(mended, 0.15);
    for (const std::string_view mistake : plantedMistakes) {
        Mended others = all;
        others.erase(mistake);
        EXPECT_GT(howFarOut(bedOf(others), places), mended) << mistake;
    }
}

TEST(PracticeWater, MendingInTheOrderOfTheTourBringsTheMapNearerEachTime) {
    const std::vector<Point> places = knownWhenMended();
    Mended mended;
    double before = howFarOut(bedOf(mended), places);
    const double first = before;
    for (const std::string_view mistake : plantedMistakes) {
        mended.insert(mistake);
        const double now = howFarOut(bedOf(mended), places);
        EXPECT_LT(now, before) << mistake;
        before = now;
    }
    EXPECT_LT(before, 0.5 * first) << "the mended map is worth the work";
    RecordProperty("planted_mm", static_cast<int>(1000.0 * first));
    RecordProperty("mended_mm", static_cast<int>(1000.0 * before));
}

/// Readings with a depth near the hump's top, by the casts that they are of.
std::set<Id<Cast>> castsOverTheHump(const Book& book, const Reduction& reduction) {
    std::set<Id<Cast>> casts;
    for (const PlacedReading& placed : reduction.readings) {
        if (placed.place && placed.depth && practice::hump(*placed.place) > 0.6) {
            casts.insert(book.get(placed.reading).cast);
        }
    }
    return casts;
}

TEST(PracticeWater, HumpIsTrueAndThreeCastsFromTheSluiceAgreeOnIt) {
    const Book book = practiceBook(all);
    const Reduction reduction = reduced(book);
    const std::set<Id<Cast>> over = castsOverTheHump(book, reduction);
    EXPECT_EQ(
        std::count_if(
            over.begin(),
            over.end(),
            [&](Id<Cast> cast) {
                return isAt(book, book.get(book.get(cast).visit), "the Sluice");
            }),
        3);
    for (const Sounding& sounding : reduction.soundings) {
        if (practice::hump(sounding.place) > 0.6) {
            // On a slope of a metre in one and a half, a quarter wrap of line is half a metre.
            EXPECT_NEAR(sounding.level.aboveDatum / metre, wrackleBed(sounding.place), 0.5);
        }
    }
    // Whoever takes it off makes the map worse.
    const Point top = practice::away(theSluice, practice::humpBearing, practice::humpRange);
    const BedSurface without = bedOf(only(
        reduction, book, [](const Visit&, Point place) { return practice::hump(place) < 0.05; }));
    const double with = std::abs(bedOf(reduction).at(top).level - wrackleBed(top));
    EXPECT_LT(with, 0.3);
    EXPECT_GT(std::abs(without.at(top).level - wrackleBed(top)), 0.8);
}

TEST(PracticeWater, BarIsMissedFromTheSluiceAndFoundFromTheAlders) {
    const Book book = practiceBook(all);
    const Reduction reduction = reduced(book);
    const auto crest = [&](const std::string& swim, double range) {
        const BedSurface bed = bedOf(only(
            reduction, book, [&](const Visit& visit, Point) { return isAt(book, visit, swim); }));
        const Point place = practice::away(theSluice, practice::barBearing, range);
        return bed.at(place).level - wrackleBed(place);
    };
    // The bar is 1.2 m high: two thirds of it missed by one, less than half by the other. The
    // casts of the Alders cross it at these ranges: by hand, from its bearing and theirs.
    for (const double range : {56.0, 74.0}) {
        EXPECT_LT(crest("the Sluice", range), -0.8) << range;
        EXPECT_GT(crest("the Alders", range), -0.6) << range;
    }
}

TEST(PracticeWater, HoleIsFoundByTheDropOnly) {
    const Book book = practiceBook(all);
    int drops = 0;
    for (const PlacedReading& placed : reduced(book).readings) {
        const Reading& reading = book.get(placed.reading);
        const double inside = placed.place ? practice::hole(*placed.place) : 0.0;
        EXPECT_FALSE(inside > 0.4 && reading.depth.has_value());
        drops += inside > 0.2 && reading.drop == Drop::Nothing ? 1 : 0;
    }
    EXPECT_GE(drops, 2);
}

TEST(PracticeWater, FirmPatchInTheSiltIsNineFeetLong) {
    const Book book = practiceBook(all);
    int stretches = 0;
    for (const PlacedReading& placed : reduced(book).readings) {
        if (!placed.lineTo) {
            continue;
        }
        ++stretches;
        const Length length = placed.line->length - placed.lineTo->length;
        EXPECT_NEAR(length / (0.3048 * metre), 9.0, 0.75)
            << "to a quarter of 13 ft sticks, halved twice";
        const Point middle{
            0.5 * (placed.place->east + placed.placeTo->east),
            0.5 * (placed.place->north + placed.placeTo->north)};
        const Point true_ = practice::away(theAlders, practice::patchBearing, practice::patchRange);
        EXPECT_LT(std::hypot(middle.east - true_.east, middle.north - true_.north), 2.0);
        EXPECT_EQ(wrackleSubstrate({true_.east + 3.0, true_.north}), Substrate::Silt);
    }
    EXPECT_EQ(stretches, 2);
}

TEST(PracticeWater, FirmPatchIsAsWideAsTheNotebookSays) {
    // Two casts found it, a degree apart: 45 m out that is 0.79 m, a yard less the width of a hand.
    const Book book = practiceBook(all);
    std::set<Id<Cast>> casts;
    for (const Reading& reading : book.all<Reading>()) {
        if (reading.to) {
            casts.insert(reading.cast);
        }
    }
    EXPECT_EQ(casts.size(), 2U);
    EXPECT_NE(
        practiceNotebook()
            .at("2025-09-13-the-alders.txt")
            .find("a yard right of the patch of May "
                  "and still on it, two yards right "
                  "and it is off"),
        std::string::npos);
    // Source: by hand. 6 ft across is 3 ft, a yard, on either side of its middle.
    constexpr double yard = 0.9144;
    const Point middle = practice::away(theAlders, practice::patchBearing, practice::patchRange);
    for (const double aside : {90.0, -90.0}) {
        const auto ground = [&](double yards) {
            return wrackleSubstrate(
                practice::away(middle, practice::patchBearing + aside, yards * yard));
        };
        EXPECT_EQ(ground(0.99), Substrate::Gravel) << aside;
        EXPECT_EQ(ground(1.01), Substrate::Silt) << aside;
        EXPECT_EQ(ground(2.0), Substrate::Silt) << aside;
    }
    EXPECT_EQ(
        wrackleSubstrate(practice::away(theAlders, 176.0, practice::patchRange)),
        Substrate::Gravel);
}

TEST(PracticeWater, WeedIsThereInAugustAndGoneInApril) {
    const Book book = practiceBook(all);
    int april = 0;
    int august = 0;
    for (const PlacedReading& placed : reduced(book).readings) {
        const Reading& reading = book.get(placed.reading);
        const Visit& visit = book.get(book.get(reading.cast).visit);
        const bool weed = reading.cover == Cover::TallWeed;
        EXPECT_TRUE(!weed || visit.date.month() == std::chrono::August);
        const bool inTheBed = placed.place && wrackleCover(*placed.place, true);
        const bool nothing = reading.outcome == Outcome::FloatNeverShowed;
        august += inTheBed && (weed || nothing) ? 1 : 0;
        april += inTheBed && visit.date.month() == std::chrono::April ? 1 : 0;
    }
    EXPECT_GE(august, 3);
    EXPECT_GE(april, 1) << "he cast there in April and found none";
}

TEST(PracticeWater, OneQuarterWasNeverFished) {
    const Book book = practiceBook(all);
    const Reduction reduction = reduced(book);
    for (const PlacedReading& placed : reduction.readings) {
        EXPECT_FALSE(placed.place && placed.place->east > 50.0);
    }
    const BedSurface bed = bedOf(reduction);
    for (int north = -60; north <= 60; north += 10) {
        EXPECT_FALSE(bed.at({80.0, static_cast<double>(north)}).known) << north;
    }
}

TEST(PracticeWater, LevelOfAprilStandsFortyCentimetresAboveAugust) {
    const Reduction reduction = reduced(practiceBook(all));
    ASSERT_EQ(reduction.visits.size(), 4U);
    double april = 0.0;
    double august = 0.0;
    for (const ReducedVisit& visit : reduction.visits) {
        const double level = visit.level.aboveDatum / metre;
        april = visit.date.month() == std::chrono::April ? level : april;
        august = visit.date.month() == std::chrono::August ? level : august;
    }
    EXPECT_NEAR(april - august, 0.40, 1e-9);
}

} // namespace
} // namespace bedlore::testing
