// SPDX-License-Identifier: MIT
#include "gui/panels/page_remarks.hpp"

#include "core/book/page_visit.hpp"

#include <algorithm>

namespace bedlore {

namespace {

const Visit* visitOf(const TypedPage& page, const SaidOfVisit& said) {
    const auto water = page.session.water();
    const Swim* swim =
        water && !said.waits() ? findSwim(page.book, *water, said.section.swim) : nullptr;
    return swim != nullptr ? findVisit(page.book, swim->id, *said.section.date) : nullptr;
}

} // namespace

std::map<std::size_t, QString> remarksByLine(const PageRemarks& remarks, const TypedPage& page) {
    std::map<std::size_t, QString> byLine;
    const std::vector<const PageLine*> kept = page.session.keptRecords();
    for (std::size_t i = 0; i < std::min(kept.size(), page.lines.size()); ++i) {
        const bool isKept = kept[i]->reading && kept[i]->text == page.lines[i];
        const auto remark =
            isKept ? remarks.readings.find(*kept[i]->reading) : remarks.readings.end();
        if (remark != remarks.readings.end()) {
            byLine.emplace(i, remark->second);
        }
    }
    if (remarks.levels.empty()) {
        return byLine;
    }
    for (const SaidOfVisit& said : saidByPage(page.meaning).visits) {
        const Visit* visit = visitOf(page, said);
        const auto remark =
            visit != nullptr ? remarks.levels.find(visit->id) : remarks.levels.end();
        const auto line = said.section.levelLine ? said.section.levelLine : said.section.dateLine;
        // A level that was typed since then speaks for itself.
        if (line && remark != remarks.levels.end() && said.section.visit.level == visit->level) {
            byLine.emplace(*line, remark->second);
        }
    }
    return byLine;
}

} // namespace bedlore
