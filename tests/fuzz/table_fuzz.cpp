// SPDX-License-Identifier: MIT
#include "tests/fuzz/books.hpp"
#include "tests/fuzz/must.hpp"
#include "tests/fuzz/promises.hpp"
#include "tests/fuzz/scratch.hpp"

#include <string>

// A table of any bytes at all, into an empty book and into one that holds what its rows may go on
// from.

namespace bedlore::fuzz {

namespace {

// Opening a book costs as much as thirty imports.
constexpr std::size_t oneInSoMany = 32;

bool isStoredToo(std::string_view bytes) {
    unsigned sum = 0;
    for (const char c : bytes) {
        sum = sum * 31U + static_cast<unsigned char>(c);
    }
    return sum % oneInSoMany == 0;
}

/// Without what tells one file from another.
Edits withoutSums(Edits edits) {
    for (Edit& edit : edits) {
        if (auto* file = std::get_if<Put<ImportedFile>>(&edit)) {
            file->record.sha256.clear();
        }
    }
    return edits;
}

/// However a program ends its lines, the table is the same.
void mustReadOtherLineEnds(const MadeBook& made, std::string_view bytes, const ImportPlan& plan) {
    if (bytes.find_first_of("\"\r") != std::string_view::npos) {
        return;
    }
    std::string other;
    for (const char c : bytes) {
        other += c == '\n' ? "\r\n" : std::string(1, c);
    }
    const auto again = planImport(made.book, made.nextId, {scratch().put("table.csv", other)}, {});
    must(again.has_value() && !again->refused, "lines may end as another system ends them");
    must(
        withoutSums(again->edits) == withoutSums(plan.edits),
        "lines that end otherwise say the same");
}

void check(const MadeBook& made, std::string_view bytes) {
    const auto plan = mustImport(made.book, made.nextId, scratch().put("table.csv", bytes));
    if (!plan) {
        return;
    }
    const Book after = mustApply(made.book, plan->edits);
    mustReduce(after);
    mustReadOtherLineEnds(made, bytes, *plan);
    if (isStoredToo(bytes)) {
        Edits all = made.edits;
        all.insert(all.end(), plan->edits.begin(), plan->edits.end());
        mustBeStored(after, all, plan->nextId);
    }
}

} // namespace

} // namespace bedlore::fuzz

// The name is libFuzzer's.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view bytes = bedlore::fuzz::textOf(data, size);
    bedlore::fuzz::check(bedlore::fuzz::MadeBook{}, bytes);
    bedlore::fuzz::check(bedlore::fuzz::bookToImportInto(), bytes);
    return 0;
}
