// SPDX-License-Identifier: MIT
#include "core/book/edit_plan.hpp"

#include <gtest/gtest.h>

namespace bedlore {
namespace {

class EditPlanTest : public ::testing::Test {
protected:
    EditPlanTest() {
        book_.all<Water>().put({.id = {1}, .name = "a"});
        book_.all<Word>().put({.id = {2}, .text = "cobs", .meaning = "rk"});
    }
    /// What the edits lead to is what the plan says.
    void expectLeadsTo(const Book& planned, const Edits& edits) const {
        const auto applied = applyEdits(book_, edits);
        ASSERT_TRUE(applied.has_value());
        EXPECT_EQ(applied->book, planned);
    }

    Book book_;
    IdSource ids_{10};
};

TEST_F(EditPlanTest, ChangedAndChangedBackIsNoEdit) {
    EditPlan plan(book_, ids_);
    plan.put(Water{.id = {1}, .name = "b"});
    plan.put(Water{.id = {1}, .name = "c"});
    plan.put(Water{.id = {1}, .name = "a"});
    EXPECT_EQ(plan.book(), book_);
    EXPECT_TRUE(plan.takeEdits().empty());
}

TEST_F(EditPlanTest, ChangedTwiceIsOneEdit) {
    EditPlan plan(book_, ids_);
    plan.put(Water{.id = {1}, .name = "b"});
    plan.put(Word{.id = {2}, .text = "cobs", .meaning = "gr"});
    plan.put(Water{.id = {1}, .name = "c"});
    const Book planned = plan.book();
    const Edits edits = plan.takeEdits();
    EXPECT_EQ(edits.size(), 2U);
    expectLeadsTo(planned, edits);
}

TEST_F(EditPlanTest, KeepsAChangeThatARemovalWaitedFor) {
    book_.all<ImportedFile>().put({.id = {3}, .name = "f", .sha256 = "x"});
    book_.all<Page>().put({.id = {4}, .water = {1}, .author = {}, .file = Id<ImportedFile>{3}});
    EditPlan plan(book_, ids_);
    plan.put(Page{.id = {4}, .water = {1}, .author = {}, .file = {}});
    ASSERT_TRUE(plan.removeIfUnused(Id<ImportedFile>{3}));
    plan.put(Page{.id = {4}, .water = {1}, .author = "him", .file = {}});
    const Book planned = plan.book();
    expectLeadsTo(planned, plan.takeEdits());
}

TEST_F(EditPlanTest, TakesBackAChangeAlsoBehindARemoval) {
    EditPlan plan(book_, ids_);
    plan.put(Water{.id = {1}, .name = "b"});
    ASSERT_TRUE(plan.removeIfUnused(Id<Word>{2}));
    plan.put(Water{.id = {1}, .name = "a"});
    const Book planned = plan.book();
    EXPECT_EQ(planned.all<Water>(), book_.all<Water>());
    expectLeadsTo(planned, plan.takeEdits());
}

TEST_F(EditPlanTest, PutsANewRecordAsItIsAtEachMoment) {
    EditPlan plan(book_, ids_);
    const Id<Water> water = plan.add(Water{.id = {}, .name = "n"});
    plan.add(Swim{.id = {}, .water = water, .name = "s"});
    plan.put(Water{.id = water, .name = "m"});
    const Book planned = plan.book();
    expectLeadsTo(planned, plan.takeEdits());
}

} // namespace
} // namespace bedlore
