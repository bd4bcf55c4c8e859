// SPDX-License-Identifier: MIT
#include "core/check/cause.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <vector>

namespace bedlore::testing {
namespace {

using ::testing::ElementsAre;

TEST(Cause, HasTheNameThatOtherProgramsRead) {
    std::vector<std::string_view> keys;
    for (const Cause cause : allCauses) {
        keys.push_back(causeKey(cause));
    }
    // Source: the fixed keys of `check`'s result.
    EXPECT_THAT(
        keys,
        ElementsAre(
            "one_wrap",
            "float_up",
            "feet_for_metres",
            "swapped_digits",
            "wrong_aim",
            "wrong_swim",
            "on_weed",
            "unknown"));
}

} // namespace
} // namespace bedlore::testing
