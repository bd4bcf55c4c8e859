// SPDX-License-Identifier: MIT
#include "core/io/book_file.hpp"
#include "gui/document/bed_map.hpp"
#include "gui/document/bed_picture.hpp"

#include <QGuiApplication>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <memory>
#include <string>
#include <vector>

// What the window's worker does after an edit: the bed of a swim from its notes, step by step.
// Usage: bedlore_bench_rebuild BOOK [readings]   (the sample's book; 250 readings if not said)

namespace {

using namespace bedlore;

/// `book` with no more than `most` readings: the first of each cast go last.
Book withReadings(Book book, std::size_t most) {
    std::vector<Id<Reading>> ids;
    for (const Reading& reading : book.all<Reading>()) {
        ids.push_back(reading.id);
    }
    // From the end, so that whole visits stay as they are.
    while (ids.size() > most) {
        book.all<Reading>().remove(ids.back());
        ids.pop_back();
    }
    return book;
}

void say(const char* what, std::vector<double> times) {
    std::sort(times.begin(), times.end());
    std::printf(
        "%-24s median %7.1f ms   worst %7.1f ms\n", what, times[times.size() / 2], times.back());
}

template <class T>
T must(Result<T> result) {
    if (!result) {
        std::fprintf(stderr, "%s\n", result.error().message.c_str());
        std::exit(1);
    }
    return std::move(*result);
}

int run(const std::filesystem::path& path, std::size_t most) {
    const BookFile file = must(BookFile::open(path, BookAccess::ReadOnly));
    const auto book = std::make_shared<const Book>(withReadings(file.book(), most));
    const BedRequest request{
        .water = book->all<Water>().begin()->id, .swim = book->all<Swim>().begin()->id};
    constexpr int times = 15;
    std::vector<double> reducing;
    std::vector<double> fitting;
    std::vector<double> whole;
    std::vector<double> drawing;
    std::size_t soundings = 0;
    std::size_t cells = 0;
    for (int i = 0; i < times; ++i) {
        const auto since = [](auto start) {
            const std::chrono::duration<double, std::milli> taken =
                std::chrono::steady_clock::now() - start;
            return taken.count();
        };
        auto start = std::chrono::steady_clock::now();
        const Reduction reduction =
            must(reduce(*book, {.water = request.water, .alone = std::nullopt}));
        reducing.push_back(since(start));
        start = std::chrono::steady_clock::now();
        const BedSurface surface = must(BedSurface::fit(reduction));
        fitting.push_back(since(start));
        start = std::chrono::steady_clock::now();
        const auto map = must(makeBedMap(book, request));
        const auto picture = drawBed(map, {});
        whole.push_back(since(start));
        start = std::chrono::steady_clock::now();
        static_cast<void>(drawBed(map, {}));
        drawing.push_back(since(start));
        soundings = surface.soundingCount();
        cells = map->grid.frame().size();
    }
    std::printf("%zu soundings, %zu cells\n", soundings, cells);
    say("notes to soundings", reducing);
    say("the bed's unknowns", fitting);
    say("drawing, ready to paint", drawing);
    say("the whole rebuild", whole);
    return 0;
}

} // namespace

int main(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    const QGuiApplication app(argc, argv);
    if (argc < 2) {
        std::fprintf(stderr, "usage: bedlore_bench_rebuild BOOK [readings]\n");
        return 2;
    }
    return run(argv[1], argc > 2 ? std::stoul(argv[2]) : 250);
}
