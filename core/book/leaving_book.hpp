// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/book.hpp"

#include <cstddef>
#include <string>

// A book as it may leave: without what he keeps to himself.

namespace bedlore {

/// How much of a book is private.
struct PrivateCounts {
    std::size_t spots = 0;
    std::size_t marks = 0;
    std::size_t photos = 0; ///< private themselves, or of a private mark

    [[nodiscard]] bool isNone() const { return spots + marks + photos == 0; }
    friend bool operator==(const PrivateCounts&, const PrivateCounts&) = default;
};

[[nodiscard]] PrivateCounts privateThingsIn(const Book& book);

/// "2 private spots, 1 private mark"; empty where there are none.
[[nodiscard]] std::string privateWords(const PrivateCounts& counts);

/// The book without its private spots, marks and photos. What pointed at one points at nothing:
/// an aim at such a mark has no angle. A page's line that made such a spot is gone, and wherever
/// else one of their names stands, as words of their own in any letter case, there is an ellipsis;
/// only the names of waters and swims stay as they are. A book without private things is given
/// back as it is.
[[nodiscard]] Book withoutPrivateThings(const Book& book);

} // namespace bedlore
