// SPDX-License-Identifier: MIT
#include "app/runs.hpp"
#include "core/reduction/reduction.hpp"
#include "core/units/format.hpp"

#include <nlohmann/json.hpp>
#include <utility>

// `check` and `info`: what can be said of a book as a whole.

namespace bedlore {

namespace {

using Json = nlohmann::ordered_json;

Json checkResult(const std::string& integrity) {
    return {{"integrity", integrity}, {"suspects", Json::array()}, {"visits", Json::array()}};
}

struct Counts {
    std::size_t fixes = 0;
    std::size_t soundings = 0;
};

Result<Counts> countAll(const Book& book, Console& console) {
    Counts counts;
    for (const FixSet& set : book.all<FixSet>()) {
        counts.fixes += set.columns ? set.columns->depth.size() : 0;
    }
    for (const Water& water : book.all<Water>()) {
        const auto reduction =
            reduce(book, {.water = water.id, .alone = {}}, console.progress("Reading the notes"));
        if (!reduction) {
            return fail(reduction.error());
        }
        counts.soundings += reduction->soundings.size();
    }
    return counts;
}

std::string counted(std::size_t number, const char* one, const char* many) {
    return std::to_string(number) + " " + (number == 1 ? one : many);
}

void describe(const Book& book, const Counts& counts, Console& console) {
    for (const Water& water : book.all<Water>()) {
        console.result(water.name.empty() ? std::string("A water without a name") : water.name);
        for (const Swim* swim : swimsOf(book, water.id)) {
            console.result("  swim " + swim->name);
        }
        for (const Visit* visit : visitsOf(book, water.id)) {
            const std::string level =
                visit->level ? ", level " + printEntered(*visit->level) : ", no level noted";
            console.result(
                "  " + isoDate(visit->date) + " at " + book.get(visit->swim).name + level);
        }
    }
    console.result(
        counted(book.all<Cast>().size(), "cast", "casts") + ", " +
        counted(book.all<Reading>().size(), "reading", "readings") + ", " +
        counted(counts.fixes, "fix", "fixes") + "; " +
        counted(counts.soundings, "place", "places") + " with a depth; " +
        counted(book.all<Spot>().size(), "spot", "spots") + ".");
}

} // namespace

ExitStatus runCheck(const CheckCommand& command, ResultForm form, Console& console) {
    auto file = openToRead(command.book, console);
    if (!file) {
        const ExitStatus status = console.fault(file.error());
        if (form == ResultForm::Json && status == ExitStatus::InputAtFault) {
            console.result(checkResult(file.error().message)
                               .dump(-1, ' ', false, Json::error_handler_t::replace));
        }
        return status;
    }
    const std::string integrity = file->integrity();
    const bool whole = integrity == "ok";
    if (form == ResultForm::Json) {
        console.result(checkResult(integrity).dump(-1, ' ', false, Json::error_handler_t::replace));
    } else if (whole) {
        console.result("The book is whole: every record can be read and fits the others.");
        console.result(
            "Whether readings or visits disagree is not looked at yet: that part is not built.");
    }
    if (!whole) {
        return console.fault(inputError("The book is damaged: " + integrity));
    }
    return ExitStatus::Done;
}

ExitStatus runInfo(const InfoCommand& command, ResultForm form, Console& console) {
    const auto file = openToRead(command.book, console);
    if (!file) {
        return console.fault(file.error());
    }
    const Book& book = file->book();
    const auto counts = countAll(book, console);
    if (!counts) {
        return console.fault(counts.error());
    }
    if (form == ResultForm::Words) {
        describe(book, *counts, console);
        return ExitStatus::Done;
    }
    console.result(Json{
        {"waters", book.all<Water>().size()},
        {"swims", book.all<Swim>().size()},
        {"visits", book.all<Visit>().size()},
        {"casts", book.all<Cast>().size()},
        {"readings", book.all<Reading>().size()},
        {"fixes", counts->fixes},
        {"soundings", counts->soundings},
        {"spots", book.all<Spot>().size()},
        {"format",
         bookFormat}}.dump(-1, ' ', false, Json::error_handler_t::replace));
    return ExitStatus::Done;
}

} // namespace bedlore
