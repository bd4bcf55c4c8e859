// SPDX-License-Identifier: MIT
#include "core/io/book_file.hpp"
#include "tests/core/io/store_support.hpp"

#include <algorithm>
#include <cstdint>
#include <random>
#include <string>
#include <sys/stat.h>
#include <vector>

// Files that are not a book, not a whole one, or not one to be trusted.

namespace bedlore {
namespace {

using testing::bookOf;
using testing::bytesOf;
using testing::everyRecord;
using ::testing::HasSubstr;
using testing::isASentence;
using testing::makeFullBook;
using testing::putBytes;
using testing::run;
using testing::sayings;
using testing::sqlite;
using testing::TempFolder;

std::string refusal(const std::filesystem::path& path, Fault fault = Fault::Input) {
    const Result<BookFile> file = BookFile::open(path);
    EXPECT_FALSE(file);
    if (file) {
        return "it was opened";
    }
    EXPECT_THAT(file.error().message, isASentence()) << file.error().context;
    EXPECT_EQ(file.error().fault, fault) << sayings(file);
    return file.error().message;
}

TEST(BookFileOpening, SaysWhatIsNotABook) {
    const TempFolder folder;
    EXPECT_THAT(refusal(folder / "none.gpkg"), HasSubstr("no book"));
    EXPECT_THAT(refusal(folder.path()), HasSubstr("is a folder, not a book. A book is one file"));
    EXPECT_THAT(refusal("/dev/null"), HasSubstr("not a file, so not a book. A book is one file"));
    ASSERT_EQ(::mkfifo((folder / "pipe.gpkg").c_str(), 0600), 0);
    EXPECT_THAT(refusal(folder / "pipe.gpkg"), HasSubstr("not a file"));
    putBytes(folder / "empty.gpkg", "");
    EXPECT_THAT(refusal(folder / "empty.gpkg"), HasSubstr("is empty"));
    EXPECT_THAT(refusal(""), isASentence());
}

TEST(BookFileOpening, SaysWhatIsGarbageAndLeavesItAlone) {
    const TempFolder folder;
    std::mt19937 random(1);
    for (const std::size_t size : {1U, 15U, 16U, 99U, 100U, 511U, 512U, 4096U, 100'000U}) {
        std::string bytes(size, '\0');
        for (char& byte : bytes) {
            byte = static_cast<char>(random() & 0xffU);
        }
        putBytes(folder / "a.gpkg", bytes);
        EXPECT_THAT(refusal(folder / "a.gpkg"), HasSubstr("not a Bedlore book")) << size;
        EXPECT_THAT(refusal(folder / "a.gpkg"), HasSubstr("with Import")) << size;
        EXPECT_EQ(bytesOf(folder / "a.gpkg"), bytes);
    }
    putBytes(folder / "a.gpkg", "SQLite format 3");
    refusal(folder / "a.gpkg");
    putBytes(folder / "a.gpkg", std::string("SQLite format 3\0", 16) + std::string(5000, '\0'));
    refusal(folder / "a.gpkg");
}

TEST(BookFileOpening, TellsOtherDatabasesFromABook) {
    const TempFolder folder;
    ASSERT_EQ(sqlite(folder / "plain.gpkg", "CREATE TABLE meta (id, format)").status, 0);
    EXPECT_THAT(refusal(folder / "plain.gpkg"), HasSubstr("not a Bedlore book"));
    putBytes(
        folder / "p.geojson",
        R"({"type":"Feature","properties":{},"geometry":{"type":"Point","coordinates":[1,2]}})");
    const auto other = folder / "other.gpkg";
    ASSERT_EQ(run("ogr2ogr " + other.string() + " " + (folder / "p.geojson").string()).status, 0);
    const std::string before = bytesOf(other);
    EXPECT_THAT(refusal(other), HasSubstr("not a Bedlore book"));
    EXPECT_TRUE(bytesOf(other) == before);
}

TEST(BookFileOpening, RefusesABookOfANewerFormat) {
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    ASSERT_EQ(sqlite(folder / "a.gpkg", "UPDATE meta SET format = 2").status, 0);
    const std::string before = bytesOf(folder / "a.gpkg");
    EXPECT_THAT(refusal(folder / "a.gpkg"), HasSubstr("newer Bedlore"));
    EXPECT_TRUE(bytesOf(folder / "a.gpkg") == before);
    ASSERT_EQ(sqlite(folder / "a.gpkg", "UPDATE meta SET format = 0").status, 0);
    refusal(folder / "a.gpkg");
}

struct Tampering {
    const char* sql;
    const char* named; ///< what the sentence must name
};

class BookFileTampering : public ::testing::TestWithParam<Tampering> {};

TEST_P(BookFileTampering, IsNamedByTableAndRow) {
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    const testing::Output done = sqlite(folder / "a.gpkg", GetParam().sql);
    ASSERT_EQ(done.status, 0) << done.text;
    const std::string sentence = refusal(folder / "a.gpkg");
    EXPECT_THAT(sentence, HasSubstr(GetParam().named));
}

INSTANTIATE_TEST_SUITE_P(
    Rows,
    BookFileTampering,
    ::testing::Values(
        Tampering{"UPDATE readings SET substrate = 'lava'", "table readings, row 13: substrate"},
        Tampering{"UPDATE readings SET line_from_unit = 'mile'", "row 13: line_from_unit"},
        Tampering{"UPDATE readings SET line_from = 9e999", "row 13: line_from: a number is not"},
        Tampering{"UPDATE readings SET line_from = 'far'", "row 13: line_from: a number is miss"},
        Tampering{"UPDATE readings SET depth = NULL", "table readings, row 13: depth_unit"},
        Tampering{"UPDATE readings SET depth_text = NULL", "row 13: depth_text"},
        Tampering{"UPDATE readings SET sureness = 99999999999", "row 13: sureness"},
        Tampering{"UPDATE readings SET about = 2", "row 13: about"},
        Tampering{"UPDATE readings SET note = x'00'", "row 13: note"},
        Tampering{"UPDATE readings SET on_lead = '[1]'", "table readings, row 13: on_lead"},
        Tampering{"UPDATE readings SET on_lead = '{'", "row 13: on_lead: the text in it"},
        Tampering{"UPDATE readings SET cast_record = 99", "table cast_records, row 99"},
        Tampering{"UPDATE readings SET source_file = 99", "table imported_files, row 99"},
        Tampering{"UPDATE readings SET id = -13", "table readings, row -13"},
        Tampering{"UPDATE visits SET date = '2025-02-30'", "table visits, row 9: date"},
        Tampering{"UPDATE visits SET date = '12 April'", "table visits, row 9: date"},
        // What stands there is shown as text, whatever it is.
        Tampering{"UPDATE visits SET date = CAST(x'32B131' AS TEXT)", "date: \"2\uFFFD1\" is not"},
        Tampering{"UPDATE aims SET basis = '{}' WHERE id = 11", "table aims, row 11: basis"},
        Tampering{
            "UPDATE aims SET basis = replace(basis, '10,', '99,') WHERE id = 11",
            "table aims, row 99"},
        Tampering{"UPDATE spots SET place = '[' WHERE id = 15", "table spots, row 15: place"},
        Tampering{"UPDATE waters SET position_lon = NULL", "table waters, row 2: position_lon"},
        Tampering{"UPDATE swim_records SET place_east = 1", "row 3: place_east"},
        Tampering{"UPDATE fix_sets SET columns_y = x'00'", "table fix_sets, row 14: columns_"},
        Tampering{"UPDATE fix_sets SET columns_x = zeroblob(8)", "row 14: columns_"},
        Tampering{"UPDATE fix_sets SET columns_cover = x'0909'", "row 14: columns_"},
        Tampering{"UPDATE fix_sets SET excluded = x'01'", "row 14: excluded"},
        Tampering{"DELETE FROM swim_records", "table swim_records, row 3"}));

INSTANTIATE_TEST_SUITE_P(
    Tables,
    BookFileTampering,
    ::testing::Values(
        Tampering{"DROP TABLE readings", "tables of a Bedlore book"},
        Tampering{"ALTER TABLE readings DROP COLUMN note", "tables of a Bedlore book"},
        Tampering{"DELETE FROM meta", "tables of a Bedlore book"},
        Tampering{"UPDATE meta SET next_id = 'many'", "counters"},
        Tampering{"UPDATE meta SET next_id = 0", "counters"},
        Tampering{"UPDATE meta SET next_id = 9223372036854775807", "counters"},
        Tampering{"UPDATE meta SET edit_number = 9223372036854775807", "counters"},
        Tampering{"UPDATE meta SET edit_number = -1", "counters"},
        // The largest id that can be read: the next one could not.
        Tampering{"UPDATE answers SET id = 9007199254740992", "counters"},
        Tampering{"CREATE VIEW peep AS SELECT * FROM spots", "peep"},
        Tampering{
            "DROP TABLE words; CREATE VIEW words AS SELECT 1 AS id, 'a' AS text, 'b' AS meaning",
            "view of another program"},
        Tampering{
            "CREATE TRIGGER eat AFTER INSERT ON readings BEGIN DELETE FROM spots; END", "eat"},
        Tampering{
            "CREATE TRIGGER rtree_readings_geom_insert AFTER INSERT ON readings BEGIN DELETE FROM "
            "spots; END",
            "rtree_readings_geom_insert"},
        Tampering{"CREATE VIRTUAL TABLE search USING fts5(text)", "search"},
        Tampering{"CREATE VIEW \"p\u0085p\" AS SELECT * FROM spots", "(\"p\uFFFDp\")"},
        Tampering{"CREATE VIRTUAL TABLE rtree_a_geom USING fts5(text)", "rtree_a_geom"}));

TEST(BookFileOpening, RefusesAKnownTriggerThatDoesSomethingElse) {
    const TempFolder folder;
    {
        Result<BookFile> file = BookFile::create(folder / "a.gpkg");
        ASSERT_TRUE(file) << sayings(file);
        ASSERT_TRUE(file->write(everyRecord(), 27));
        ASSERT_TRUE(file->writeDerived({}));
    }
    std::filesystem::copy_file(folder / "a.gpkg", folder / "b.gpkg");
    ASSERT_EQ(
        sqlite(
            folder / "a.gpkg",
            "CREATE TRIGGER rtree_soundings_geom_insert AFTER INSERT ON soundings BEGIN DELETE "
            "FROM words; END")
            .status,
        0);
    EXPECT_THAT(refusal(folder / "a.gpkg"), HasSubstr("trigger of another program"));
    ASSERT_EQ(
        sqlite(
            folder / "b.gpkg",
            "CREATE TRIGGER rtree_soundings_geom_delete AFTER DELETE ON soundings BEGIN SELECT "
            "zeroblob(1000000000); END")
            .status,
        0);
    EXPECT_THAT(refusal(folder / "b.gpkg"), HasSubstr("trigger of another program"));
}

TEST(BookFileOpening, LeavesTablesAndColumnsOfHisOwnInPeace) {
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    ASSERT_EQ(
        sqlite(
            folder / "a.gpkg",
            "CREATE TABLE mine (id INTEGER PRIMARY KEY, text TEXT); ALTER TABLE readings ADD "
            "COLUMN mine TEXT; UPDATE readings SET mine = 'x'")
            .status,
        0);
    Result<BookFile> file = BookFile::open(folder / "a.gpkg");
    ASSERT_TRUE(file) << sayings(file);
    EXPECT_TRUE(file->book() == bookOf(everyRecord()));
    ASSERT_TRUE(file->write(everyRecord(), 27));
    EXPECT_EQ(sqlite(folder / "a.gpkg", "SELECT mine FROM readings").text, "x\n");
}

/// Opens a copy of a damaged book: a sentence, or the very records.
void expectSentenceOrBook(const std::filesystem::path& path, const std::string& what) {
    SCOPED_TRACE(what);
    Result<BookFile> file = BookFile::open(path, BookAccess::ReadOnly);
    if (!file) {
        EXPECT_THAT(file.error().message, isASentence());
    } else {
        EXPECT_TRUE(file->book() == bookOf(everyRecord()));
    }
}

TEST(BookFileDamage, TruncatedBookIsASentenceNeverPartOfTheBook) {
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    const std::string whole = bytesOf(folder / "a.gpkg");
    std::vector<std::size_t> sizes{1, 16, 100, 101, 511, 512, 1023, 1024};
    for (std::size_t size = 4096; size < whole.size(); size += 4096) {
        sizes.push_back(size - 1);
        sizes.push_back(size);
        sizes.push_back(size + 1000);
    }
    for (const std::size_t size : sizes) {
        putBytes(folder / "b.gpkg", whole.substr(0, size));
        const Result<BookFile> file = BookFile::open(folder / "b.gpkg", BookAccess::ReadOnly);
        ASSERT_FALSE(file) << size;
        EXPECT_THAT(file.error().message, isASentence()) << size;
        EXPECT_EQ(file.error().fault, Fault::Input) << size;
    }
}

TEST(BookFileDamage, LastBytesThatAreMissingAreDamageWhateverTheyHeld) {
    // With tables for other programs the last page may hold nothing that a check sum covers, and
    // SQLite reads what is missing of it as zeros.
    const TempFolder folder;
    {
        Result<BookFile> file = BookFile::create(folder / "a.gpkg");
        ASSERT_TRUE(file) << sayings(file);
        ASSERT_TRUE(file->write(everyRecord(), 27));
        ASSERT_TRUE(file->writeDerived({}));
    }
    const std::string whole = bytesOf(folder / "a.gpkg");
    for (const std::size_t missing : {1U, 2U, 100U, 4095U}) {
        putBytes(folder / "b.gpkg", whole.substr(0, whole.size() - missing));
        EXPECT_THAT(refusal(folder / "b.gpkg"), HasSubstr("is damaged")) << missing;
    }
}

TEST(BookFileDamage, FlippedBitsAreASentenceOrABook) {
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    const std::string whole = bytesOf(folder / "a.gpkg");
    constexpr unsigned seed = 20250412;
    std::mt19937 random(seed);
    std::vector<std::size_t> offsets;
    for (std::size_t i = 0; i < 100; ++i) { // the whole header
        offsets.push_back(i);
    }
    for (std::size_t i = 0; i < 200; ++i) { // cells of the schema and of every table
        offsets.push_back(100 + random() % (whole.size() - 100));
    }
    // Only bytes with something in them besides: most of a page is free space.
    for (std::size_t i = 0; i < 200;) {
        const std::size_t at = 100 + random() % (whole.size() - 100);
        if (whole[at] != '\0') {
            offsets.push_back(at);
            ++i;
        }
    }
    for (const std::size_t at : offsets) {
        std::string damaged = whole;
        const unsigned bit = random() % 8;
        damaged[at] = static_cast<char>(static_cast<unsigned char>(damaged[at]) ^ (1U << bit));
        putBytes(folder / "b.gpkg", damaged);
        expectSentenceOrBook(
            folder / "b.gpkg", "byte " + std::to_string(at) + ", bit " + std::to_string(bit));
    }
}

TEST(BookFileDamage, PagesOfNoiseAreASentenceOrABook) {
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    const std::string whole = bytesOf(folder / "a.gpkg");
    std::mt19937 random(7);
    for (std::size_t page = 0; page + 4096 <= whole.size(); page += 4096) {
        std::string damaged = whole;
        for (std::size_t i = page == 0 ? 100 : 0; i < 4096; ++i) {
            damaged[page + i] = static_cast<char>(random() & 0xffU);
        }
        putBytes(folder / "b.gpkg", damaged);
        expectSentenceOrBook(folder / "b.gpkg", "page " + std::to_string(page / 4096));
    }
}

TEST(BookFileDamage, IntegritySaysWhatIsWrong) {
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    Result<BookFile> file = BookFile::open(folder / "a.gpkg");
    ASSERT_TRUE(file) << sayings(file);
    EXPECT_EQ(file->integrity(), "ok");
    ASSERT_EQ(sqlite(folder / "a.gpkg", "DELETE FROM swim_records").status, 0);
    EXPECT_THAT(file->integrity(), HasSubstr("table visits, row 9"));
}

} // namespace
} // namespace bedlore
