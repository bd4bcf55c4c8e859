// SPDX-License-Identifier: MIT
#include "tests/fuzz/promises.hpp"

#include "core/io/book_file.hpp"
#include "core/io/import_text.hpp"
#include "core/reduction/reduction.hpp"
#include "tests/fuzz/must.hpp"
#include "tests/fuzz/scratch.hpp"

#include <cmath>
#include <string>

namespace bedlore::fuzz {

namespace {

void mustBeFinite(const Reduction& reduction) {
    for (const Sounding& sounding : reduction.soundings) {
        must(
            std::isfinite(sounding.place.east) && std::isfinite(sounding.place.north) &&
                std::isfinite(sounding.level.aboveDatum / metre) &&
                std::isfinite(sounding.levelSigma / metre) &&
                std::isfinite(sounding.placeSigma / metre),
            "a sounding has a place, a level and errors of both");
        must(sounding.levelSigma >= 0.0 * metre, "an error is no less than zero");
    }
    for (const PlacedReading& reading : reduction.readings) {
        if (reading.place) {
            must(
                std::isfinite(reading.place->east) && std::isfinite(reading.place->north) &&
                    std::isfinite(reading.alongSigma / metre) &&
                    std::isfinite(reading.acrossSigma / metre),
                "a placed reading has a place and errors of it");
        }
    }
    for (const ReductionNotice& notice : reduction.notices) {
        mustBeASentence(notice.sentence);
    }
}

void mustBeRefused(const ImportPlan& plan, std::int64_t nextId) {
    must(plan.edits.empty(), "a refused import plans nothing");
    must(plan.counts == ImportCounts{}, "a refused import counts nothing");
    must(plan.nextId == nextId, "a refused import takes no ids");
    must(!plan.bad.empty(), "a refused import says why");
}

void mustBeKnown(const std::vector<BadRow>& bad, const std::string& file) {
    for (const BadRow& row : bad) {
        must(row.file == file, "a bad row names its file", row.file);
        must(row.line >= 1, "a bad row names its line");
        must(!row.expected.empty(), "a bad row says what was expected");
        mustBeShowable(row.field);
        mustBeShowable(row.found);
        mustBeShowable(row.expected);
    }
}

} // namespace

void mustBeShowable(std::string_view words) {
    must(!firstBadByte(words), "what is shown is UTF-8", words);
    must(!hasControlCharacters(words), "what is shown obeys no terminal", words);
}

void mustBeASentence(std::string_view words) {
    must(words.size() > 8, "an error is a sentence", words);
    must(words.back() == '.' || words.back() == '?', "a sentence ends", words);
    must(!firstBadByte(words), "a sentence is UTF-8", words);
}

Book mustApply(const Book& book, const Edits& edits) {
    const auto applied = applyEdits(book, edits);
    must(
        applied.has_value(),
        "what is planned can be carried out",
        applied ? "" : applied.error().message + " " + applied.error().context);
    const auto back = applyEdits(applied->book, applied->inverse);
    must(back.has_value(), "what is done can be undone");
    must(back->book == book, "undoing leads back exactly");
    return applied->book;
}

void mustReduce(const Book& book) {
    for (const Water& water : book.all<Water>()) {
        const auto whole = reduce(book, {.water = water.id, .alone = std::nullopt});
        if (whole) {
            mustBeFinite(*whole);
        } else {
            mustBeASentence(whole.error().message);
        }
        for (const Swim* swim : swimsOf(book, water.id)) {
            const auto alone = reduce(book, {.water = water.id, .alone = swim->id});
            if (alone) {
                mustBeFinite(*alone);
            }
        }
    }
}

void mustBeStored(const Book& book, const Edits& edits, std::int64_t nextId) {
    const std::filesystem::path path = scratch() / "stored.gpkg";
    std::error_code ignored;
    std::filesystem::remove(path, ignored);
    {
        auto file = BookFile::create(path);
        must(file.has_value(), "a book can be made");
        const auto written = file->write(edits, nextId);
        must(
            written.has_value(),
            "what fits the book fits its file",
            written ? "" : written.error().message + " " + written.error().context);
    }
    const auto file = BookFile::open(path, BookAccess::ReadOnly);
    must(
        file.has_value(),
        "what was written can be opened",
        file ? "" : file.error().message + " " + file.error().context);
    must(file->book() == book, "what was written is read back");
}

std::optional<ImportPlan>
mustImport(const Book& book, std::int64_t nextId, const std::filesystem::path& file) {
    const std::string name = file.filename().string();
    const auto plan = planImport(book, nextId, {file}, {});
    if (!plan) {
        mustBeASentence(plan.error().message);
        return std::nullopt;
    }
    mustBeKnown(plan->bad, name);
    for (const std::string& notice : plan->notices) {
        mustBeShowable(notice);
    }
    if (plan->refused) {
        mustBeRefused(*plan, nextId);
        ImportOptions skipping;
        skipping.badRows = BadRows::Skip;
        const auto rest = planImport(book, nextId, {file}, skipping);
        must(rest.has_value(), "bad rows are left out or tell why they cannot be");
        must(rest->refused != plan->canSkipBad, "what can be skipped is known before");
        if (!rest->refused) {
            static_cast<void>(mustApply(book, rest->edits));
        }
        return std::nullopt;
    }
    must(plan->bad.empty(), "an import with a bad row is refused");
    must(largestId(plan->edits) < plan->nextId, "no id is given twice");
    const Book after = mustApply(book, plan->edits);
    const auto again = planImport(after, plan->nextId, {file}, {});
    must(!again.has_value(), "the same file is not taken twice");
    mustBeASentence(again.error().message);
    return *plan;
}

} // namespace bedlore::fuzz
