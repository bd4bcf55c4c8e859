// SPDX-License-Identifier: MIT
#include "core/io/import_levels.hpp"

#include "core/book/page_header.hpp"

#include <algorithm>
#include <cstddef>

namespace bedlore {

namespace {

/// "12 April 2025, 3 May 2025 and 2 more days"
std::string listed(const std::vector<const Visit*>& visits) {
    constexpr std::size_t mostNamed = 3;
    const std::size_t named = visits.size() > mostNamed + 1 ? mostNamed : visits.size();
    std::string words;
    for (std::size_t i = 0; i < named; ++i) {
        const bool isLast = i + 1 == visits.size();
        words += words.empty() ? "" : isLast ? " and " : ", ";
        words += printDate(visits[i]->date);
    }
    return named == visits.size()
               ? words
               : words + " and " + std::to_string(visits.size() - named) + " more days";
}

std::string sentence(const std::string& swim, const std::vector<const Visit*>& without) {
    const bool isOne = without.size() == 1;
    return swim + ": " + listed(without) + (isOne ? " says" : " say") +
           " no level, though other days there do. The water is taken to have stood at the level "
           "mark then, which may move the map up or down: write the level, if you read one.";
}

} // namespace

std::vector<std::string> missingLevelWords(const Book& before, const Book& after) {
    std::vector<std::string> words;
    for (const Swim& swim : after.all<Swim>()) {
        std::vector<const Visit*> without;
        std::size_t with = 0;
        bool isNews = false;
        for (const Visit* visit : visitsOf(after, swim.water)) {
            if (visit->swim != swim.id) {
                continue;
            }
            const Visit* known = before.find(visit->id);
            isNews = isNews || known == nullptr || known->level != visit->level;
            if (visit->level) {
                ++with;
            } else {
                without.push_back(visit);
            }
        }
        if (isNews && with > 0 && !without.empty()) {
            words.push_back(sentence(swim.name, without));
        }
    }
    return words;
}

} // namespace bedlore
