// SPDX-License-Identifier: MIT
#include "gui/document/level_mark.hpp"

#include "core/book/shorthand.hpp"
#include "core/reduction/water_level.hpp"
#include "core/units/format.hpp"

#include <utility>

namespace bedlore {

namespace {

constexpr double highestStep = 5.0; // [m] higher than any step that is climbed is a slip

/// Empty where none is typed.
Result<std::optional<Entered>> readStepHeight(const std::string& typed) {
    const std::string text(trimmedText(typed));
    if (text.empty()) {
        return std::optional<Entered>();
    }
    auto measure = readMeasure(text, std::nullopt);
    const auto height = measure ? fixedLength(*measure) : std::nullopt;
    if (!height || !(*height / metre > 0.0) || !(*height / metre <= highestStep)) {
        return fail(inputError(
            "\"" + text +
            "\" is no height of a step: a length with its unit, as in \"6 in\" or \"15 cm\"."));
    }
    return measure;
}

/// As `readStepHeight` reads it back: a table's column says the unit for all of its numbers.
std::string typedHeight(const Entered& height) {
    const bool says = readMeasure(height.text, std::nullopt).has_value();
    return says ? height.text : printEntered(height);
}

} // namespace

TypedLevelMark typedLevelMark(const Water& water) {
    const LevelReference& mark = water.levelReference;
    return {
        .words = mark.words,
        .stepHeight = mark.stepHeight ? typedHeight(*mark.stepHeight) : std::string(),
        .counts = mark.counts};
}

std::string takenLevelWords(const TypedLevelMark& typed, Unit unit) {
    const auto height = readStepHeight(typed.stepHeight);
    if (!height) {
        return height.error().message;
    }
    if (!*height) {
        return "Steps give no height until it is said how high one is; a level in metres or feet "
               "needs none.";
    }
    const Entered two{2.0, Unit::Step, "2 steps"};
    const auto level =
        measuredLevel(two, {.words = typed.words, .stepHeight = *height, .counts = typed.counts});
    if (!level) {
        return {};
    }
    const Length above = level->level.aboveDatum;
    const bool higher = above > Length{};
    return "\"level 2 steps\" says that the water stands " +
           printLength(higher ? above : -above, unit) + (higher ? " higher" : " lower") +
           " than at \"level 0 steps\".";
}

Result<Edits> putLevelMark(const Book& book, Id<Water> id, const TypedLevelMark& typed) {
    const Water& former = book.get(id);
    const TypedLevelMark before = typedLevelMark(former);
    Water water = former;
    if (typed.words != before.words) {
        water.levelReference.words = std::string(trimmedText(typed.words));
    }
    if (typed.stepHeight != before.stepHeight) {
        auto height = readStepHeight(typed.stepHeight);
        if (!height) {
            return fail(std::move(height).error());
        }
        water.levelReference.stepHeight = *std::move(height);
    }
    water.levelReference.counts = typed.counts;
    Edits edits;
    if (water != former) {
        edits.emplace_back(Put<Water>{std::move(water)});
    }
    return edits;
}

} // namespace bedlore
