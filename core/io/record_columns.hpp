// SPDX-License-Identifier: MIT
#pragma once

#include "core/io/field_codec.hpp"

#include <string>
#include <string_view>
#include <type_traits>

// The columns of each type of record, as the book's file and the tables of text have them.

namespace bedlore {

/// Calls `visit.template operator()<Record>()` for each type of record, parents first.
template <class... Records, class Visit>
void forEachType(RecordTypes<Records...>, Visit&& visit) {
    (visit.template operator()<Records>(), ...);
}

template <class Record>
[[nodiscard]] const Columns& columnsOf() {
    static const Columns all = [] {
        Columns columns;
        const Record empty{};
        visitFields(empty, [&]<class Field>(std::string_view name, const Field&) {
            FieldCodec<Field>::columns(columns, std::string(name));
        });
        return columns;
    }();
    return all;
}

/// What a record says about itself that its columns alone do not rule out; empty when nothing.
template <class Record>
[[nodiscard]] std::string contradictionIn(const Record& record) {
    if constexpr (std::is_same_v<Record, FixSet>) {
        const std::size_t rows = record.columns ? record.columns->x.size() : 0;
        if (record.excluded && record.excluded->size() != rows) {
            return "excluded: not one byte for each row";
        }
    }
    return {};
}

} // namespace bedlore
