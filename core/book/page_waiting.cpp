// SPDX-License-Identifier: MIT
#include "core/book/page_waiting.hpp"

#include <algorithm>

namespace bedlore {

namespace {

std::string inWords(const WaitingReadings& waiting, const PageSection& section) {
    const bool swim = section.swim.empty();
    const bool date = !section.date;
    const std::string swimLine = "\"swim P14\"";
    const std::string dateLine = "\"date 2025-04-12\"";
    const std::string& what = waiting.lacking;
    const std::string lines = swim && date ? "lines like " + swimLine + " and " + dateLine
                                           : "a line like " + (swim ? swimLine : dateLine);
    const std::string from = std::to_string(waiting.firstLine);
    return waiting.count == 1
               ? "The reading on line " + from + " waits for " + what + ": put " + lines +
                     " above it."
               : "The " + std::to_string(waiting.count) + " readings from line " + from +
                     " on wait for " + what + ": put " + lines + " above them.";
}

/// By visit: none where its readings wait for nothing.
std::vector<WaitingReadings> waitingByVisit(const PageMeaning& meaning, const SaidByPage& said) {
    std::vector<WaitingReadings> waiting(said.visits.size());
    for (std::size_t i = 0; i < meaning.lines.size(); ++i) {
        const LineMeaning& line = meaning.lines[i];
        if (line.kind != LineKind::Reading || !line.draft) {
            continue;
        }
        const CastDraft& cast = meaning.casts[meaning.readings[*line.draft].castIndex];
        const std::size_t visit = said.visitOfSection[cast.section];
        if (!said.visits[visit].waits()) {
            continue;
        }
        WaitingReadings& here = waiting[visit];
        here.lacking = missingHeaders(said.visits[visit].section);
        here.firstLine = here.count == 0 ? i + 1 : here.firstLine;
        ++here.count;
    }
    return waiting;
}

} // namespace

bool waitsToBeCompleted(std::string_view line) {
    constexpr std::string_view blanks = " \t";
    const std::size_t begin = std::min(line.find_first_not_of(blanks), line.size());
    const std::size_t end = line.find_last_not_of(blanks) + 1; // 0 where there is none
    const std::string_view bare = line.substr(begin, std::max(begin, end) - begin);
    return bare == "swim" || bare == "date";
}

std::string missingHeaders(const PageSection& section) {
    if (section.swim.empty()) {
        return section.date ? "a swim" : "a swim and a date";
    }
    return section.date ? "" : "a date";
}

std::vector<WaitingReadings> waitingReadings(const PageMeaning& meaning, const SaidByPage& said) {
    std::vector<WaitingReadings> waiting = waitingByVisit(meaning, said);
    std::erase_if(waiting, [](const WaitingReadings& visit) { return visit.count == 0; });
    return waiting;
}

std::vector<std::string> waitingWords(const PageMeaning& meaning, const SaidByPage& said) {
    const std::vector<WaitingReadings> waiting = waitingByVisit(meaning, said);
    std::vector<std::string> sentences;
    for (std::size_t i = 0; i < waiting.size(); ++i) {
        if (waiting[i].count > 0) {
            sentences.push_back(inWords(waiting[i], said.visits[i].section));
        }
    }
    return sentences;
}

} // namespace bedlore
