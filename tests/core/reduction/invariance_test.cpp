// SPDX-License-Identifier: MIT
#include "core/reduction/reduction.hpp"
#include "tests/core/reduction/note_book.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>

// What must not change the soundings: where on the plane the water lies, and who was entered first.

namespace bedlore {
namespace {

using testing::depthOf;
using testing::ft;
using testing::m;
using testing::NoteBook;
using testing::wraps;

struct Turn {
    double degrees = 0.0;
    Point move;

    [[nodiscard]] Point operator()(Point p) const {
        const double angle = (degrees * degree).si();
        return {
            move.east + p.east * std::cos(angle) + p.north * std::sin(angle),
            move.north - p.east * std::sin(angle) + p.north * std::cos(angle)};
    }
};

/// Two swims, three visits, casts with and without depths; the whole of it turned and moved.
NoteBook turnedWater(const Turn& turn) {
    NoteBook notes;
    const auto a = notes.swim("P14", turn({0.0, 0.0}));
    const auto b = notes.swim("P15", turn({40.0, -10.0}));
    int seed = 0;
    for (const auto& [swim, month] : {std::pair(a, 4), std::pair(b, 4), std::pair(a, 6)}) {
        const auto visit = notes.visit(swim, month, 12, m(0.1 * month));
        for (int c = 0; c < 4; ++c) {
            const auto cast = notes.cast(visit, 20.0 + 11.0 * c + turn.degrees, c + 1);
            for (int r = 0; r < 5; ++r) {
                ++seed;
                const double depth = 6.0 + seed % 7;
                notes.reading(
                    cast,
                    wraps(28.0 - 1.5 * r),
                    r % 2 == 0 ? std::optional(depthOf(ft(depth))) : std::nullopt);
            }
        }
    }
    return notes;
}

TEST(ReductionInvariance, TurningAndMovingTheWholeWaterMovesPlacesAndNothingElse) {
    const Reduction before = turnedWater({}).reduced();
    for (const Turn& turn :
         {Turn{37.0, {0.0, 0.0}}, Turn{0.0, {5000.0, -300.0}}, Turn{-120.0, {-70.0, 12.0}}}) {
        NoteBook notes = turnedWater(turn);
        const Reduction after = notes.reduced();
        ASSERT_EQ(after.soundings.size(), before.soundings.size());
        for (const Sounding& was : before.soundings) {
            const Sounding& is = testing::soundingOf(after, std::get<Id<Reading>>(was.source));
            const Point expected = turn(was.place);
            EXPECT_NEAR(is.place.east, expected.east, 1e-8);
            EXPECT_NEAR(is.place.north, expected.north, 1e-8);
            EXPECT_EQ(is.level, was.level);
            EXPECT_EQ(is.levelSigma, was.levelSigma);
        }
    }
}

/// The same notes with every record entered in another order, so that every id differs.
Book shuffled(const Book& book, unsigned seed) {
    std::mt19937 random(seed);
    std::int64_t largest = 0;
    const auto collect = [&]<class Record>(const Table<Record>& table) {
        for (const Record& record : table) {
            largest = std::max(largest, record.id.value);
        }
    };
    collect(book.all<Water>());
    collect(book.all<Swim>());
    collect(book.all<Visit>());
    collect(book.all<Cast>());
    collect(book.all<Reading>());
    std::vector<std::int64_t> ids(static_cast<std::size_t>(largest));
    std::iota(ids.begin(), ids.end(), 1);
    std::shuffle(ids.begin(), ids.end(), random);
    const auto renamed = [&]<class Record>(Id<Record> id) {
        return Id<Record>{ids[static_cast<std::size_t>(id.value) - 1]};
    };
    Book result;
    const auto add = [&](auto record) {
        record.id = renamed(record.id);
        result.all<std::decay_t<decltype(record)>>().put(record);
    };
    for (const Water& water : book.all<Water>()) {
        add(water);
    }
    for (Swim swim : book.all<Swim>()) {
        swim.water = renamed(swim.water);
        add(swim);
    }
    for (Visit visit : book.all<Visit>()) {
        visit.swim = renamed(visit.swim);
        add(visit);
    }
    for (Cast cast : book.all<Cast>()) {
        cast.visit = renamed(cast.visit);
        add(cast);
    }
    for (Reading reading : book.all<Reading>()) {
        reading.cast = renamed(reading.cast);
        add(reading);
    }
    return result;
}

// Invariant: the same notes give the same soundings, to the last bit and in the same order.
TEST(ReductionInvariance, TheOrderOfEntryDoesNotMatter) {
    const NoteBook notes = turnedWater({});
    const Reduction first = notes.reduced();
    for (unsigned seed = 1; seed <= 20; ++seed) {
        SCOPED_TRACE(seed);
        const Book book = shuffled(notes.book, seed);
        const auto again = reduce(book, {.water = book.all<Water>().begin()->id, .alone = {}});
        ASSERT_TRUE(again.has_value());
        ASSERT_EQ(again->soundings.size(), first.soundings.size());
        for (std::size_t i = 0; i < first.soundings.size(); ++i) {
            const Sounding& a = first.soundings[i];
            const Sounding& b = again->soundings[i];
            EXPECT_EQ(a.place, b.place);
            EXPECT_EQ(a.level, b.level);
            EXPECT_EQ(a.levelSigma, b.levelSigma);
            EXPECT_EQ(a.line->cast, b.line->cast);
            EXPECT_EQ(a.line->lineSigma, b.line->lineSigma);
        }
    }
}

TEST(ReductionInvariance, TheOrderOfTheCastsAmongThemselvesDoesNotMatter) {
    NoteBook notes = turnedWater({});
    const Reduction first = notes.reduced();
    int order = 100;
    std::vector<Cast> casts(notes.book.all<Cast>().begin(), notes.book.all<Cast>().end());
    for (Cast cast : casts) {
        cast.order = order--;
        notes.book.all<Cast>().put(cast);
    }
    const Reduction again = notes.reduced();
    ASSERT_EQ(again.soundings.size(), first.soundings.size());
    for (std::size_t i = 0; i < first.soundings.size(); ++i) {
        EXPECT_EQ(first.soundings[i].place, again.soundings[i].place);
        EXPECT_EQ(first.soundings[i].source, again.soundings[i].source);
    }
}

} // namespace
} // namespace bedlore
