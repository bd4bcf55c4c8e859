// SPDX-License-Identifier: MIT
#pragma once

#include "core/io/import.hpp"
#include "tests/support/practice_notebook.hpp"
#include "tests/support/temp_folder.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <vector>

// The book that the practice pages give.

namespace bedlore::testing {

/// The edits that bring the practice notebook into an empty book, without the mistakes in `mended`.
inline ImportPlan practiceImport(const std::set<std::string_view>& mended = {}) {
    const TempFolder folder;
    std::vector<std::filesystem::path> files;
    for (const auto& [name, text] : practiceNotebook(mended)) {
        files.push_back(folder / name);
        std::ofstream(files.back(), std::ios::binary) << text;
    }
    ImportOptions options;
    options.water = "Wrackle Mere";
    auto plan = planImport(Book{}, 1, files, options);
    EXPECT_TRUE(plan.has_value()) << plan.error().message;
    EXPECT_FALSE(!plan || plan->refused) << "a page has a bad line";
    return plan ? std::move(*plan) : ImportPlan{};
}

inline Book practiceBook(const std::set<std::string_view>& mended = {}) {
    auto applied = applyEdits(Book{}, practiceImport(mended).edits);
    EXPECT_TRUE(applied.has_value()) << applied.error().message;
    return applied ? std::move(applied->book) : Book{};
}

} // namespace bedlore::testing
