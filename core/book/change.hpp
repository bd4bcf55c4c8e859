// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/book.hpp"

#include <variant>
#include <vector>

// What an edit changed, for whoever shows or derives something.

namespace bedlore {

namespace detail {
template <class List>
struct IdVariant;
template <class... Records>
struct IdVariant<RecordTypes<Records...>> {
    using type = std::variant<Id<Records>...>;
};
} // namespace detail

/// The id of a record of any type.
using AnyId = detail::IdVariant<AllRecords>::type;

/// The records that were put in, changed or taken out.
struct Change {
    std::vector<AnyId> touched;

    template <class Record>
    [[nodiscard]] bool touches() const {
        for (const AnyId& id : touched) {
            if (std::holds_alternative<Id<Record>>(id)) {
                return true;
            }
        }
        return false;
    }
    friend bool operator==(const Change&, const Change&) = default;
};

} // namespace bedlore
