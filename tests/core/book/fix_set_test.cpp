// SPDX-License-Identifier: MIT
#include "core/book/fix_set.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace bedlore {
namespace {

constexpr float empty = std::numeric_limits<float>::quiet_NaN();

FixSet setOf(std::vector<float> sigma, std::vector<float> level) {
    FixSet set;
    set.id = {1};
    set.columns = std::make_shared<FixColumns>(FixColumns{
        .x = {1.0, 2.0},
        .y = {3.0, 4.0},
        .depth = {5.0, 6.0},
        .sigma = std::move(sigma),
        .level = std::move(level)});
    return set;
}

TEST(FixSet, EqualsItsCopyInOtherMemoryAlsoWhereCellsAreEmpty) {
    EXPECT_EQ(setOf({0.1F, empty}, {empty, empty}), setOf({0.1F, empty}, {empty, empty}));
}

TEST(FixSet, DiffersWhereACellDoes) {
    EXPECT_FALSE(setOf({0.1F, empty}, {}) == setOf({0.1F, 0.2F}, {}));
    EXPECT_FALSE(setOf({}, {empty, 1.0F}) == setOf({}, {1.0F, empty}));
    EXPECT_FALSE(setOf({empty, empty}, {}) == setOf({}, {}));
}

} // namespace
} // namespace bedlore
