// SPDX-License-Identifier: MIT
#include "app/runs.hpp"
#include "core/io/import.hpp"
#include "core/reduction/reduction.hpp"

#include <nlohmann/json.hpp>
#include <system_error>
#include <utility>
#include <vector>

namespace bedlore {

namespace {

using Json = nlohmann::ordered_json;

/// What the run came to, whether it went through or not.
struct Attempt {
    ImportPlan plan;
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
        {"assumed", plan.assumed},
        {"bad", bad}};
}

std::string counted(std::size_t number, const char* one, const char* many) {
    return std::to_string(number) + " " + (number == 1 ? one : many);
}

std::string inWords(const ImportCounts& counts) {
    return "Taken in: " + counted(counts.swims, "swim", "swims") + ", " +
           counted(counts.casts, "cast", "casts") + ", " +
           counted(counts.readings, "reading", "readings") + ", " +
           counted(counts.fixes, "fix", "fixes") + ".";
}

std::string inWords(const BadRow& row) {
    std::string text = row.file + ", line " + std::to_string(row.line);
    text += row.field.empty() ? ": " : ", " + row.field + ": ";
    return text + "found \"" + row.found + "\", expected " + row.expected + ".";
}

/// The tables for other programs are a by-product: if they cannot be made the book is whole all the
/// same, and the next one who writes them does.
void writeDerived(BookFile& file, const Book& book, Console& console) {
    std::vector<Reduction> reductions;
    for (const Water& water : book.all<Water>()) {
        auto mapped = mapWater(book, {.water = water.id, .alone = {}}, {}, console);
        if (!mapped) {
            return;
        }
        reductions.push_back(std::move(mapped->reduction));
    }
    if (const auto written = file.writeDerived(reductions); !written) {
        console.note(written.error().message);
    }
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

Result<void> write(BookFile& file, const ImportPlan& plan, Console& console) {
    auto applied = applyEdits(file.book(), plan.edits);
    if (!applied) {
        return fail(applied.error());
    }
    if (console.interrupted()) {
        return fail(cancelledError());
    }
    if (auto written = file.write(plan.edits, plan.nextId); !written) {
        return written;
    }
    writeDerived(file, applied->book, console);
    return {};
}

Result<ImportPlan>
plan(const ImportCommand& command, const Book& book, std::int64_t nextId, Console& console) {
    return planImport(
        book,
        nextId,
        command.files,
        {.water = command.water,
         .badRows = command.skipBad ? BadRows::Skip : BadRows::Refuse,
         .again = command.again ? SameFileAgain::Allow : SameFileAgain::Refuse},
        console.progress("Reading the files"));
}

Attempt intoNewBook(const ImportCommand& command, Console& console) {
    auto planned = plan(command, Book(), 1, console);
    if (!planned) {
        return {.plan = {}, .error = planned.error()};
    }
    if (planned->refused) {
        return {.plan = *std::move(planned), .error = {}};
    }
    auto file = BookFile::create(command.book);
    if (!file) {
        return {.plan = {}, .error = file.error()};
    }
    NewBook made(command.book);
    if (auto written = write(*file, *planned, console); !written) {
        return {.plan = {}, .error = written.error()};
    }
    made.keep();
    return {.plan = *std::move(planned), .error = {}};
}

Attempt intoOldBook(const ImportCommand& command, Console& console) {
    auto file = BookFile::open(command.book, BookAccess::ReadWrite);
    if (!file) {
        return {.plan = {}, .error = file.error()};
    }
    for (const std::string& notice : file->notices()) {
        console.note(notice);
    }
    if (!file->isWritable()) {
        return {
            .plan = {},
            .error = machineError("This book cannot be written to, so nothing was taken in.")};
    }
    auto planned = plan(command, file->book(), file->nextId(), console);
    if (!planned) {
        return {.plan = {}, .error = planned.error()};
    }
    if (!planned->refused) {
        if (auto written = write(*file, *planned, console); !written) {
            return {.plan = {}, .error = written.error()};
        }
    }
    return {.plan = *std::move(planned), .error = {}};
}

void say(const ImportPlan& plan, ResultForm form, Console& console) {
    for (const std::string& notice : plan.notices) {
        console.note(notice);
    }
    for (const BadRow& row : plan.bad) {
        console.note(inWords(row));
    }
    if (plan.refused) {
        console.note(
            "Nothing was taken in: " + counted(plan.bad.size(), "row", "rows") +
            " cannot be used. Mend them, or leave them out with --skip-bad.");
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
        say(attempt.plan, form, console);
    }
    if (form == ResultForm::Json) {
        console.result(asJson(attempt.plan).dump(-1, ' ', false, Json::error_handler_t::replace));
    }
    return status;
}

} // namespace bedlore
