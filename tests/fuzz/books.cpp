// SPDX-License-Identifier: MIT
#include "tests/fuzz/books.hpp"

#include "core/io/book_file.hpp"
#include "tests/fuzz/must.hpp"
#include "tests/fuzz/promises.hpp"
#include "tests/fuzz/scratch.hpp"
#include "tests/support/sample_records.hpp"

#include <sqlite3.h>

namespace bedlore::fuzz {

namespace {

using namespace std::chrono;

MadeBook made(Edits edits) {
    MadeBook result;
    result.book = mustApply(Book{}, edits);
    result.nextId = largestId(edits) + 1;
    result.edits = std::move(edits);
    return result;
}

Edits leanedOn() {
    Edits edits;
    edits.emplace_back(
        Put<Water>{{.id = {1}, .name = "Harl Pit", .planeOrigin = GeographicPoint{52.2, -1.2}}});
    edits.emplace_back(Put<Reel>{
        {.id = {2},
         .name = "big",
         .calibration = {{.turns = 50.0, .distance = {49.0, Unit::Metre, "49 m"}}}}});
    edits.emplace_back(
        Put<Mark>{{.id = {3}, .water = {1}, .name = "dead pine", .place = Point{-80.0, 60.0}}});
    edits.emplace_back(Put<Word>{{.id = {4}, .text = "cobs", .meaning = "rk"}});
    edits.emplace_back(Put<Answer>{{.id = {5}, .question = "11.6 ft", .answer = "inches"}});
    return edits;
}

Edits withAVisit() {
    Edits edits = leanedOn();
    edits.emplace_back(
        Put<Swim>{{.id = {6}, .water = {1}, .name = "A", .place = GeographicPoint{52.2, -1.2}}});
    edits.emplace_back(Put<Visit>{{.id = {7}, .swim = {6}, .date = year{2025} / April / 12}});
    edits.emplace_back(Put<Cast>{
        {.id = {8},
         .visit = {7},
         .order = 1,
         .name = "1",
         .bearing = BearingEntry{{49.0, Unit::Degree, "49"}, North::True}}});
    for (int i = 1; i <= 2; ++i) {
        Reading reading;
        reading.id = {8 + i};
        reading.cast = {8};
        reading.order = i;
        reading.from = {40.0 - i, Unit::Metre, std::to_string(40 - i)};
        edits.emplace_back(Put<Reading>{std::move(reading)});
    }
    return edits;
}

/// Smaller pages: more of a change hits something.
void shrink(const std::filesystem::path& path) {
    sqlite3* database = nullptr;
    must(sqlite3_open(path.c_str(), &database) == SQLITE_OK, "a book is an SQLite file");
    const int code =
        sqlite3_exec(database, "PRAGMA page_size = 512; VACUUM", nullptr, nullptr, nullptr);
    must(code == SQLITE_OK, "a book can be made smaller");
    sqlite3_close(database);
}

} // namespace

const MadeBook& bookToTypeInto() {
    static const MadeBook book = made(leanedOn());
    return book;
}

const MadeBook& bookToImportInto() {
    static const MadeBook book = made(withAVisit());
    return book;
}

const std::string& bytesOfABook() {
    static const std::string bytes = [] {
        const Edits edits = testing::everyRecord();
        const std::filesystem::path path = scratch() / "base.gpkg";
        {
            auto file = BookFile::create(path);
            must(file.has_value(), "a book can be made");
            must(file->write(edits, largestId(edits) + 1).has_value(), "a book can be written");
        }
        shrink(path);
        std::string all = bytesOf(path);
        std::error_code ignored;
        std::filesystem::remove(path, ignored);
        return all;
    }();
    return bytes;
}

} // namespace bedlore::fuzz
