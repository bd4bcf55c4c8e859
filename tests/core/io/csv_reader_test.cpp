// SPDX-License-Identifier: MIT
#include "core/io/csv_reader.hpp"
#include "tests/core/io/import_bench.hpp"

#include <stop_token>

namespace bedlore::testing {

namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

struct ReadRow {
    int line = 0;
    std::vector<std::string> cells;
    friend bool operator==(const ReadRow&, const ReadRow&) = default;
};

class CsvReaderTest : public ImportBench {
protected:
    /// All rows behind a header whose cells end at `separator`.
    std::vector<ReadRow> rows(std::string_view bytes, char separator = ',') {
        CsvReader reader(*InputFile::open(write("t.csv", bytes)));
        std::vector<ReadRow> result;
        auto step = reader.next();
        if (step && *step == CsvStep::Row) {
            step = reader.splitAgain(separator);
        }
        while (step && (*step == CsvStep::Row || *step == CsvStep::BadRow)) {
            if (*step == CsvStep::Row) {
                const auto& cells = reader.record().cells;
                result.push_back({reader.record().line, {cells.begin(), cells.end()}});
            } else {
                bad_.push_back({reader.record().line, {reader.fault().found}});
            }
            step = reader.next();
        }
        EXPECT_TRUE(step.has_value());
        last_ = step ? *step : CsvStep::Stop;
        stopped_ = {reader.record().line, {reader.fault().found}};
        return result;
    }

    std::vector<ReadRow> bad_;
    CsvStep last_ = CsvStep::End;
    ReadRow stopped_;
};

TEST_F(CsvReaderTest, ReadsLinesWhateverTheirEnd) {
    EXPECT_THAT(
        rows("a,b\n1,2\r\n3,4\r5,6"),
        ElementsAre(
            ReadRow{1, {"a", "b"}},
            ReadRow{2, {"1", "2"}},
            ReadRow{3, {"3", "4"}},
            ReadRow{4, {"5", "6"}}));
    EXPECT_EQ(last_, CsvStep::End);
}

// Source: RFC 4180, section 2, rules 5 to 7.
TEST_F(CsvReaderTest, TakesQuotedCellsWithCommasQuotesAndLineEnds) {
    EXPECT_THAT(
        rows("\"a\",\"b,c\"\r\n\"say \"\"now\"\"\",\"two\r\nlines\"\r\nlast,\"\"\r\n"),
        ElementsAre(
            ReadRow{1, {"a", "b,c"}},
            ReadRow{2, {"say \"now\"", "two\r\nlines"}},
            ReadRow{4, {"last", ""}}));
}

TEST_F(CsvReaderTest, LeavesAQuoteWithinACellAsItIs) {
    EXPECT_THAT(
        rows("a,b\n11'6\",bar 6\" high\n"),
        ElementsAre(ReadRow{1, {"a", "b"}}, ReadRow{2, {"11'6\"", "bar 6\" high"}}));
}

TEST_F(CsvReaderTest, EndsCellsAtTheSeparatorAlone) {
    EXPECT_THAT(
        rows("a;b\n1,5;\"2;0\"\n", ';'),
        ElementsAre(ReadRow{1, {"a", "b"}}, ReadRow{2, {"1,5", "2;0"}}));
    EXPECT_THAT(
        rows("a,b\n1;5,2\n", ','), ElementsAre(ReadRow{1, {"a", "b"}}, ReadRow{2, {"1;5", "2"}}));
}

TEST_F(CsvReaderTest, SkipsTheMarkAtTheBeginningAndEmptyLines) {
    EXPECT_THAT(
        rows("\xEF\xBB\xBF\n\na\n\n1\n"), ElementsAre(ReadRow{3, {"a"}}, ReadRow{5, {"1"}}));
    EXPECT_THAT(rows(""), ElementsAre());
    EXPECT_THAT(rows("\n\r\n\r"), ElementsAre());
}

TEST_F(CsvReaderTest, GivesTheSameRowsWhereverThePiecesOfTheFileEnd) {
    // Pieces are 256 KB: rows of 7 bytes with a quoted line end meet their border in every way.
    for (std::size_t pad = 0; pad < 20; ++pad) {
        std::string text = "a,b\n" + std::string(pad, 'x') + ",y\n";
        while (text.size() < 300'000) {
            text += "\"q\"\"\r\n\",2\r\n";
        }
        const auto read = rows(text);
        ASSERT_GT(read.size(), 20'000U);
        for (std::size_t i = 2; i < read.size(); ++i) {
            ASSERT_EQ(read[i], (ReadRow{static_cast<int>(2 * i) - 1, {"q\"\r\n", "2"}})) << pad;
        }
    }
}

TEST_F(CsvReaderTest, NotesARowThatIsNoUtf8AndGoesOn) {
    EXPECT_THAT(
        rows("a,b\ncaf\xE9,1\n2,3\nx,\"l\nm\xFF\"\n"),
        ElementsAre(ReadRow{1, {"a", "b"}}, ReadRow{3, {"2", "3"}}));
    EXPECT_THAT(bad_, ElementsAre(ReadRow{2, {"byte E9"}}, ReadRow{5, {"byte FF"}}));
}

TEST_F(CsvReaderTest, NotesTextBehindAClosingQuote) {
    EXPECT_THAT(
        rows("a,b\n\"x\"y,1\n\"x\" ,2\n"),
        ElementsAre(ReadRow{1, {"a", "b"}}, ReadRow{3, {"x", "2"}}));
    EXPECT_THAT(bad_, ElementsAre(ReadRow{2, {"\"x\"y,1"}}));
}

TEST_F(CsvReaderTest, StopsAtAQuoteThatIsNeverClosed) {
    EXPECT_THAT(rows("a,b\n1,2\n3,\"never\n5,6\n"), ::testing::SizeIs(2));
    EXPECT_EQ(last_, CsvStep::Stop);
    EXPECT_EQ(stopped_.line, 3);
    EXPECT_THAT(stopped_.cells.front(), HasSubstr("never closed"));

    EXPECT_THAT(rows("a,b\n1,\"" + std::string(3'000'000, 'x')), ::testing::SizeIs(1));
    EXPECT_EQ(last_, CsvStep::Stop);
    EXPECT_EQ(stopped_.line, 2);
    EXPECT_THAT(stopped_.cells.front(), HasSubstr("never closed"));
}

TEST_F(CsvReaderTest, StopsAtALineWithoutEnd) {
    EXPECT_THAT(rows("a,b\n" + std::string(30'000'000, 'x')), ::testing::SizeIs(1));
    EXPECT_EQ(last_, CsvStep::Stop);
    EXPECT_EQ(stopped_.line, 2);
    EXPECT_THAT(stopped_.cells.front(), HasSubstr("a million characters"));
}

TEST_F(CsvReaderTest, StopsAtAMillionColumns) {
    EXPECT_THAT(rows(std::string(1'000'000, ',') + "\n"), ::testing::IsEmpty());
    EXPECT_EQ(last_, CsvStep::Stop);
    EXPECT_EQ(stopped_, (ReadRow{1, {"more than 1000 columns"}}));
    EXPECT_THAT(rows("a\n" + std::string(1'000'000, ',') + "\n"), ::testing::SizeIs(1));
    EXPECT_EQ(stopped_, (ReadRow{2, {"more than 1000 columns"}}));
}

TEST_F(CsvReaderTest, StopsAtOtherEncodings) {
    using namespace std::string_view_literals;
    EXPECT_THAT(rows("\xFF\xFEs\0w\0"sv), ::testing::IsEmpty());
    EXPECT_EQ(last_, CsvStep::Stop);
    EXPECT_EQ(stopped_, (ReadRow{1, {"UTF-16 text"}}));
}

TEST_F(CsvReaderTest, ABadRowIsShownWithoutItsLineEnd) {
    for (const std::string_view end : {"\n", "\r\n", "\r"}) {
        bad_.clear();
        static_cast<void>(rows("a,b" + std::string(end) + "1,\"2\"3" + std::string(end)));
        EXPECT_THAT(bad_, ElementsAre(ReadRow{2, {"1,\"2\"3"}}));
    }
}

TEST_F(CsvReaderTest, IsStoppedAmongLinesThatSayNothing) {
    CsvReader reader(*InputFile::open(write("t.csv", "a,b\n" + std::string(5000, '\n'))));
    ASSERT_EQ(reader.next().value(), CsvStep::Row);
    ASSERT_EQ(reader.splitAgain(','), CsvStep::Row);
    std::stop_source stop;
    stop.request_stop();
    const auto stopped = reader.next(Progress(stop.get_token()));
    ASSERT_FALSE(stopped);
    EXPECT_EQ(stopped.error().fault, Fault::Cancelled);
}

} // namespace

} // namespace bedlore::testing
