// SPDX-License-Identifier: MIT
#include "tests/core/io/import_bench.hpp"

// What is said of files before anything of them is written.

namespace bedlore::testing {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

const ImportOptions looking{
    .badRows = BadRows::Skip, .again = SameFileAgain::Allow, .previewRows = 100};

class ImportPreview : public ImportBench {
protected:
    /// The only file of a preview.
    FilePreview preview(const std::filesystem::path& file) {
        const auto planned = plan({file}, looking);
        EXPECT_TRUE(planned.has_value()) << planned.error().message;
        EXPECT_EQ(planned->files.size(), 1U);
        return planned && !planned->files.empty() ? planned->files.front() : FilePreview{};
    }
};

TEST_F(ImportPreview, SaysEachLineOfAPageAsThePagePanelDoes) {
    const FilePreview page = preview(write(
        "page.txt",
        "swim P14\ndate 2025-04-12\nsticks 12 ft\ndistances wraps\ndepths ft\n"
        "A 28½ 9 gr\nB 110 12\nwind SW3, 11c rising\n"));
    EXPECT_THAT(page.columns, ElementsAre("as it stands", "taken as"));
    EXPECT_EQ(page.rowCount, 8U);
    ASSERT_THAT(page.rows, SizeIs(8));
    EXPECT_EQ(page.rows[5].line, 6);
    // Source: by hand. 28½ × 12 ft = 342 ft = 114 yd.
    EXPECT_THAT(page.rows[5].cells, ElementsAre("A 28½ 9 gr", "28½ wraps (114 yd), 9 ft, gravel"));
    EXPECT_FALSE(page.rows[5].isUnclear);
    EXPECT_TRUE(page.rows[6].isUnclear) << "110 wraps are beyond any cast";
    EXPECT_THAT(page.rows[6].cells[1], HasSubstr("yards?"));
    EXPECT_FALSE(page.rows[7].isUnclear) << "a note is never a fault";
}

TEST_F(ImportPreview, SaysRowsOfTablesInWords) {
    const FilePreview swims =
        preview(write("swims.csv", "swim,lat,lon,tip_height_m\nA,52.2,-1.2,1.8\nB,52.2,-1.201,\n"));
    ASSERT_THAT(swims.rows, SizeIs(2));
    EXPECT_THAT(swims.rows[0].cells, ElementsAre("A", "52.200000, -1.200000", "1.8 m"));
    EXPECT_THAT(swims.rows[1].cells, ElementsAre("B", "52.200000, -1.201000", ""));

    const FilePreview reels = preview(write("reels.csv", "reel,turns,distance_m\nbig,10,8.5\n"));
    ASSERT_THAT(reels.rows, SizeIs(1));
    EXPECT_THAT(reels.rows[0].cells, ElementsAre("big", "10", "8.5 m"));

    const FilePreview fixes = preview(write(
        "fixes.csv",
        "east_m,north_m,depth_m,bottom,date,level_m\n1,2,3.25,gravel,2025-04-12,0.5\n4,5,6,,,\n"));
    ASSERT_THAT(fixes.rows, SizeIs(2));
    EXPECT_THAT(
        fixes.rows[0].cells,
        ElementsAre("1.00 m east, 2.00 m north", "3.25 m", "gravel", "2025-04-12", "0.50 m"));
    EXPECT_THAT(
        fixes.rows[1].cells, ElementsAre("4.00 m east, 5.00 m north", "6.00 m", "", "", ""));

    const FilePreview shore =
        preview(write("shore.csv", "part,lat,lon\n1,52.2,-1.2\n1,52.201,-1.2\n1,52.201,-1.201\n"));
    ASSERT_THAT(shore.rows, SizeIs(1));
    EXPECT_THAT(shore.rows[0].cells, ElementsAre("1", "3", "52.200000, -1.200000"));
}

TEST_F(ImportPreview, CountsWrapsByTheSticksOfTheVisitThatIsThere) {
    import({write("swims.csv", std::string(swimsHeader) + "A,52.2,-1.2,1.8\n")});
    import({write("page.txt", "swim A\ndate 2025-04-12\nsticks 13 ft\n")});
    const FilePreview readings = preview(write(
        "readings.csv",
        table(
            readingsHeader,
            {"A,2025-04-12,1,231.5,true,20,wrap,9,ft,gravel,",
             "A,2025-04-13,1,231.5,true,20,wrap,9,ft,gravel,"})));
    ASSERT_THAT(readings.rows, SizeIs(2));
    // Source: by hand. 20 × 13 ft = 260 ft = 86⅔ yd; 20 × 12 ft = 240 ft = 80 yd.
    EXPECT_THAT(
        readings.rows[0].cells,
        ElementsAre("A", "2025-04-12", "1", "", "231½° true", "20 wraps (87 yd), 9 ft, gravel"));
    EXPECT_EQ(readings.rows[1].cells[5], "20 wraps (80 yd), 9 ft, gravel");
}

TEST_F(ImportPreview, StopsAtTheRowsAskedForAndCountsThemAll) {
    std::string text = "east_m,north_m,depth_m\n";
    for (int i = 0; i < 250; ++i) {
        text += std::to_string(i) + ",0,2\n";
    }
    const FilePreview fixes = preview(write("fixes.csv", text));
    EXPECT_THAT(fixes.rows, SizeIs(100));
    EXPECT_EQ(fixes.rowCount, 250U);
    EXPECT_EQ(fixes.rows.back().line, 101) << "the header is line 1";
}

TEST_F(ImportPreview, MarksRowsThatDoNotFitTheBook) {
    const auto planned = plan(
        {write(
            "readings.csv",
            table(
                readingsHeader,
                {"A,2025-04-12,1,231.5,true,60,m,3,m,gravel,",
                 "A,2025-04-12,1,231.5,true,95,turn,3,m,gravel,",
                 "A,2025-04-12,1,231.5,true,deep,m,3,m,gravel,"}))},
        looking);
    ASSERT_TRUE(planned.has_value()) << planned.error().message;
    EXPECT_FALSE(planned->refused);
    EXPECT_TRUE(planned->canSkipBad);
    EXPECT_EQ(planned->counts.readings, 1U);
    EXPECT_THAT(planned->bad, ElementsAre(isBadAt(3, "reel"), isBadAt(4, "distance")));
    ASSERT_EQ(planned->files.size(), 1U);
    const auto& rows = planned->files.front().rows;
    ASSERT_THAT(rows, SizeIs(2)) << "the last could not even be read";
    EXPECT_FALSE(rows[0].isBad);
    EXPECT_TRUE(rows[1].isBad);
}

TEST_F(ImportPreview, OfAFileThatCannotBeUsedHasNoRows) {
    const auto planned =
        plan({write("readings.csv", "swim,date,distance\nA,2025-04-12,9\n")}, looking);
    ASSERT_TRUE(planned.has_value()) << planned.error().message;
    EXPECT_TRUE(planned->refused);
    EXPECT_FALSE(planned->canSkipBad);
    ASSERT_EQ(planned->files.size(), 1U);
    EXPECT_EQ(planned->files.front().name, "readings.csv");
    EXPECT_THAT(planned->files.front().rows, IsEmpty());
}

TEST_F(ImportPreview, SaysWhatWouldBeInTheBookTwice) {
    const std::string text = "swim,lat,lon,tip_height_m\nA,52.2,-1.2,1.8\n";
    import({write("swims.csv", text)});
    const auto planned = plan({write("copy.csv", text), write("copy2.csv", text)}, looking);
    ASSERT_TRUE(planned.has_value()) << planned.error().message;
    ASSERT_EQ(planned->files.size(), 2U);
    EXPECT_EQ(planned->files[0].again, "copy.csv was imported before, as swims.csv.");
    EXPECT_EQ(planned->files[1].again, "copy2.csv was imported before, as swims.csv.");
}

} // namespace
} // namespace bedlore::testing
