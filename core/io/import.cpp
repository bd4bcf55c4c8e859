// SPDX-License-Identifier: MIT
#include "core/io/import.hpp"

#include "core/io/book_tables.hpp"
#include "core/io/import_counts.hpp"
#include "core/io/import_file.hpp"
#include "core/io/import_folder.hpp"
#include "core/io/import_levels.hpp"
#include "core/io/import_preview_rows.hpp"
#include "core/io/import_session.hpp"
#include "core/io/import_text.hpp"

#include <algorithm>
#include <chrono>
#include <numeric>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>

namespace bedlore {

namespace {

/// Reads every file before anything is decided, so that all faults are told at once.
Result<std::vector<ParsedFile>>
parseAll(const std::vector<std::filesystem::path>& files, const Progress& progress) {
    std::vector<ParsedFile> parsed;
    std::optional<Error> error;
    const auto count = static_cast<double>(files.size());
    for (std::size_t i = 0; i < files.size(); ++i) {
        const auto at = static_cast<double>(i);
        auto file = parseImportFile(files[i], progress.part(at / count, (at + 1.0) / count));
        if (file) {
            parsed.push_back(std::move(*file));
        } else if (file.error().fault == Fault::Cancelled) {
            return fail(file.error());
        } else if (!error) {
            error = std::move(file).error();
        } else {
            error->message += "\n" + file.error().message;
        }
    }
    if (error) {
        return fail(std::move(*error));
    }
    return parsed;
}

/// For each file why it would be in the book twice: it was imported before, or is named twice.
std::vector<std::string> againWords(const Book& book, const std::vector<ParsedFile>& files) {
    std::vector<std::string> words(files.size());
    for (std::size_t i = 0; i < files.size(); ++i) {
        if (files[i].sha256.empty()) {
            continue;
        }
        for (const ImportedFile& known : book.all<ImportedFile>()) {
            if (known.sha256 == files[i].sha256) {
                words[i] = files[i].name + " was imported before, as " + known.name + ".";
            }
        }
        for (std::size_t k = 0; k < i && words[i].empty(); ++k) {
            if (files[k].sha256 == files[i].sha256) {
                words[i] = files[i].name + " and " + files[k].name + " are the same file.";
            }
        }
    }
    return words;
}

std::optional<Error>
whyNotAgain(const std::vector<std::string>& again, const ImportOptions& options) {
    std::string message;
    for (const std::string& why : again) {
        message += (message.empty() || why.empty() ? "" : "\n") + why;
    }
    if (options.again == SameFileAgain::Allow || message.empty()) {
        return std::nullopt;
    }
    return inputError(message + " " + options.adviceForAgain);
}

/// The water that everything goes into, made where the book has none of that name.
Result<void> chooseWater(ImportSession& session, const std::optional<std::string>& name) {
    const Book& book = session.book();
    if (name && name->empty()) {
        return fail(inputError("A water needs a name."));
    }
    const Water* known = name ? findWater(book, *name) : nullptr;
    if (!name && book.all<Water>().size() == 1) {
        known = &*book.all<Water>().begin();
    }
    if (known != nullptr) {
        session.setWater(known->id);
        return {};
    }
    if (!name && !book.all<Water>().empty()) {
        std::string names;
        for (const Water& water : book.all<Water>()) {
            names += (names.empty() ? "" : ", ") + water.name;
        }
        return fail(
            {.fault = Fault::Usage,
             .message = "The book holds more than one water (" + names +
                        "). Say which one the files belong to."});
    }
    const Id<Water> id = session.ids().take<Water>();
    session.setWater(id);
    if (!name) {
        session.notice("The book has no water yet: what is taken in goes to one named \"The "
                       "water\". It can be renamed.");
    }
    Water water;
    water.id = id;
    water.name = name.value_or("The water");
    return session.put(std::move(water));
}

/// Where a file stands in the order that the contents need: a reel before the turns counted on it,
/// whatever says where the water lies before a compass bearing, a visit before a later one.
struct Rank {
    int stage = 0;
    std::chrono::sys_days day{};
    friend auto operator<=>(const Rank&, const Rank&) = default;
};

struct RankOf {
    Rank operator()(const std::monostate&) const { return {.stage = 9}; }
    Rank operator()(const ReelRows&) const { return {.stage = 0}; }
    Rank operator()(const SwimRows& rows) const { return {.stage = rows.geographic ? 1 : 2}; }
    Rank operator()(const FixRows& rows) const {
        return {.stage = rows.frame == FixFrame::Geographic ? 3 : 4};
    }
    Rank operator()(const ShoreOutlines&) const { return {.stage = 5}; }
    Rank operator()(const ReadingRows& rows) const {
        Rank rank{.stage = 6, .day = std::chrono::sys_days::max()};
        for (const ReadingRow& row : rows.rows) {
            rank.day = std::min(rank.day, std::chrono::sys_days(row.date));
        }
        return rank;
    }
    Rank operator()(const PageText& page) const {
        return {
            .stage = 6,
            .day = page.date ? std::chrono::sys_days(*page.date) : std::chrono::sys_days::max()};
    }
};

std::vector<std::size_t> orderOf(const std::vector<ParsedFile>& files) {
    std::vector<Rank> ranks;
    ranks.reserve(files.size());
    for (const ParsedFile& file : files) {
        ranks.push_back(std::visit(RankOf{}, file.content));
    }
    std::vector<std::size_t> order(files.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return ranks[a] < ranks[b];
    });
    return order;
}

struct Planner {
    ImportSession& session;
    ParsedFile& file;
    Id<ImportedFile> record;

    Result<void> operator()(std::monostate) const { return {}; }
    Result<void> operator()(const ReelRows&) const { return planReels(session, file); }
    Result<void> operator()(const SwimRows&) const { return planSwims(session, file); }
    Result<void> operator()(const FixRows&) const { return planFixes(session, file, record); }
    Result<void> operator()(const ShoreOutlines&) const { return planShoreline(session, file); }
    Result<void> operator()(const ReadingRows&) const {
        return planReadings(session, file, record);
    }
    Result<void> operator()(const PageText&) const { return planPage(session, file, record); }
};

Result<void> planFile(ImportSession& session, ParsedFile& file) {
    for (std::string& notice : file.notices) {
        session.notice(std::move(notice));
    }
    if (file.faults.fileIsUnusable()) {
        return {};
    }
    const auto record = session.ids().take<ImportedFile>();
    if (auto put =
            session.put(ImportedFile{.id = record, .name = file.name, .sha256 = file.sha256});
        !put) {
        return put;
    }
    return std::visit(Planner{session, file, record}, file.content);
}

/// `previews` has one for each file, to be filled with up to `previewRows` lines.
Result<void> planAll(
    ImportSession& session,
    std::vector<ParsedFile>& files,
    std::size_t previewRows,
    std::vector<FilePreview>& previews) {
    bool originLooked = false;
    for (const std::size_t i : orderOf(files)) {
        // The first swims of an import are all of its swims, whatever file they stand in.
        const Rank rank = std::visit(RankOf{}, files[i].content);
        if (!originLooked && rank.stage > 1) {
            originLooked = true;
            if (auto set = setOriginFromSwims(session); !set) {
                return set;
            }
        }
        if (previewRows > 0) {
            previews[i] = previewOf(files[i], session, previewRows);
        }
        if (auto planned = planFile(session, files[i]); !planned) {
            return planned;
        }
        markBadRows(previews[i], files[i].faults);
    }
    return originLooked ? Result<void>{} : setOriginFromSwims(session);
}

/// They repeat names and lines of files that may hold anything.
void makeShowable(std::vector<std::string>& notices) {
    for (std::string& notice : notices) {
        notice = shownSentence(notice);
    }
}

/// Gathers the faults; whether anything stands in the way of the import.
bool gatherFaults(const std::vector<ParsedFile>& files, BadRows badRows, ImportPlan& plan) {
    bool refused = false;
    for (const ParsedFile& file : files) {
        const std::vector<BadRow> rows = file.faults.rows();
        plan.bad.insert(plan.bad.end(), rows.begin(), rows.end());
        if (file.faults.leftOut() > 0) {
            plan.notices.push_back(
                file.name + ": " + std::to_string(file.faults.leftOut()) +
                " more bad rows are not listed.");
        }
        refused = refused || file.faults.fileIsUnusable() ||
                  (badRows == BadRows::Refuse && !rows.empty());
    }
    return refused;
}

} // namespace

std::size_t rowsIn(const std::vector<BadRow>& bad) {
    std::set<std::pair<std::string_view, int>> rows;
    for (const BadRow& row : bad) {
        rows.emplace(row.file, row.line);
    }
    return rows.size();
}

Result<ImportPlan> planImport(
    const Book& book,
    std::int64_t nextId,
    const std::vector<std::filesystem::path>& files,
    const ImportOptions& options,
    const Progress& progress) {
    if (files.empty()) {
        return fail({.fault = Fault::Usage, .message = "No file to import was named."});
    }
    const auto inFolders = filesIn(files);
    if (!inFolders) {
        return fail(inFolders.error());
    }
    auto tables = planBookTables(book, nextId, *inFolders, options, progress);
    if (!tables) {
        return fail(std::move(tables).error());
    }
    if (*tables) {
        return **std::move(tables);
    }
    auto parsed = parseAll(*inFolders, progress.part(0.0, 0.8));
    if (!parsed) {
        return fail(std::move(parsed).error());
    }
    const std::vector<std::string> again = againWords(book, *parsed);
    if (auto error = whyNotAgain(again, options)) {
        return fail(std::move(*error));
    }
    ImportSession session(book, nextId);
    if (auto chosen = chooseWater(session, options.water); !chosen) {
        return fail(std::move(chosen).error());
    }
    ImportPlan plan;
    plan.files.resize(parsed->size());
    if (auto planned = planAll(session, *parsed, options.previewRows, plan.files); !planned) {
        return fail(std::move(planned).error());
    }
    if (progress.cancelled()) {
        return fail(cancelledError());
    }
    for (std::size_t i = 0; i < again.size(); ++i) {
        plan.files[i].name = (*parsed)[i].name;
        plan.files[i].again = again[i];
    }
    plan.nextId = nextId;
    plan.refused = gatherFaults(*parsed, options.badRows, plan);
    plan.canSkipBad = !plan.bad.empty() &&
                      std::none_of(parsed->begin(), parsed->end(), [](const ParsedFile& file) {
                          return file.faults.fileIsUnusable();
                      });
    if (!plan.refused) {
        // What would have been made is not told of an import that makes nothing.
        plan.notices.insert(
            plan.notices.begin(), session.notices().begin(), session.notices().end());
        for (std::string& sentence : missingLevelWords(book, session.book())) {
            plan.notices.push_back(std::move(sentence));
        }
        plan.edits = std::move(session.edits());
        plan.nextId = session.ids().next();
        plan.counts = countNew(book, session.book());
        plan.assumed = std::move(session.assumed());
    }
    makeShowable(plan.notices);
    progress.at(1.0);
    return plan;
}

} // namespace bedlore
