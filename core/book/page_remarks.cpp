// SPDX-License-Identifier: MIT
#include "core/book/page_remarks.hpp"

#include "core/book/page_aim.hpp"
#include "core/book/page_header.hpp"
#include "core/book/shorthand.hpp"

#include <algorithm>
#include <cstddef>
#include <set>
#include <string_view>
#include <utility>
#include <vector>

namespace bedlore {

namespace {

constexpr std::size_t mostOffered = 4;
constexpr std::size_t mostNamed = 8;

using Labels = std::vector<std::string>;

bool contains(const Labels& labels, const std::string& label) {
    return std::find(labels.begin(), labels.end(), label) != labels.end();
}

void add(Labels& labels, const std::string& label) {
    if (!label.empty() && !contains(labels, label)) {
        labels.push_back(label);
    }
}

/// The aims that are said for a section: those of its own lines first.
Labels saidFor(const PageSection& section, const PageContext& context) {
    Labels said;
    for (const AimDraft& aim : section.aims) {
        add(said, aim.label);
        add(said, hangsOn(aim));
    }
    for (const SaidAim& aim : context.aims) {
        if (!section.swim.empty() && lowered(aim.swim) == lowered(section.swim)) {
            add(said, aim.label);
        }
    }
    return said;
}

std::string listed(const Labels& labels) {
    std::string words;
    for (std::size_t i = 0; i < std::min(labels.size(), mostNamed); ++i) {
        words += (words.empty() ? "" : ", ") + labels[i];
    }
    return labels.size() > mostNamed ? words + ", …" : words;
}

/// The line on another aim; empty where its label does not stand at its front as it was read.
std::string onAim(std::string_view line, std::string_view label, const std::string& other) {
    const std::size_t begin = std::min(line.find_first_not_of("+ \t"), line.size());
    if (lowered(line.substr(begin, label.size())) != lowered(label)) {
        return {};
    }
    return std::string(line.substr(0, begin)) + other +
           std::string(line.substr(begin + label.size()));
}

void remark(LineMeaning& meaning, std::string_view line, const std::string& label, Labels said) {
    meaning.remark = label + " is not among the aims said so far (" + listed(said) +
                     "): another name for one of them? Or write a line \"aim " + label +
                     "\" for a new one.";
    said.resize(std::min(said.size(), mostOffered));
    for (const std::string& other : said) {
        if (std::string mended = onAim(line, label, other); !mended.empty()) {
            meaning.offers.push_back(
                {.words = other + "?", .replacement = std::move(mended), .answer = {}});
        }
    }
}

} // namespace

void askAboutSlips(std::span<const std::string> lines, PageMeaning& meaning) {
    for (std::size_t i = 0; i < lines.size(); ++i) {
        LineMeaning& line = meaning.lines[i];
        const auto meant = line.kind == LineKind::Note ? misspeltHeader(lines[i]) : std::nullopt;
        if (!meant) {
            continue;
        }
        const std::string_view text = trimmedText(lines[i]);
        const std::size_t end = std::min(text.find_first_of(" \t:"), text.size());
        line.kind = LineKind::Unclear;
        line.words.clear();
        line.unclear = "did you mean \"" + std::string(*meant) + "\"?";
        line.offers = {
            {.words = std::string(*meant) + "?",
             .replacement = std::string(*meant) + std::string(text.substr(end)),
             .answer = {}},
            {.words = "only a note?", .replacement = "note " + std::string(text), .answer = {}}};
    }
}

void remarkOnUnsaidAims(
    std::span<const std::string> lines, const PageContext& context, PageMeaning& meaning) {
    std::vector<Labels> said;
    for (const PageSection& section : meaning.sections) {
        said.push_back(saidFor(section, context));
    }
    std::set<std::pair<std::size_t, std::string>> asked;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        LineMeaning& line = meaning.lines[i];
        if (line.kind != LineKind::Reading || !line.draft) {
            continue;
        }
        const CastDraft& cast = meaning.casts[meaning.readings[*line.draft].castIndex];
        const Labels& known = said[cast.section];
        const bool isSaid = known.empty() || cast.aim.empty() || contains(known, cast.aim);
        if (!isSaid && line.remark.empty() && asked.insert({cast.section, cast.aim}).second) {
            remark(line, trimmedText(lines[i]), cast.aim, known);
        }
    }
}

} // namespace bedlore
