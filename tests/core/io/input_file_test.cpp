// SPDX-License-Identifier: MIT
#include "core/io/input_file.hpp"
#include "tests/core/io/import_bench.hpp"

#include <sys/stat.h>

namespace bedlore::testing {

namespace {

using InputFileTest = ImportBench;

TEST_F(InputFileTest, GivesAllBytesAndTheirDigest) {
    const std::string bytes(1'000'000, 'a');
    auto file = InputFile::open(write("a.csv", bytes));
    ASSERT_TRUE(file.has_value());
    EXPECT_EQ(file->name(), "a.csv");
    EXPECT_EQ(file->size(), bytes.size());
    const auto whole = readWhole(*file, bytes.size());
    ASSERT_TRUE(whole.has_value());
    EXPECT_EQ(whole->bytes, bytes);
    // Source: FIPS 180-2, appendix B.3.
    EXPECT_EQ(whole->sha256, "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST_F(InputFileTest, StopsAtTheLimit) {
    auto file = InputFile::open(write("a.csv", std::string(3 * 1024 * 1024 + 1, 'a')));
    ASSERT_TRUE(file.has_value());
    const auto whole = readWhole(*file, 2 * 1024 * 1024);
    ASSERT_FALSE(whole.has_value());
    EXPECT_EQ(whole.error().fault, Fault::Input);
    // Source: by hand. 3 MB and a byte rounds up to 4 MB.
    EXPECT_EQ(
        whole.error().message,
        "a.csv is 4 MB long; at most 2 MB of such a file can be read. Split it.");
}

TEST_F(InputFileTest, StopsAtTheLimitWhenTheFileGrowsMeanwhile) {
    const auto path = write("a.csv", "12");
    auto file = InputFile::open(path);
    ASSERT_TRUE(file.has_value());
    std::ofstream(path, std::ios::app) << std::string(100, 'x');
    EXPECT_FALSE(readWhole(*file, 10).has_value());
}

TEST_F(InputFileTest, RefusesWhatIsNoPlainFile) {
    const auto folder = InputFile::open(folder_);
    ASSERT_FALSE(folder.has_value());
    EXPECT_THAT(folder.error().message, ::testing::HasSubstr("is a folder"));

    const auto pipe = folder_ / "pipe.csv";
    ASSERT_EQ(::mkfifo(pipe.c_str(), 0600), 0);
    const auto waiting = InputFile::open(pipe);
    ASSERT_FALSE(waiting.has_value());
    EXPECT_THAT(waiting.error().message, ::testing::HasSubstr("not a plain file"));

    EXPECT_FALSE(InputFile::open("/dev/zero").has_value());

    const auto missing = InputFile::open(folder_ / "none.csv");
    ASSERT_FALSE(missing.has_value());
    EXPECT_EQ(missing.error().fault, Fault::Input);
    EXPECT_THAT(missing.error().message, ::testing::StartsWith("There is no file"));
}

} // namespace

} // namespace bedlore::testing
