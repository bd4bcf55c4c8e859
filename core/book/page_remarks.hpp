// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/page_meaning.hpp"

#include <span>
#include <string>

// What may be a slip though nothing speaks against it: asked once the whole page is read.

namespace bedlore {

/// Asks about notes that are a header but for one slip in its word ("distnces wraps"), an aim but
/// for its sign ("aim A 210 magnetic"), a date alone, or a reading but for a minus ("23 -3 gr") or
/// a word ("27 krud 4").
void askAboutSlips(std::span<const std::string> lines, PageMeaning& meaning);

/// Where a visit's aims are said, on the page or on another visit to its swim, the first reading on
/// a letter that is none of them asks whether another was meant, or a new one. A page without any
/// aims said is asked nothing: aims without degrees are normal on the first day.
void remarkOnUnsaidAims(
    std::span<const std::string> lines, const PageContext& context, PageMeaning& meaning);

/// Asks about a depth of 0, which pulls the whole bed around it up to the surface: it may stand for
/// "no depth". One that he is sure of ("!") is asked nothing.
void remarkOnNoDepth(std::span<const std::string> lines, PageMeaning& meaning);

/// Asks about a depth of more than 60 ft, likely a slip of the hand ("99" for 9.9). It counts all
/// the same; one that he is sure of ("!") is asked nothing.
void remarkOnGreatDepth(std::span<const std::string> lines, PageMeaning& meaning);

} // namespace bedlore
