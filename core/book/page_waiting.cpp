// SPDX-License-Identifier: MIT
#include "core/book/page_waiting.hpp"

#include <cstddef>

namespace bedlore {

namespace {

struct Waiting {
    std::size_t readings = 0;
    std::size_t firstLine = 0; ///< counted from 1
};

std::string inWords(const Waiting& waiting, const PageSection& section) {
    const bool swim = section.swim.empty();
    const bool date = !section.date;
    const std::string swimLine = "\"swim P14\"";
    const std::string dateLine = "\"date 2025-04-12\"";
    const std::string what = missingHeaders(section);
    const std::string lines = swim && date ? "lines like " + swimLine + " and " + dateLine
                                           : "a line like " + (swim ? swimLine : dateLine);
    const std::string from = std::to_string(waiting.firstLine);
    return waiting.readings == 1
               ? "The reading on line " + from + " waits for " + what + ": put " + lines +
                     " above it."
               : "The " + std::to_string(waiting.readings) + " readings from line " + from +
                     " on wait for " + what + ": put " + lines + " above them.";
}

} // namespace

std::string missingHeaders(const PageSection& section) {
    if (section.swim.empty()) {
        return section.date ? "a swim" : "a swim and a date";
    }
    return section.date ? "" : "a date";
}

std::vector<std::string> waitingWords(const PageMeaning& meaning, const SaidByPage& said) {
    std::vector<Waiting> waiting(said.visits.size());
    for (std::size_t i = 0; i < meaning.lines.size(); ++i) {
        const LineMeaning& line = meaning.lines[i];
        if (line.kind != LineKind::Reading || !line.draft) {
            continue;
        }
        const CastDraft& cast = meaning.casts[meaning.readings[*line.draft].castIndex];
        Waiting& visit = waiting[said.visitOfSection[cast.section]];
        visit.firstLine = visit.readings == 0 ? i + 1 : visit.firstLine;
        ++visit.readings;
    }
    std::vector<std::string> sentences;
    for (std::size_t i = 0; i < said.visits.size(); ++i) {
        if (said.visits[i].waits() && waiting[i].readings > 0) {
            sentences.push_back(inWords(waiting[i], said.visits[i].section));
        }
    }
    return sentences;
}

} // namespace bedlore
