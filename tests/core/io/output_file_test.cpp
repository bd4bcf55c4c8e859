// SPDX-License-Identifier: MIT
#include "core/io/output_file.hpp"
#include "tests/core/io/import_bench.hpp"

#include <iterator>
#include <sys/stat.h>

namespace bedlore::testing {

namespace {

namespace fs = std::filesystem;

class OutputFileTest : public ImportBench {
protected:
    [[nodiscard]] static std::string read(const fs::path& path) {
        std::ifstream in(path, std::ios::binary);
        return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
    }
    [[nodiscard]] std::size_t filesInFolder() const {
        return static_cast<std::size_t>(
            std::distance(fs::directory_iterator(folder_), fs::directory_iterator()));
    }
};

TEST_F(OutputFileTest, AppearsOnlyWhenItIsWhole) {
    auto file = OutputFile::create(folder_ / "map.tif");
    ASSERT_TRUE(file.has_value());
    ASSERT_TRUE(file->write("whole").has_value());
    EXPECT_FALSE(fs::exists(folder_ / "map.tif"));
    EXPECT_EQ(file->path().parent_path(), folder_);
    EXPECT_EQ(file->path().extension(), ".tif");

    ASSERT_TRUE(file->commit().has_value());

    EXPECT_EQ(read(folder_ / "map.tif"), "whole");
    EXPECT_EQ(filesInFolder(), 1U);
}

TEST_F(OutputFileTest, LeavesWhatWasThereWhenItIsGivenUp) {
    const fs::path target = write("map.tif", "old");
    {
        auto file = OutputFile::create(target);
        ASSERT_TRUE(file.has_value());
        ASSERT_TRUE(file->write("half of the n").has_value());
        OutputFile moved = std::move(*file);
        EXPECT_EQ(filesInFolder(), 2U);
    }
    EXPECT_EQ(read(target), "old");
    EXPECT_EQ(filesInFolder(), 1U);
}

TEST_F(OutputFileTest, ReplacesAFileAndKeepsWhoMayReadIt) {
    const fs::path target = write("map.tif", "old and longer than the new");
    fs::permissions(target, fs::perms::owner_read | fs::perms::owner_write);
    ASSERT_TRUE(writeWholeFile(target, "new").has_value());
    EXPECT_EQ(read(target), "new");
    EXPECT_EQ(fs::status(target).permissions(), fs::perms::owner_read | fs::perms::owner_write);
}

TEST_F(OutputFileTest, TakesWhatALibraryWroteUnderItsName) {
    auto file = OutputFile::create(folder_ / "map.pdf");
    ASSERT_TRUE(file.has_value());
    {
        std::ofstream library(file->path(), std::ios::binary);
        library << "by name";
    }
    ASSERT_TRUE(file->commit().has_value());
    EXPECT_EQ(read(folder_ / "map.pdf"), "by name");
}

TEST_F(OutputFileTest, FollowsALinkToTheFileBehindIt) {
    const fs::path target = write("behind.tif", "old");
    fs::create_symlink(target, folder_ / "link.tif");
    ASSERT_TRUE(writeWholeFile(folder_ / "link.tif", "new").has_value());
    EXPECT_TRUE(fs::is_symlink(folder_ / "link.tif"));
    EXPECT_EQ(read(target), "new");
}

TEST_F(OutputFileTest, IsRefusedInASentenceWhereNothingCanBeWritten) {
    const auto missing = writeWholeFile(folder_ / "no such folder" / "map.tif", "x");
    ASSERT_FALSE(missing.has_value());
    EXPECT_EQ(missing.error().fault, Fault::Input) << "like the folder below";
    EXPECT_THAT(missing.error().message, ::testing::HasSubstr("map.tif cannot be written"));

    const auto folder = writeWholeFile(folder_, "x");
    ASSERT_FALSE(folder.has_value());
    EXPECT_EQ(folder.error().fault, Fault::Input);

    const auto device = writeWholeFile("/dev/null", "x");
    ASSERT_FALSE(device.has_value());
    EXPECT_TRUE(fs::is_character_file("/dev/null"));

    EXPECT_FALSE(writeWholeFile("", "x").has_value());
    EXPECT_EQ(filesInFolder(), 0U);
}

} // namespace

} // namespace bedlore::testing
