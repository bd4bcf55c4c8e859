// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/book.hpp"
#include "core/book/edit.hpp"

#include <string>
#include <variant>
#include <vector>

// What of a water leaves only where he says so each time.

namespace bedlore {

/// A spot or a mark.
struct PrivateChoice {
    std::variant<Id<Spot>, Id<Mark>> what;
    std::string name;
    bool isPrivate = false;
    friend bool operator==(const PrivateChoice&, const PrivateChoice&) = default;
};

/// Those of a water: spots, then marks, each in the order of their names.
[[nodiscard]] std::vector<PrivateChoice> privateChoices(const Book& book, Id<Water> water);

/// Makes them as chosen; those that are so, or are gone, are left out.
[[nodiscard]] Edits putPrivate(const Book& book, const std::vector<PrivateChoice>& chosen);

} // namespace bedlore
