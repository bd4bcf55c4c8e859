// SPDX-License-Identifier: MIT
#include "gui/document/reductions.hpp"

#include "core/reduction/reduction.hpp"

#include <cstddef>
#include <utility>

namespace bedlore {

Result<std::vector<Reduction>> reductionsOf(
    const std::shared_ptr<const Book>& book, const BedMap* drawn, const Progress& progress) {
    std::vector<Reduction> all;
    for (const Water& water : book->all<Water>()) {
        if (drawn != nullptr && drawn->book == book && drawn->request.water == water.id) {
            all.push_back(drawn->reduction);
            continue;
        }
        Result<Reduction> reduction =
            reduce(*book, {.water = water.id, .alone = std::nullopt}, progress);
        if (!reduction) {
            return fail(reduction.error());
        }
        all.push_back(std::move(*reduction));
    }
    return all;
}

bool hasManyDepths(const Book& book) {
    constexpr std::size_t many = 5'000;
    std::size_t depths = book.all<Reading>().size();
    for (const FixSet& set : book.all<FixSet>()) {
        depths += set.columns != nullptr ? set.columns->depth.size() : 0;
    }
    return depths >= many;
}

} // namespace bedlore
