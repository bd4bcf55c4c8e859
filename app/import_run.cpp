// SPDX-License-Identifier: MIT
#include "app/runs.hpp"
#include "core/io/import.hpp"
#include "core/reduction/reduction.hpp"

#include <nlohmann/json.hpp>
#include <set>
#include <system_error>
#include <utility>
#include <vector>

namespace bedlore {

namespace {

using Json = nlohmann::ordered_json;

/// What the run came to, whether it went through or not.
struct Attempt {
    ImportPlan plan;
    std::vector<std::string> notes; ///< about what was taken in
    std::optional<Error> error;
};

Json asJson(const ImportPlan& plan) {
    Json bad = Json::array();
    for (const BadRow& row : plan.bad) {
        bad.push_back(
            {{"file", row.file},
             {"line", row.line},
             {"field", row.field},
             {"found", row.found},
             {"expected", row.expected}});
    }
    return {
        {"swims", plan.counts.swims},
        {"casts", plan.counts.casts},
        {"readings", plan.counts.readings},
        {"fixes", plan.counts.fixes},
        {"reels", plan.counts.reels},
        {"shorelines", plan.counts.shorelines},
        {"assumed", plan.assumed},
        {"bad", bad}};
}

std::string counted(std::size_t number, const char* one, const char* many) {
    return std::to_string(number) + " " + (number == 1 ? one : many);
}

std::string inWords(const ImportCounts& counts) {
    return "Taken in: " + counted(counts.swims, "swim", "swims") + ", " +
           (counts.swimsChanged > 0 ? counted(
                                          counts.swimsChanged,
                                          "known swim brought up to date",
                                          "known swims brought up to date") +
                                          ", "
                                    : "") +
           counted(counts.casts, "cast", "casts") + ", " +
           counted(counts.readings, "reading", "readings") + ", " +
           counted(counts.fixes, "fix", "fixes") +
           (counts.reels > 0 ? ", " + counted(counts.reels, "reel", "reels") : "") +
           (counts.shorelines > 0 ? ", " + counted(counts.shorelines, "shoreline", "shorelines") +
                                        " of " + counted(counts.shorePoints, "point", "points")
                                  : "") +
           ".";
}

std::string inWords(const BadRow& row) {
    std::string text = row.file + ", line " + std::to_string(row.line);
    text += row.field.empty() ? ": " : ", " + row.field + ": ";
    return text + "found \"" + row.found + "\", expected " + row.expected + ".";
}

/// A book made for an import that then fails does not stay behind.
class NewBook {
public:
    explicit NewBook(std::optional<std::filesystem::path> path)
        : path_(std::move(path)) {}
    ~NewBook() {
        if (path_) {
            std::error_code ignored;
            std::filesystem::remove(*path_, ignored);
        }
    }
    NewBook(const NewBook&) = delete;
    NewBook& operator=(const NewBook&) = delete;
    NewBook(NewBook&&) = delete;
    NewBook& operator=(NewBook&&) = delete;
    void keep() { path_.reset(); }

private:
    std::optional<std::filesystem::path> path_;
};

/// What is said of records that this import made or changed; the rest was said before.
std::vector<std::string>
aboutTheNew(const std::vector<ReductionNotice>& notices, const Change& change) {
    constexpr std::size_t mostSaid = 100;
    const std::set<AnyId> touched(change.touched.begin(), change.touched.end());
    std::vector<std::string> sentences;
    std::size_t more = 0;
    for (const ReductionNotice& notice : notices) {
        if (!notice.about || !touched.contains(*notice.about)) {
            continue;
        }
        if (sentences.size() < mostSaid) {
            sentences.push_back(notice.sentence);
        } else {
            ++more;
        }
    }
    if (more > 0) {
        sentences.push_back(
            "There is more of this kind: " + counted(more, "sentence is", "sentences are") +
            " not listed.");
    }
    return sentences;
}

/// Gives what there is to say about the readings.
Result<std::vector<std::string>> write(BookFile& file, const ImportPlan& plan, Console& console) {
    auto applied = applyEdits(file.book(), plan.edits);
    if (!applied) {
        return fail(applied.error());
    }
    if (console.interrupted()) {
        return fail(cancelledError());
    }
    if (auto written = file.write(plan.edits, plan.nextId, console.progress("Writing the book"));
        !written) {
        return fail(written.error());
    }
    return aboutTheNew(writeTables(file, applied->book, console), applied->change);
}

Result<ImportPlan>
plan(const ImportCommand& command, const Book& book, std::int64_t nextId, Console& console) {
    auto planned = planImport(
        book,
        nextId,
        command.files,
        {.water = command.water,
         .badRows = command.skipBad ? BadRows::Skip : BadRows::Refuse,
         .again = command.again ? SameFileAgain::Allow : SameFileAgain::Refuse,
         .adviceForAgain = "Give --again if its readings are meant twice."},
        console.progress("Reading the files"));
    if (planned && planned->isWholeBook && command.water) {
        return fail(
            {.fault = Fault::Usage,
             .message = "These are the tables of a whole book, which name their own waters: leave "
                        "--water out."});
    }
    return planned;
}

Attempt intoNewBook(const ImportCommand& command, Console& console) {
    auto planned = plan(command, Book(), 1, console);
    if (!planned) {
        return {.plan = {}, .notes = {}, .error = planned.error()};
    }
    if (planned->refused) {
        return {.plan = *std::move(planned), .notes = {}, .error = {}};
    }
    auto file = BookFile::create(command.book);
    if (!file) {
        return {.plan = {}, .notes = {}, .error = file.error()};
    }
    NewBook made(command.book);
    auto notes = write(*file, *planned, console);
    if (!notes) {
        return {.plan = {}, .notes = {}, .error = notes.error()};
    }
    if (console.interrupted()) {
        return {.plan = {}, .notes = {}, .error = cancelledError()};
    }
    made.keep();
    return {.plan = *std::move(planned), .notes = *std::move(notes), .error = {}};
}

Attempt intoOldBook(const ImportCommand& command, Console& console) {
    auto file = BookFile::open(command.book, BookAccess::ReadWrite);
    if (!file) {
        return {.plan = {}, .notes = {}, .error = file.error()};
    }
    for (const std::string& notice : file->notices()) {
        console.note(notice);
    }
    if (!file->isWritable()) {
        return {
            .plan = {},
            .notes = {},
            .error = machineError("This book cannot be written to, so nothing was taken in.")};
    }
    auto planned = plan(command, file->book(), file->nextId(), console);
    if (!planned) {
        return {.plan = {}, .notes = {}, .error = planned.error()};
    }
    if (planned->refused) {
        return {.plan = *std::move(planned), .notes = {}, .error = {}};
    }
    auto notes = write(*file, *planned, console);
    if (!notes) {
        return {.plan = {}, .notes = {}, .error = notes.error()};
    }
    if (console.interrupted() && file->derivedIsStale()) {
        console.note("Everything is in the book. Stopped before the tables for other programs were "
                     "written.");
    }
    return {.plan = *std::move(planned), .notes = *std::move(notes), .error = {}};
}

void say(const Attempt& attempt, ResultForm form, Console& console) {
    const ImportPlan& plan = attempt.plan;
    for (const auto* sentences : {&plan.notices, &attempt.notes}) {
        for (const std::string& sentence : *sentences) {
            console.note(sentence);
        }
    }
    for (const BadRow& row : plan.bad) {
        console.note(inWords(row));
    }
    if (plan.refused) {
        console.note(
            plan.canSkipBad
                ? "Nothing was taken in: " + counted(rowsIn(plan.bad), "row", "rows") +
                      " cannot be used. Mend them, or leave them out with --skip-bad."
                : "Nothing was taken in, because a file cannot be used as a whole. Mend it, or "
                  "leave it out.");
    }
    if (form == ResultForm::Json) {
        return;
    }
    for (const std::string& assumed : plan.assumed) {
        console.result(assumed);
    }
    if (!plan.refused) {
        console.result(inWords(plan.counts));
    }
}

} // namespace

ExitStatus runImport(const ImportCommand& command, ResultForm form, Console& console) {
    std::error_code none;
    const bool there = std::filesystem::exists(std::filesystem::symlink_status(command.book, none));
    Attempt attempt = there ? intoOldBook(command, console) : intoNewBook(command, console);
    ExitStatus status = attempt.plan.refused ? ExitStatus::InputAtFault : ExitStatus::Done;
    if (attempt.error) {
        status = console.fault(*attempt.error);
    } else {
        say(attempt, form, console);
    }
    if (form == ResultForm::Json) {
        console.result(asJson(attempt.plan).dump(-1, ' ', false, Json::error_handler_t::replace));
    }
    return status;
}

} // namespace bedlore
