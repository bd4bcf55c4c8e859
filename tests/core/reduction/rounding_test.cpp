// SPDX-License-Identifier: MIT
#include "core/reduction/rounding.hpp"
#include "tests/core/reduction/note_book.hpp"
#include "tests/support/matchers.hpp"

#include <gtest/gtest.h>

namespace bedlore {
namespace {

using testing::depthOf;
using testing::ft;
using testing::isWithin;
using testing::NoteBook;
using testing::wraps;

TEST(VisitRounding, OneQuarterAmongWholeWrapsSaysQuarters) {
    NoteBook notes;
    const auto visit = notes.visit(notes.swim("P14", Point{}), 4, 12);
    const auto cast = notes.cast(visit, 0.0);
    notes.reading(cast, wraps(28.0), depthOf(ft(9.0)));
    const auto rounding = [&] { return VisitRounding(notesOf(notes.book, notes.water).front()); };
    // By hand: a step of 12 ft is 3.6576/√12 = 1.055858 m, a quarter of it 0.263965 m; 1 ft is
    // 0.087988 m.
    EXPECT_THAT(rounding().lineSigma(Unit::Wrap, 12.0_ft), isWithin(1e-6 * metre, 1.055858_m));
    EXPECT_THAT(rounding().depthSigma(Unit::Foot, 1.0_ft), isWithin(1e-6 * metre, 0.087988_m));
    notes.reading(cast, wraps(26.75));
    EXPECT_THAT(rounding().lineSigma(Unit::Wrap, 12.0_ft), isWithin(1e-6 * metre, 0.263965_m));
    EXPECT_EQ(rounding().lineSigma(Unit::Turn, 1.0_m), Length{}) << "no turns on this visit";
}

} // namespace
} // namespace bedlore
