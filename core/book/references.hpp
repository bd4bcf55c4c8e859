// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/fields.hpp"

#include <optional>
#include <variant>
#include <vector>

// Which other records a record points at.

namespace bedlore {

namespace detail {

/// Calls `found(id)` for every id inside a field, however deep it sits.
template <class Found>
struct ReferenceFinder {
    Found& found;

    template <class Record>
    void operator()(const Id<Record>& id) const {
        found(id);
    }
    template <class T>
    void operator()(const std::optional<T>& field) const {
        if (field) {
            (*this)(*field);
        }
    }
    template <class T>
    void operator()(const std::vector<T>& fields) const {
        for (const T& field : fields) {
            (*this)(field);
        }
    }
    template <class... Ts>
    void operator()(const std::variant<Ts...>& field) const {
        std::visit(*this, field);
    }
    void operator()(const SourceLine& field) const { found(field.file); }
    void operator()(const AimAtMark& field) const { found(field.mark); }
    void operator()(const AimFromAim& field) const { found(field.other); }
    void operator()(const AimLeftOf& field) const { found(field.other); }
    void operator()(const OnAim& field) const { found(field.aim); }
    void operator()(const LengthUsed& field) const { (*this)(field.visit); }
    void operator()(const RodOut& field) const { (*this)(field.spot); }
    void operator()(const BaitPut& field) const { (*this)(field.spot); }
    void operator()(const Bite& field) const { (*this)(field.spot); }
    template <class T>
    void operator()(const T&) const {}
};

} // namespace detail

/// Calls `found(Id<Other>)` for every record that `record` points at, itself left out.
template <class Record, class Found>
void forEachReference(const Record& record, Found&& found) {
    const detail::ReferenceFinder<Found> finder{found};
    visitFields(record, [&](std::string_view name, const auto& field) {
        if (name != "id") {
            finder(field);
        }
    });
}

} // namespace bedlore
