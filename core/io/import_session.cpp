// SPDX-License-Identifier: MIT
#include "core/io/import_session.hpp"

#include <algorithm>
#include <iterator>

namespace bedlore {

Result<void> ImportSession::apply(Edits edits) {
    auto applied = applyEdits(book_, edits);
    if (!applied) {
        return fail(std::move(applied).error());
    }
    book_ = std::move(applied->book);
    edits_.insert(
        edits_.end(), std::make_move_iterator(edits.begin()), std::make_move_iterator(edits.end()));
    return {};
}

void ImportSession::notice(std::string sentence) {
    if (std::find(notices_.begin(), notices_.end(), sentence) == notices_.end()) {
        notices_.push_back(std::move(sentence));
    }
}

} // namespace bedlore
