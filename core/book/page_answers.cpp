// SPDX-License-Identifier: MIT
#include "core/book/page_answers.hpp"

#include "core/book/page_measures.hpp"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <vector>

namespace bedlore {

namespace {

const PageSection& sectionOf(const SaidByPage& said, std::size_t section) {
    return said.visits[said.visitOfSection[section]].section;
}

/// The only section that names another visit than before.
std::optional<std::size_t> renamedSection(const SaidByPage& before, const SaidByPage& now) {
    if (before.visitOfSection.size() != now.visitOfSection.size()) {
        return std::nullopt;
    }
    std::optional<std::size_t> renamed;
    for (std::size_t i = 0; i < now.visitOfSection.size(); ++i) {
        const PageSection& was = sectionOf(before, i);
        const PageSection& is = sectionOf(now, i);
        if (was.swim == is.swim && was.date == is.date) {
            continue;
        }
        if (renamed) {
            return std::nullopt;
        }
        renamed = i;
    }
    return renamed;
}

/// Whether other pages lean on the visit that a section spoke of.
bool isShared(const FormerPage& former, std::size_t section) {
    const auto visit =
        section < former.visitOfSection.size() ? former.visitOfSection[section] : std::nullopt;
    const auto known = visit ? former.visits.find(*visit) : former.visits.end();
    return known != former.visits.end() && known->second.shared;
}

} // namespace

bool renameAnswers(
    EditPlan& plan, PageContext& context, const FormerPage& former, const SaidByPage& now) {
    const auto renamed = renamedSection(former.said, now);
    if (!renamed) {
        return false;
    }
    const std::vector<Answer> answers =
        answersRenamed(context, sectionOf(former.said, *renamed), sectionOf(now, *renamed));
    for (Answer answer : answers) {
        // In place of the former ones, which would answer for a visit that nobody was asked about.
        const auto same =
            std::find_if(context.answers.begin(), context.answers.end(), [&](const Answer& known) {
                return known.id == answer.id;
            });
        if (isShared(former, *renamed)) {
            answer.id = plan.newId<Answer>();
            context.answers.push_back(answer);
        } else if (same != context.answers.end()) {
            *same = answer;
        }
        plan.put(answer);
    }
    return !answers.empty();
}

} // namespace bedlore
