// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <map>
#include <set>
#include <string>
#include <string_view>

// The pages that an angler wrote on Wrackle Mere, with his mistakes in them.

namespace bedlore::testing {

/// The mistakes that are planted, under the names of the tour's steps, in its order.
inline constexpr std::array<std::string_view, 7> plantedMistakes{
    "feet-for-metres", "one-wrap", "aims-swapped", "sticks", "pulls", "level", "float-up"};

/// Name of each file of the practice notebook and its text, without the mistakes named in
/// `mended`. The errors that every careful man makes are the same whatever is mended: they are
/// drawn from a fixed seed.
[[nodiscard]] std::map<std::string, std::string>
practiceNotebook(const std::set<std::string_view>& mended = {});

} // namespace bedlore::testing
