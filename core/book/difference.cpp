// SPDX-License-Identifier: MIT
#include "core/book/difference.hpp"

namespace bedlore {

Change differenceOf(const Book& before, const Book& after) {
    Change change;
    const auto addFrom = [&]<class Record>(const Table<Record>& one, const Table<Record>& other) {
        for (const Record& record : one) {
            const Record* same = other.find(record.id);
            if (same == nullptr || !(*same == record)) {
                change.touched.emplace_back(record.id);
            }
        }
    };
    const auto addAll = [&]<class... Records>(RecordTypes<Records...>) {
        (addFrom(after.all<Records>(), before.all<Records>()), ...);
        (
            [&] {
                for (const Records& record : before.all<Records>()) {
                    if (after.find(record.id) == nullptr) {
                        change.touched.emplace_back(record.id);
                    }
                }
            }(),
            ...);
    };
    addAll(AllRecords{});
    return change;
}

} // namespace bedlore
