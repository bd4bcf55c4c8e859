// SPDX-License-Identifier: MIT
#include "tests/bench/case_files.hpp"

#include "core/io/import.hpp"
#include "core/reduction/reduction.hpp"
#include "tests/support/csv_table.hpp"

#include <algorithm>
#include <array>
#include <string>
#include <utility>

namespace bedlore::bench {

namespace {

namespace fs = std::filesystem;

/// What the notes of a case are in; the truth stands beside them.
constexpr std::array notes{"swims.csv", "reels.csv", "readings.csv", "shoreline.csv"};

Result<Book> bookOf(const fs::path& folder) {
    std::vector<fs::path> files;
    for (const char* name : notes) {
        if (fs::exists(folder / name)) {
            files.push_back(folder / name);
        }
    }
    const auto plan = planImport(Book(), 1, files, {});
    if (!plan) {
        return fail(plan.error());
    }
    if (plan->refused) {
        const BadRow& row = plan->bad.front();
        return fail(inputError(
            row.file + ", line " + std::to_string(row.line) + ": " + row.field + " is " +
            row.found + "."));
    }
    auto applied = applyEdits(Book(), plan->edits);
    if (!applied) {
        return fail(applied.error());
    }
    return std::move(applied->book);
}

std::vector<TruthPoint> truthOf(const fs::path& file, const LocalFrame& frame) {
    std::vector<TruthPoint> truth;
    const auto table = testing::readCsvTable(file);
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        const GeographicPoint place{table.number(i, "lat"), table.number(i, "lon")};
        truth.push_back({.place = frame.toPlane(place), .depth = table.number(i, "depth_m")});
    }
    return truth;
}

} // namespace

Result<BedCase> readCase(const fs::path& folder) {
    const auto book = bookOf(folder);
    if (!book) {
        return fail(book.error());
    }
    const Id<Water> water = book->all<Water>().begin()->id;
    auto reduction = reduce(*book, {.water = water, .alone = std::nullopt});
    if (!reduction) {
        return fail(reduction.error());
    }
    BedCase result;
    result.name = folder.filename().string();
    result.reduction = *std::move(reduction);
    result.truth = truthOf(folder / "truth_grid.csv", result.reduction.frame);
    result.trueSoundings = truthOf(folder / "truth_soundings.csv", result.reduction.frame);
    return result;
}

std::vector<fs::path> caseFolders(const fs::path& root) {
    std::vector<fs::path> folders;
    for (const auto& entry : fs::directory_iterator(root)) {
        if (fs::exists(entry.path() / "truth_grid.csv")) {
            folders.push_back(entry.path());
        }
    }
    std::sort(folders.begin(), folders.end());
    return folders;
}

} // namespace bedlore::bench
