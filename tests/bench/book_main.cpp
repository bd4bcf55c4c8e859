// SPDX-License-Identifier: MIT
#include "core/io/book_file.hpp"
#include "core/reduction/reduction.hpp"
#include "tests/support/temp_folder.hpp"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <memory>
#include <string>
#include <utility>
#include <vector>

// What the book costs: one reading kept, a lifetime's readings kept at once and taken back, their
// book opened, the layers for other programs written, a million fixes kept and read.

namespace {

using namespace bedlore;

double milliseconds(const std::function<void()>& work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    const std::chrono::duration<double, std::milli> taken =
        std::chrono::steady_clock::now() - start;
    return taken.count();
}

void say(const char* what, std::vector<double> times) {
    std::sort(times.begin(), times.end());
    const std::size_t n = times.size();
    std::printf(
        "%-40s median %8.2f ms   95 %% %8.2f ms   (%zu)\n",
        what,
        times[n / 2],
        times[n * 95 / 100],
        n);
}

template <class T>
T must(Result<T> result) {
    if (!result) {
        std::fprintf(stderr, "%s\n", result.error().message.c_str());
        std::exit(1);
    }
    if constexpr (!std::is_void_v<T>) {
        return std::move(*result);
    }
}

Reading readingNumber(std::int64_t id, Id<Cast> cast, int order) {
    const double line = 60.0 - 2.0 * order;
    return {
        .id = {id},
        .cast = cast,
        .order = order,
        .from = {line, Unit::Metre, std::to_string(line)},
        .depth = DepthEntry{.value = {3.5, Unit::Metre, "3.5"}},
        .drop = Drop::Donk,
        .onLead = {OnLead::Grit},
        .substrate = Substrate::Gravel};
}

/// Readings on casts of ten, in visits of a hundred, in one swim.
Edits readings(int count) {
    using namespace std::chrono;
    Edits edits;
    std::int64_t id = 1;
    edits.emplace_back(Put<Water>{{.id = {id++}, .name = "Long Pit"}});
    edits.emplace_back(Put<Swim>{
        {.id = {id++}, .water = {1}, .name = "Point", .place = GeographicPoint{56.0, 3.0}}});
    Id<Visit> visit;
    Id<Cast> cast;
    sys_days day{year{2020} / 1 / 1};
    for (int i = 0; i < count; ++i) {
        if (i % 100 == 0) {
            visit = {id++};
            edits.emplace_back(Put<Visit>{
                {.id = visit,
                 .swim = {2},
                 .date = day,
                 .tipHeight = Entered{2.0, Unit::Metre, "2"}}});
            day += days{1};
        }
        if (i % 10 == 0) {
            cast = {id++};
            const double bearing = i / 10 % 36 * 10.0;
            edits.emplace_back(Put<Cast>{
                {.id = cast,
                 .visit = visit,
                 .order = i / 10,
                 .bearing = BearingEntry{{bearing, Unit::Degree, std::to_string(bearing)}}}});
        }
        edits.emplace_back(Put<Reading>{readingNumber(id++, cast, i % 10)});
    }
    return edits;
}

void oneReading(const testing::TempFolder& folder, int before) {
    const auto path = folder / ("one" + std::to_string(before) + ".gpkg");
    BookFile file = must(BookFile::create(path));
    const Edits edits = readings(before);
    std::int64_t id = largestId(edits) + 1;
    must(file.write(edits, id));
    const Id<Cast> cast{4};
    std::vector<double> times;
    for (int i = 0; i < 200; ++i, ++id) {
        times.push_back(milliseconds(
            [&] { must(file.write({Put<Reading>{readingNumber(id, cast, 10 + i)}}, id + 1)); }));
    }
    const std::string what = "one reading kept, book of " + std::to_string(before);
    say(what.c_str(), times);
}

void wholeBook(const testing::TempFolder& folder, int count) {
    const auto path = folder / ("whole" + std::to_string(count) + ".gpkg");
    const std::string of = " of " + std::to_string(count);
    const Edits edits = readings(count);
    {
        BookFile file = must(BookFile::create(path));
        say(("all kept at once," + of).c_str(),
            {milliseconds([&] { must(file.write(edits, largestId(edits) + 1)); })});
    }
    const Applied applied = must(applyEdits({}, edits));
    say(("all taken back," + of).c_str(),
        {milliseconds([&] { must(applyEdits(applied.book, applied.inverse)); })});
    std::vector<double> opening;
    for (int i = 0; i < 7; ++i) {
        opening.push_back(milliseconds([&] { must(BookFile::open(path)); }));
    }
    say(("book opened," + of).c_str(), opening);
    BookFile file = must(BookFile::open(path));
    const std::vector<Reduction> reductions{
        must(reduce(file.book(), {.water = {1}, .alone = std::nullopt}))};
    say(("layers written," + of).c_str(),
        {milliseconds([&] { must(file.writeDerived(reductions)); })});
    say(("copied," + of).c_str(),
        {milliseconds([&] { must(file.copyTo(path.string() + ".copy")); })});
}

void fixes(const testing::TempFolder& folder, std::size_t count) {
    FixColumns columns;
    for (std::size_t i = 0; i < count; ++i) {
        columns.x.push_back(3.0 + static_cast<double>(i % 1000) * 1e-6);
        columns.y.push_back(56.0 + static_cast<double>(i / 1000) * 1e-6);
        columns.depth.push_back(2.0 + static_cast<double>(i % 7) * 0.1);
    }
    const Edits edits{
        Put<Water>{{.id = {1}, .name = "Wide Water"}},
        Put<FixSet>{
            {.id = {2},
             .water = {1},
             .name = "boat",
             .columns = std::make_shared<const FixColumns>(std::move(columns))}}};
    const auto path = folder / "fixes.gpkg";
    BookFile file = must(BookFile::create(path));
    say("a million fixes kept", {milliseconds([&] { must(file.write(edits, 3)); })});
    say("their book opened",
        {milliseconds([&] { must(BookFile::open(path, BookAccess::ReadOnly)); })});
    const Book book = must(BookFile::open(path, BookAccess::ReadOnly)).book();
    const std::vector<Reduction> reductions{
        must(reduce(book, {.water = {1}, .alone = std::nullopt}))};
    say("their layer written", {milliseconds([&] { must(file.writeDerived(reductions)); })});
}

} // namespace

int main() {
    const bedlore::testing::TempFolder folder;
    oneReading(folder, 250);
    oneReading(folder, 15'000);
    wholeBook(folder, 15'000);
    wholeBook(folder, 100'000);
    fixes(folder, 1'000'000);
    return 0;
}
