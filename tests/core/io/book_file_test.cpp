// SPDX-License-Identifier: MIT
#include "core/io/book_file.hpp"
#include "tests/support/sample_records.hpp"
#include "tests/support/temp_folder.hpp"

#include <gmock/gmock.h>

namespace bedlore {
namespace {

using testing::everyRecord;
using testing::TempFolder;

TEST(BookFile, GivesBackEveryRecordAfterReopening) {
    const TempFolder folder;
    const Edits edits = everyRecord();
    {
        Result<BookFile> file = BookFile::create(folder / "a.gpkg");
        ASSERT_TRUE(file) << file.error().message << file.error().context;
        const Result<void> written = file->write(edits, 27);
        ASSERT_TRUE(written) << written.error().message << written.error().context;
    }
    const Result<Applied> applied = applyEdits(Book{}, edits);
    ASSERT_TRUE(applied);
    Result<BookFile> again = BookFile::open(folder / "a.gpkg");
    ASSERT_TRUE(again) << again.error().message << again.error().context;
    EXPECT_TRUE(again->book() == applied->book);
    EXPECT_EQ(again->nextId(), 27);
    EXPECT_EQ(again->editNumber(), 1);
    EXPECT_EQ(again->integrity(), "ok");
}

} // namespace
} // namespace bedlore
