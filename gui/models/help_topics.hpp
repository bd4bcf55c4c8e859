// SPDX-License-Identifier: MIT
#pragma once

#include <QString>

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

// The help's pages, and how one is found.

namespace bedlore {

/// One page. `plain` is its text without marks, as it is searched.
struct HelpTopic {
    QString id; ///< "20-the-page"; pages are in the order of their ids
    QString title;
    QString markdown;
    QString plain;
};

/// What an action is called in the menu, and its key as it is written on keyboards here.
struct ActionWords {
    QString words;
    QString key;
};
/// By the action's object name; none where there is no such action.
using ActionLookup = std::function<std::optional<ActionWords>(const QString& name)>;

/// All pages. `{name}` in a page stands for an action's words and key, `{name:key}` for its key
/// alone, so that no page can name a key that is not there. What stands for no action stays as it
/// is.
[[nodiscard]] std::vector<HelpTopic> helpTopics(const ActionLookup& actionNamed);

/// The pages that hold every word of `query`, whatever the case and the accents; those with the
/// words in their title first. All of them for an empty query.
[[nodiscard]] std::vector<std::size_t>
topicsAbout(const std::vector<HelpTopic>& topics, const QString& query);

} // namespace bedlore
