// SPDX-License-Identifier: MIT
#pragma once

#include "core/io/import_faults.hpp"
#include "core/io/table_rows.hpp"

#include <cstdint>
#include <map>
#include <set>
#include <vector>

// Sets of fixes put together from their rows.

namespace bedlore {

class BookFixes {
public:
    void addSet(FixSetRow set, int line);
    /// A row of the sets' own table that cannot be used: nothing is said of the rows in it.
    void addSpoiltSet(std::int64_t id) { spoilt_.insert(id); }
    /// A row whose set is not there, or that does not fit it, goes to `faults`.
    void add(const FixTableRow& row, int line, FaultList& faults);
    /// A row of that set that cannot be used: counted all the same.
    void addSpoiltRow(std::int64_t set);

    struct Made {
        FixSet set;
        int line = 0;
    };
    /// The sets by their ids, each with its rows in their order. One whose rows are not those that
    /// it should have goes to `faults`.
    [[nodiscard]] std::vector<Made> make(FaultList& faults);

private:
    struct Growing {
        FixSetRow row;
        int line = 0;
        bool sigma = false;
        bool level = false;
        bool day = false;
        bool substrate = false;
        bool cover = false;
        bool mask = false;
        std::int64_t seen = 0; ///< rows, bad ones too
        std::vector<std::int32_t> numbers;
        FixColumns columns;
        std::vector<std::uint8_t> excluded;
    };
    [[nodiscard]] static bool
    fits(const FixTableRow& row, const Growing& set, int line, FaultList&);
    [[nodiscard]] static bool putInOrder(Growing& set);

    std::map<std::int64_t, Growing> sets_;
    std::set<std::int64_t> spoilt_;
};

} // namespace bedlore
