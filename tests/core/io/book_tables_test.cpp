// SPDX-License-Identifier: MIT
#include "core/book/leaving_book.hpp"
#include "core/io/book_tables.hpp"
#include "core/io/csv_writer.hpp"
#include "core/io/import.hpp"
#include "core/io/plain_photo.hpp"
#include "core/io/table_layout.hpp"
#include "tests/core/io/store_support.hpp"
#include "tests/support/python.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>
#include <set>

// A whole book out as tables and in again.

namespace bedlore::testing {
namespace {

using ::testing::AllOf;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

class BookTables : public ::testing::Test {
protected:
    TempFolder folder;
    std::filesystem::path out = folder.path() / "tables";

    std::vector<std::string> write(const Book& book, std::int64_t nextId) {
        std::filesystem::remove_all(out);
        const auto names = writeBookTables(book, nextId, out);
        EXPECT_TRUE(names) << sayings(names);
        return names.value_or(std::vector<std::string>());
    }
    Result<ImportPlan>
    plan(const Book& into = {}, std::int64_t nextId = 1, BadRows badRows = BadRows::Refuse) {
        ImportOptions options;
        options.badRows = badRows;
        return planImport(into, nextId, {out}, options);
    }
    /// The book that the tables make; a test failure where they make none.
    Book read(std::int64_t* nextId = nullptr) {
        const auto planned = plan();
        EXPECT_TRUE(planned) << sayings(planned);
        if (!planned) {
            return {};
        }
        for (const BadRow& bad : planned->bad) {
            ADD_FAILURE() << bad.file << ":" << bad.line << " " << bad.field << " found "
                          << bad.found << ", expected " << bad.expected;
        }
        if (nextId != nullptr) {
            *nextId = planned->nextId;
        }
        return bookOf(planned->edits);
    }
    void replace(const std::string& file, const std::string& what, const std::string& with) {
        std::string text = bytesOf(out / file);
        const std::size_t at = text.find(what);
        ASSERT_NE(at, std::string::npos) << file << " has no " << what << ":\n" << text;
        putBytes(out / file, text.replace(at, what.size(), with));
    }
    std::vector<BadRow> refused() {
        const auto planned = plan();
        EXPECT_TRUE(planned) << sayings(planned);
        if (!planned) {
            return {};
        }
        EXPECT_TRUE(planned->refused);
        EXPECT_THAT(planned->edits, IsEmpty());
        return planned->bad;
    }
};

MATCHER_P3(isBad, file, line, field, "") {
    *result_listener << arg.file << ":" << arg.line << " " << arg.field << ", found \"" << arg.found
                     << "\", expected " << arg.expected;
    return arg.file == file && arg.line == line && arg.field == field && !arg.expected.empty();
}

// Source: invariant, there and back.
TEST_F(BookTables, BookWithEveryRecordComesBackEqual) {
    const Book book = bookOf(everyRecord());
    write(book, 40);
    std::int64_t nextId = 0;
    EXPECT_TRUE(read(&nextId) == book);
    EXPECT_EQ(nextId, 40);
}

TEST_F(BookTables, EmptyBookComesBackEmptyWithItsCounter) {
    const auto names = write({}, 7);
    // By hand: twenty types of record, the rows of fixes, the long values, the counters.
    EXPECT_EQ(names.size(), 23U);
    EXPECT_EQ(names.front(), "meta.csv");
    std::int64_t nextId = 0;
    EXPECT_TRUE(read(&nextId) == Book());
    EXPECT_EQ(nextId, 7);
}

TEST_F(BookTables, NoTableCanBeTakenForAnother) {
    const auto layouts = tableLayouts();
    for (const TableLayout& a : layouts) {
        std::set<std::string> names;
        for (const Column& column : *a.columns) {
            EXPECT_TRUE(names.insert(column.name).second) << a.name << " " << column.name;
        }
        for (const TableLayout& b : layouts) {
            const bool holdsB =
                std::all_of(b.columns->begin(), b.columns->end(), [&](const Column& column) {
                    return names.contains(column.name);
                });
            EXPECT_EQ(holdsB, &a == &b) << a.name << " and " << b.name;
        }
    }
}

/// Texts that tables are known to lose.
const std::vector<std::string>& awkwardTexts() {
    using namespace std::string_literals;
    static const std::vector<std::string> texts{
        "",
        " ",
        "  leading",
        "trailing \t",
        "a,b;c",
        "\"",
        "\"\"",
        "a\"b",
        "two\nlines",
        "cr\rlf\r\n",
        "\n",
        "'quoted",
        "=1+1",
        "+1",
        "-1",
        "@name",
        "NULL",
        "base64:",
        "½ ¼ ° ′",
        "\xEF\xBB\xBF"
        "mark",
        "nul\0in"s,
        "\xFF\xFE not",
        "1e5",
        "0012",
        "2025-04-12",
        "true",
        std::string(70'000, 'x'),
        "ä" + std::string(40'000, ' ') + "ö"};
    return texts;
}

const std::vector<double>& awkwardNumbers() {
    static const std::vector<double> numbers{
        0.0,
        -0.0,
        0.1,
        1.0 / 3.0,
        -1e-300,
        std::numeric_limits<double>::max(),
        std::numeric_limits<double>::lowest(),
        std::numeric_limits<double>::denorm_min(),
        1e16,
        -12345678.9};
    return numbers;
}

TEST_F(BookTables, AwkwardTextsAndNumbersComeBackToTheLastBit) {
    Book book;
    std::int64_t next = 1;
    for (const std::string& text : awkwardTexts()) {
        book.all<Word>().put({.id = {next++}, .text = text, .meaning = text + text});
    }
    for (const double number : awkwardNumbers()) {
        book.all<Rod>().put(
            {.id = {next++}, .name = "", .standing = Entered{number, Unit::Yard, ""}, .note = ""});
    }
    write(book, next);
    const Book back = read();
    EXPECT_TRUE(back == book);
    for (const Rod& rod : book.all<Rod>()) {
        ASSERT_NE(back.find(rod.id), nullptr);
        EXPECT_EQ(
            std::signbit(back.find(rod.id)->standing->number), std::signbit(rod.standing->number));
    }
}

Edits withoutChance(std::mt19937& random, Edits edits) {
    std::uniform_int_distribution<std::size_t> pick(0, 1'000'000);
    const auto text = [&] { return awkwardTexts()[pick(random) % awkwardTexts().size()]; };
    const auto number = [&] { return awkwardNumbers()[pick(random) % awkwardNumbers().size()]; };
    for (Edit& edit : edits) {
        std::visit(
            [&]<class Kind>(Kind& put) {
                if constexpr (requires { put.record; }) {
                    visitFields(put.record, [&]<class Field>(std::string_view name, Field& field) {
                        const bool change = name != "id" && pick(random) % 2 == 0;
                        if constexpr (std::is_same_v<Field, std::string>) {
                            field = change ? text() : field;
                        } else if constexpr (std::is_same_v<Field, std::optional<Entered>>) {
                            if (change) {
                                field = Entered{number(), Unit::Wrap, text()};
                            } else if (pick(random) % 2 == 0) {
                                field.reset();
                            }
                        } else if constexpr (requires {
                                                 field.reset();
                                                 field.has_value();
                                             }) {
                            if (change) {
                                field.reset();
                            }
                        } else if constexpr (requires { field.push_back(field.front()); }) {
                            if (change) {
                                field.clear();
                            }
                        }
                    });
                }
            },
            static_cast<Edit::Kinds&>(edit));
    }
    return edits;
}

// Source: invariant, there and back.
TEST_F(BookTables, BooksByChanceComeBackEqual) {
    for (unsigned seed = 1; seed <= 12; ++seed) {
        SCOPED_TRACE(seed);
        std::mt19937 random(seed);
        const Book book = bookOf(withoutChance(random, everyRecord()));
        write(book, 27);
        ASSERT_TRUE(read() == book);
    }
}

TEST_F(BookTables, FixesWithAndWithoutTheirColumnsComeBack) {
    Book book;
    book.all<Water>().put({.id = {1}, .name = "Harl Pit"});
    FixColumns columns;
    columns.x = {1.0, 2.0, 0.1};
    columns.y = {-0.0, 1e-9, 3.0};
    columns.depth = {1.25, 0.0, 2.0};
    columns.day = {std::numeric_limits<int>::min(), -5, std::numeric_limits<int>::max()};
    columns.sigma = {0.1F, 1e-30F, 3.0F};
    const auto all = std::make_shared<const FixColumns>(columns);
    const auto mask =
        std::make_shared<const std::vector<std::uint8_t>>(std::vector<std::uint8_t>{0, 255, 1});
    book.all<FixSet>().put({.id = {2}, .water = {1}, .name = "a", .columns = all});
    book.all<FixSet>().put(
        {.id = {3}, .water = {1}, .name = "b", .columns = all, .excluded = mask});
    book.all<FixSet>().put({.id = {4}, .water = {1}, .name = "none"});
    book.all<FixSet>().put(
        {.id = {5},
         .water = {1},
         .name = "empty",
         .columns = std::make_shared<const FixColumns>(),
         .excluded = std::make_shared<const std::vector<std::uint8_t>>()});
    write(book, 6);
    EXPECT_TRUE(read() == book);
}

// A number that is not given is kept as NaN, which equals nothing.
TEST_F(BookTables, FixesWithoutSomeErrorsComeBackAndGoInTwice) {
    Book book;
    book.all<Water>().put({.id = {1}, .name = "Harl Pit"});
    FixColumns columns;
    columns.x = {1.0, 2.0};
    columns.y = {1.0, 2.0};
    columns.depth = {1.0, 2.0};
    columns.sigma = {std::numeric_limits<float>::quiet_NaN(), 0.25F};
    book.all<FixSet>().put(
        {.id = {2}, .water = {1}, .columns = std::make_shared<const FixColumns>(columns)});
    write(book, 3);
    const Book back = read();
    ASSERT_EQ(back.all<FixSet>().size(), 1U);
    const FixColumns& found = *back.all<FixSet>().begin()->columns;
    ASSERT_EQ(found.sigma.size(), 2U);
    EXPECT_TRUE(std::isnan(found.sigma[0]));
    EXPECT_EQ(found.sigma[1], 0.25F);
    const auto again = plan(back, 3);
    ASSERT_TRUE(again) << sayings(again);
    EXPECT_THAT(again->edits, IsEmpty());
}

TEST_F(BookTables, BigPhotoIsCutIntoCellsThatEveryProgramReads) {
    Book book = bookOf(everyRecord());
    Photo photo = *book.all<Photo>().begin();
    std::string content(200'001, '\0');
    for (std::size_t i = 0; i < content.size(); ++i) {
        content[i] = static_cast<char>(i * 37 % 251);
    }
    photo.bytes = std::make_shared<const std::vector<std::byte>>(pngOf(content));
    book.all<Photo>().put(photo);
    photo.id = {30};
    photo.bytes = std::make_shared<const std::vector<std::byte>>();
    book.all<Photo>().put(photo);
    photo.id = {31};
    photo.bytes = nullptr;
    book.all<Photo>().put(photo);
    write(book, 40);
    EXPECT_TRUE(read() == book);
    for (const auto& entry : std::filesystem::directory_iterator(out)) {
        // Python's own reader, with its own limit for a cell (131,072 characters).
        const Output read =
            run(std::string(python) +
                " -c \"import csv,sys\nrows=list(csv.reader(open(sys.argv[1],"
                "newline='',encoding='utf-8')))\nassert len(set(map(len,rows)))==1\" " +
                inQuotes(entry.path()));
        EXPECT_EQ(read.status, 0) << entry.path() << read.text;
    }
}

TEST_F(BookTables, AimsThatHangOnEachOtherGoIn) {
    Book book = bookOf(everyRecord());
    Aim a = book.get(Id<Aim>{10});
    a.basis = AimLeftOf{.other = {11}};
    book.all<Aim>().put(a);
    write(book, 27);
    EXPECT_TRUE(read() == book);
}

TEST_F(BookTables, ColumnsInAnyOrderBetweenSemicolonsAndRowsInAnyOrder) {
    const Book book = bookOf(everyRecord());
    write(book, 27);
    putBytes(out / "words.csv", "meaning;note of mine;id;text\n\"gr\";x;25;gv\n");
    putBytes(out / "aims.csv", [&] {
        const std::string text = bytesOf(out / "aims.csv");
        const std::size_t first = text.find('\n') + 1;
        const std::size_t second = text.find('\n', first) + 1;
        return text.substr(0, first) + text.substr(second) + text.substr(first, second - first);
    }());
    const auto planned = plan();
    ASSERT_TRUE(planned) << sayings(planned);
    EXPECT_TRUE(bookOf(planned->edits) == book);
    EXPECT_THAT(
        planned->notices, Contains(AllOf(HasSubstr("words.csv"), HasSubstr("note of mine"))));
}

TEST_F(BookTables, EveryBadCellIsNamedWithWhatItShouldBe) {
    write(bookOf(everyRecord()), 27);
    replace("visits.csv", "2025-04-12", "12/04/2025");
    replace("readings.csv", "donk", "bonk");
    replace("photos.csv", "base64:", "base64:*");
    replace("rods.csv", "-2,yd", "nan,yd");
    const auto bad = refused();
    EXPECT_THAT(bad, Contains(isBad("visits.csv", 2, "date")));
    EXPECT_THAT(bad, Contains(isBad("readings.csv", 2, "lead_drop")));
    EXPECT_THAT(bad, Contains(isBad("photos.csv", 2, "bytes")));
    EXPECT_THAT(bad, Contains(isBad("rods.csv", 2, "standing")));
    EXPECT_EQ(bad.size(), 4U) << "what points at a bad row is not bad for that";
}

TEST_F(BookTables, RowThatPointsAtNothingIsBad) {
    write(bookOf(everyRecord()), 27);
    replace("words.csv", "25,", "26,");
    replace("pages.csv", "23,2,", "23,24,");
    const auto bad = refused();
    EXPECT_THAT(bad, Contains(isBad("pages.csv", 2, "water")));
    EXPECT_EQ(bad.size(), 1U);
}

TEST_F(BookTables, SkippingLeavesOutWhatPointsAtABadRow) {
    write(bookOf(everyRecord()), 27);
    replace("pages.csv", "23,2,", "23,zwei,");
    const auto planned = plan({}, 1, BadRows::Skip);
    ASSERT_TRUE(planned) << sayings(planned);
    EXPECT_FALSE(planned->refused);
    const Book book = bookOf(planned->edits);
    EXPECT_EQ(book.all<Page>().size(), 0U);
    EXPECT_EQ(book.all<PageLine>().size(), 0U);
    EXPECT_EQ(book.all<Reading>().size(), 1U);
    EXPECT_THAT(planned->bad, Contains(isBad("page_lines.csv", 2, "page")));
}

TEST_F(BookTables, CutOffTableAndMissingTableAreNoticed) {
    write(bookOf(everyRecord()), 27);
    const std::string answers = bytesOf(out / "answers.csv");
    putBytes(out / "answers.csv", answers.substr(0, answers.find('\n') + 1));
    std::filesystem::remove(out / "words.csv");
    const auto bad = refused();
    ASSERT_EQ(bad.size(), 2U);
    for (const BadRow& row : bad) {
        EXPECT_EQ(row.file, "meta.csv");
        EXPECT_EQ(row.field, "meta_value");
    }
}

TEST_F(BookTables, ClashWithAnotherBookIsRefusedAndTheSameIsNotTakenTwice) {
    const Book book = bookOf(everyRecord());
    write(book, 27);
    const auto same = plan(book, 27);
    ASSERT_TRUE(same) << sayings(same);
    EXPECT_THAT(same->edits, IsEmpty());
    Book other = book;
    Word word = other.get(Id<Word>{25});
    word.meaning = "si";
    other.all<Word>().put(word);
    const auto clash = plan(other, 27);
    ASSERT_FALSE(clash);
    EXPECT_THAT(clash.error().message, AllOf(HasSubstr("words 25"), HasSubstr("new book")));
    Book kin; // the id is another kind's there
    kin.all<Answer>().put({.id = {25}, .question = "q", .answer = "a"});
    EXPECT_FALSE(plan(kin, 27));
}

TEST_F(BookTables, OtherFilesAmongThemAreRefused) {
    write(bookOf(everyRecord()), 27);
    putBytes(out / "swims.csv", "swim,lat,lon,tip_height_m\nA,52,1,2\n");
    const auto mixed = plan();
    ASSERT_FALSE(mixed);
    EXPECT_THAT(mixed.error().message, HasSubstr("swims.csv"));
    std::filesystem::rename(out / "swims.csv", out / "swims.txt");
    std::filesystem::copy_file(out / "words.csv", out / "words2.csv");
    const auto twice = plan();
    ASSERT_FALSE(twice);
    EXPECT_THAT(twice.error().message, AllOf(HasSubstr("words.csv"), HasSubstr("words2.csv")));
}

TEST_F(BookTables, HostileTablesGetASentence) {
    write(bookOf(everyRecord()), 27);
    const std::filesystem::path words = out / "words.csv";
    const std::string good = bytesOf(words);
    std::string wide = "id,text,meaning";
    for (int i = 0; i < 1'000'000; ++i) {
        wide += ",c";
    }
    for (const std::string& text :
         {wide + "\n",
          std::string("id,text,meaning\n9223372036854775807,a,b\n"),
          std::string("id,text,meaning\n0,a,b\n"),
          std::string("id,text,meaning\n-1,a,b\n"),
          std::string("id,text,meaning\n25,\"a,b\n"),
          std::string("id,text,meaning\n25,a\n"),
          std::string("id,text,text,meaning\n25,a,a,b\n"),
          std::string("id,text\n25,a\n"),
          std::string("id,text,meaning\n25,a,b\n25,a,c\n"),
          std::string("id,text,meaning\n25,\xFF,b\n"),
          std::string()}) {
        putBytes(words, text);
        const auto planned = plan();
        if (planned) {
            EXPECT_TRUE(planned->refused) << text.substr(0, 80);
            EXPECT_THAT(planned->bad, Not(IsEmpty())) << text.substr(0, 80);
        } else {
            EXPECT_THAT(planned.error().message, HasSubstr("words.csv"));
        }
    }
    putBytes(words, good);
    replace("fix_sets.csv", ",2,sigma", ",9000000000000000000,sigma");
    EXPECT_THAT(refused(), Contains(isBad("fix_sets.csv", 2, "row_count")));
}

TEST_F(BookTables, NewerFormatIsRefused) {
    write({}, 1);
    replace("meta.csv", "format,", "format,9");
    const auto planned = plan();
    ASSERT_FALSE(planned);
    EXPECT_THAT(planned.error().message, HasSubstr("newer"));
}

// One cell changed at a time: an equal book, bad rows or a sentence; never a crash.
TEST_F(BookTables, AnyOneCellMayBeSpoilt) {
    const Book book = bookOf(everyRecord());
    write(book, 27);
    const std::vector<std::string> values{
        "",
        "0",
        "-1",
        "x",
        "\"[]\"",
        "null",
        "1e999",
        "999999999999999999999",
        "base64:AA=",
        "\"{\"\"by\"\":7}\""};
    std::size_t tried = 0;
    for (const TableLayout& layout : tableLayouts()) {
        const std::filesystem::path path = out / (std::string(layout.name) + ".csv");
        const std::string text = bytesOf(path);
        const std::size_t row = text.find('\n') + 1;
        const std::string line = text.substr(row, text.find('\n', row) - row);
        if (line.empty()) {
            continue;
        }
        std::vector<std::string> cells(1);
        bool quoted = false;
        for (const char c : line) {
            quoted = quoted != (c == '"');
            if (c == ',' && !quoted) {
                cells.emplace_back();
            } else {
                cells.back() += c;
            }
        }
        for (std::size_t i = 0; i < cells.size(); ++i) {
            const std::string& value = values[(tried++) % values.size()];
            std::string changed;
            for (std::size_t k = 0; k < cells.size(); ++k) {
                changed += (k > 0 ? "," : "") + (k == i ? value : cells[k]);
            }
            putBytes(path, text.substr(0, row) + changed + text.substr(row + line.size()));
            const auto planned = plan();
            if (planned && !planned->refused) {
                EXPECT_TRUE(applyEdits({}, planned->edits));
            } else if (planned) {
                EXPECT_THAT(planned->bad, Not(IsEmpty())) << layout.name << " " << changed;
            } else {
                EXPECT_THAT(planned.error().message, Not(IsEmpty()));
            }
        }
        putBytes(path, text);
    }
    EXPECT_GT(tried, 150U);
    EXPECT_TRUE(read() == book);
}

TEST_F(BookTables, FolderIsWrittenWholeOrNotAtAll) {
    std::filesystem::create_directory(out);
    const auto intoEmpty = writeBookTables({}, 1, out);
    EXPECT_TRUE(intoEmpty) << sayings(intoEmpty);
    const std::string before = bytesOf(out / "meta.csv");
    const auto again = writeBookTables(bookOf(everyRecord()), 40, out);
    ASSERT_FALSE(again);
    EXPECT_THAT(again.error().message, isASentence());
    EXPECT_EQ(bytesOf(out / "meta.csv"), before);

    const std::filesystem::path other = folder.path() / "other";
    std::stop_source stop;
    stop.request_stop();
    EXPECT_FALSE(writeBookTables({}, 1, other, Progress(stop.get_token())));
    EXPECT_FALSE(std::filesystem::exists(other));
    putBytes(other, "a file");
    EXPECT_FALSE(writeBookTables({}, 1, other));
    EXPECT_FALSE(writeBookTables({}, 1, folder.path() / "no" / "such"));
    std::size_t left = 0;
    for ([[maybe_unused]] const auto& entry : std::filesystem::directory_iterator(folder.path())) {
        ++left;
    }
    EXPECT_EQ(left, 2U) << "a draft was left behind";
}

TEST_F(BookTables, FolderWithoutTablesIsASentence) {
    std::filesystem::create_directory(out);
    putBytes(out / "notes.md", "nothing");
    const auto planned = plan();
    ASSERT_FALSE(planned);
    EXPECT_THAT(planned.error().message, AllOf(HasSubstr("no tables"), isASentence()));
}

// Source: RFC 4180, rules 5 to 7.
TEST(CsvCell, IsQuotedWhereItMustBe) {
    EXPECT_EQ(csvCell("plain"), "plain");
    EXPECT_EQ(csvCell(""), "");
    EXPECT_EQ(csvCell("a,b"), "\"a,b\"");
    EXPECT_EQ(csvCell("a\"b"), "\"a\"\"b\"");
    EXPECT_EQ(csvCell(" a"), "\" a\"");
}

TEST_F(BookTables, HoldNoNameOfWhatStaysAtHomeAndComeInAgain) {
    Book book = bookOf(everyRecord());
    book.all<PageLine>().put(
        {.id = {30}, .page = {23}, .order = 2, .text = "PINE = A 26¾", .kind = LineKind::Spot});
    book.all<PageLine>().put(
        {.id = {31}, .page = {23}, .order = 3, .text = "aim C = dead pine, past PINE"});
    const Book leaving = withoutPrivateThings(book);
    for (const std::string& name : write(leaving, 40)) {
        const std::string text = bytesOf(out / name);
        EXPECT_EQ(text.find("PINE"), std::string::npos) << name;
        EXPECT_EQ(text.find("dead pine"), std::string::npos) << name;
    }
    EXPECT_TRUE(read() == leaving);
    write(book, 40);
    EXPECT_TRUE(read() == book);
}

TEST_F(BookTables, PhotosLeaveBehindWhatACameraWroteIntoThem) {
    Book book = bookOf(everyRecord());
    Photo photo = *book.all<Photo>().begin();
    const auto before = photo.bytes;
    PhotoBytes told = *before;
    addText(told, "52.1 north, behind the picture's end");
    photo.bytes = std::make_shared<const std::vector<std::byte>>(told);
    Book toldBook = book;
    toldBook.all<Photo>().put(photo);
    write(toldBook, 40);
    EXPECT_TRUE(read() == book);
}

TEST_F(BookTables, APhotoThatIsNoPictureIsABadRow) {
    Book book = bookOf(everyRecord());
    Photo photo = *book.all<Photo>().begin();
    PhotoBytes text;
    addText(text, "a film, not a picture");
    photo.bytes = std::make_shared<const std::vector<std::byte>>(text);
    book.all<Photo>().put(photo);
    write(book, 40);
    const auto bad = refused();
    ASSERT_EQ(bad.size(), 1U);
    EXPECT_THAT(bad, Contains(isBad("photos.csv", 2, "bytes")));
    EXPECT_EQ(bad.front().expected, wantedPhoto);
}

} // namespace
} // namespace bedlore::testing
