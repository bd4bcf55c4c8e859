// SPDX-License-Identifier: MIT
#include "app/runs.hpp"

#include "core/reduction/reduction.hpp"

#include <new>
#include <utility>
#include <vector>

namespace bedlore {

namespace {

/// "A", "A and B", "A, B and C".
std::string listed(const std::vector<std::string>& names) {
    std::string text;
    for (std::size_t i = 0; i < names.size(); ++i) {
        const bool last = i + 1 == names.size();
        text += i == 0 ? "" : (last ? " and " : ", ");
        text += names[i];
    }
    return text;
}

std::vector<std::string> waterNames(const Book& book) {
    std::vector<std::string> names;
    for (const Water& water : book.all<Water>()) {
        names.push_back("\"" + water.name + "\"");
    }
    return names;
}

/// Stopped, it leaves the rest where they are.
void placeOn(const BedSurface& surface, Reduction& reduction, const Progress& progress) {
    placeByBed(reduction, [&](Point place) -> std::optional<BedLevel> {
        if (progress.cancelled()) {
            return std::nullopt;
        }
        const BedEstimate bed = surface.at(place);
        if (!bed.known) {
            return std::nullopt;
        }
        return BedLevel{bed.level * metre};
    });
}

/// Every water's notes in their places.
Result<std::vector<Reduction>> reduceAll(const Book& book, const Progress& progress) {
    constexpr std::size_t quicklyFitted = 2000;
    std::vector<Reduction> reductions;
    for (const Water& water : book.all<Water>()) {
        auto reduction = reduce(book, {.water = water.id, .alone = {}}, progress);
        if (!reduction) {
            return fail(reduction.error());
        }
        if (hasToBePlacedByBed(*reduction) && reduction->soundings.size() <= quicklyFitted) {
            if (const auto surface = BedSurface::fit(*reduction, progress)) {
                placeOn(*surface, *reduction, progress);
            }
        }
        reductions.push_back(*std::move(reduction));
    }
    return reductions;
}

} // namespace

Result<BookFile> openToRead(const std::filesystem::path& path, Console& console) {
    auto file = BookFile::open(path, BookAccess::ReadOnly);
    if (file) {
        for (const std::string& notice : file->notices()) {
            console.note(notice);
        }
    }
    return file;
}

Result<Id<Water>> chooseWater(const Book& book, const std::optional<std::string>& name) {
    const auto& waters = book.all<Water>();
    if (name) {
        const Water* water = findWater(book, *name);
        if (water == nullptr) {
            return fail(inputError(
                "There is no water \"" + *name + "\" in this book" +
                (waters.empty() ? "." : "; it has " + listed(waterNames(book)) + ".")));
        }
        return water->id;
    }
    if (waters.empty()) {
        return fail(inputError("This book holds no water yet: take readings in first."));
    }
    if (waters.size() > 1) {
        return fail(
            {.fault = Fault::Usage,
             .message = "This book holds more than one water: say which with --water (" +
                        listed(waterNames(book)) + ")."});
    }
    return waters.begin()->id;
}

Result<std::optional<Id<Swim>>>
chooseSwim(const Book& book, Id<Water> water, const std::optional<std::string>& name) {
    if (!name) {
        return std::optional<Id<Swim>>();
    }
    const Swim* swim = findSwim(book, water, *name);
    if (swim == nullptr) {
        std::vector<std::string> names;
        for (const Swim* known : swimsOf(book, water)) {
            names.push_back("\"" + known->name + "\"");
        }
        return fail(inputError(
            "There is no swim \"" + *name + "\" on this water" +
            (names.empty() ? "." : "; it has " + listed(names) + ".")));
    }
    return std::optional(swim->id);
}

Result<MappedWater> mapWater(
    const Book& book, const ReductionScope& scope, std::optional<double> level, Console& console) {
    const Progress progress = console.progress("Working out the bed");
    auto reduction = reduce(book, scope, progress.part(0.0, 0.1));
    if (!reduction) {
        return fail(reduction.error());
    }
    auto surface = BedSurface::fit(*reduction, progress.part(0.1, 1.0));
    if (!surface) {
        return fail(surface.error());
    }
    for (const std::string& note : surface->notes()) {
        console.note(note);
    }
    placeOn(*surface, *reduction, progress);
    if (progress.cancelled()) {
        return fail(cancelledError());
    }
    const WaterLevel at = level ? WaterLevel{*level * metre} : latestLevel(*reduction);
    return MappedWater{
        .reduction = *std::move(reduction), .surface = *std::move(surface), .level = at};
}

std::vector<ReductionNotice> writeTables(BookFile& file, const Book& book, Console& console) {
    std::vector<ReductionNotice> notices;
    try {
        const Progress progress = console.progress("Writing the tables for other programs");
        const auto reductions = reduceAll(book, progress);
        if (!reductions) {
            return notices;
        }
        for (const Reduction& reduction : *reductions) {
            notices.insert(notices.end(), reduction.notices.begin(), reduction.notices.end());
        }
        const auto written = file.writeDerived(*reductions, progress);
        if (!written && written.error().fault != Fault::Cancelled) {
            console.note(written.error().message);
        }
    } catch (const std::bad_alloc&) {
        console.note("There was not enough memory to write the tables for other programs. The "
                     "book itself is whole.");
    }
    return notices;
}

} // namespace bedlore
