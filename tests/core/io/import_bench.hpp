// SPDX-License-Identifier: MIT
#pragma once

#include "core/io/import.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <initializer_list>
#include <string>
#include <string_view>
#include <unistd.h>
#include <vector>

// Files written for a test, and the book that they are imported into.

namespace bedlore::testing {

/// A folder of its own that goes with the test, and a book that grows with each import.
class ImportBench : public ::testing::Test {
protected:
    ImportBench() {
        const auto* info = ::testing::UnitTest::GetInstance()->current_test_info();
        folder_ = std::filesystem::temp_directory_path() /
                  ("bedlore-import-" + std::to_string(::getpid()) + "-" + info->name());
        std::filesystem::remove_all(folder_);
        std::filesystem::create_directories(folder_);
    }
    ~ImportBench() override { std::filesystem::remove_all(folder_); }

    [[nodiscard]] std::filesystem::path write(const std::string& name, std::string_view bytes) {
        const std::filesystem::path path = folder_ / name;
        std::ofstream out(path, std::ios::binary);
        out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
        return path;
    }

    /// What an import would do, the book left alone.
    [[nodiscard]] Result<ImportPlan>
    plan(const std::vector<std::filesystem::path>& files, const ImportOptions& options = {}) const {
        return planImport(book_, nextId_, files, options);
    }

    /// Imports into the book; must not fail or be refused.
    ImportPlan
    import(const std::vector<std::filesystem::path>& files, const ImportOptions& options = {}) {
        auto planned = plan(files, options);
        if (!planned) {
            ADD_FAILURE() << planned.error().message;
            return {};
        }
        EXPECT_FALSE(planned->refused);
        for (const BadRow& bad :
             options.badRows == BadRows::Refuse ? planned->bad : std::vector<BadRow>{}) {
            ADD_FAILURE() << bad.file << ":" << bad.line << " " << bad.field << " found "
                          << bad.found << ", expected " << bad.expected;
        }
        EXPECT_LT(largestId(planned->edits), planned->nextId);
        auto applied = applyEdits(book_, planned->edits);
        if (!applied) {
            ADD_FAILURE() << applied.error().message;
            return *planned;
        }
        book_ = applied->book;
        nextId_ = planned->nextId;
        return *planned;
    }

    /// The bad rows of an import that must be refused with nothing planned.
    [[nodiscard]] std::vector<BadRow> refused(
        const std::vector<std::filesystem::path>& files, const ImportOptions& options = {}) const {
        const auto planned = plan(files, options);
        if (!planned) {
            ADD_FAILURE() << planned.error().message;
            return {};
        }
        EXPECT_TRUE(planned->refused);
        EXPECT_TRUE(planned->edits.empty());
        EXPECT_EQ(planned->counts, ImportCounts{});
        EXPECT_EQ(planned->nextId, nextId_);
        return planned->bad;
    }

    /// The sentence of an import that must fail as a whole.
    [[nodiscard]] std::string failure(
        const std::vector<std::filesystem::path>& files, const ImportOptions& options = {}) const {
        const auto planned = plan(files, options);
        EXPECT_FALSE(planned.has_value());
        return planned ? "" : planned.error().message;
    }

    template <class Record>
    [[nodiscard]] std::vector<Record> all() const {
        return {book_.all<Record>().begin(), book_.all<Record>().end()};
    }

    Book book_;
    std::int64_t nextId_ = 1;
    std::filesystem::path folder_;
};

MATCHER_P2(isBadAt, line, field, "") {
    *result_listener << arg.file << ":" << arg.line << " " << arg.field << ", found \"" << arg.found
                     << "\", expected " << arg.expected;
    return arg.line == line && arg.field == field && !arg.expected.empty();
}

inline constexpr std::string_view readingsHeader =
    "swim,date,cast,bearing,north,distance,distance_unit,depth,depth_unit,bottom,note\n";
inline constexpr std::string_view swimsHeader = "swim,lat,lon,tip_height_m\n";

/// A table from its header and its rows.
inline std::string table(std::string_view header, std::initializer_list<std::string_view> rows) {
    std::string text(header);
    for (const std::string_view row : rows) {
        text += row;
        text += '\n';
    }
    return text;
}

} // namespace bedlore::testing
