// SPDX-License-Identifier: MIT
#pragma once

#include <compare>
#include <cstddef>
#include <cstdint>
#include <functional>

// Typed ids: a cast's id is not a reading's id.

namespace bedlore {

/// Identity of a record of type `Record` within a book. All ids come from one counter, are never
/// used twice, and zero means "none yet".
template <class Record>
struct Id {
    std::int64_t value = 0;

    [[nodiscard]] constexpr bool isValid() const { return value > 0; }
    friend constexpr auto operator<=>(const Id&, const Id&) = default;
};

/// Hands out ids in rising order. `next` is the first id not yet given.
class IdSource {
public:
    explicit IdSource(std::int64_t next = 1)
        : next_(next) {}

    template <class Record>
    [[nodiscard]] Id<Record> take() {
        return Id<Record>{next_++};
    }
    [[nodiscard]] std::int64_t next() const { return next_; }

private:
    std::int64_t next_;
};

} // namespace bedlore

template <class Record>
struct std::hash<bedlore::Id<Record>> {
    std::size_t operator()(const bedlore::Id<Record>& id) const noexcept {
        return std::hash<std::int64_t>{}(id.value);
    }
};
