// SPDX-License-Identifier: MIT
#include "core/io/book_file.hpp"
#include "core/io/import_text.hpp"
#include "tests/fuzz/books.hpp"
#include "tests/fuzz/must.hpp"
#include "tests/fuzz/promises.hpp"
#include "tests/fuzz/scratch.hpp"
#include "tests/fuzz/tampering.hpp"

#include <string>

// A book's file of any bytes at all, or a sound one that was tampered with: opened, checked,
// reduced, written to and opened again.

namespace bedlore::fuzz {

namespace {

void mustOpenUnchanged(const std::filesystem::path& path, const std::string& bytes) {
    {
        auto file = BookFile::open(path, BookAccess::ReadOnly);
        if (!file) {
            mustBeASentence(file.error().message);
        } else {
            must(!file->integrity().empty(), "a check has a result");
            mustReduce(file->book());
        }
    }
    must(bytesOf(path) == bytes, "a book that is only read stays as it is");
}

/// What a write said is kept is there.
void mustKeep(const std::filesystem::path& path) {
    Book expected;
    {
        auto file = BookFile::open(path);
        if (!file) {
            return;
        }
        must(file->isWritable(), "a book of one's own can be written");
        const Id<Answer> id{file->nextId()};
        Edits edits;
        edits.emplace_back(Put<Answer>{{.id = id, .question = "q", .answer = "a"}});
        const auto applied = applyEdits(file->book(), edits);
        must(applied.has_value(), "a new record fits any book");
        if (const auto written = file->write(edits, id.value + 1); !written) {
            mustBeASentence(written.error().message);
            return;
        }
        expected = applied->book;
    }
    const auto again = BookFile::open(path);
    must(again.has_value(), "what was written can be opened", again ? "" : again.error().message);
    must(again->book() == expected, "what was written is there");
}

} // namespace

} // namespace bedlore::fuzz

// The name is libFuzzer's.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace bedlore::fuzz;
    const std::filesystem::path path = scratch() / "book.gpkg";
    tamper(path, textOf(data, size));
    mustOpenUnchanged(path, bytesOf(path));
    mustKeep(path);
    return 0;
}
