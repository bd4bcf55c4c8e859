// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/edit.hpp"

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

// Undo and redo without limit.

namespace bedlore {

/// Two stacks of edits. The caller applies what `undoEdits` or `redoEdits` gives, and tells the
/// outcome afterwards, so that a failed write moves nothing.
class History {
public:
    struct Step {
        std::string label; ///< what he did, in words ("typed line 12")
        Edits edits;
    };

    [[nodiscard]] bool canUndo() const { return !undo_.empty(); }
    [[nodiscard]] bool canRedo() const { return !redo_.empty(); }
    /// The next step back or forward; only when there is one.
    [[nodiscard]] const Step& nextUndo() const { return undo_.back(); }
    [[nodiscard]] const Step& nextRedo() const { return redo_.back(); }

    /// A new act was applied: its inverse can be undone, and what had been undone before is gone.
    void applied(std::string label, Edits inverse) {
        undo_.push_back({std::move(label), std::move(inverse)});
        redo_.clear();
    }
    /// The last act went on: `inverse` takes back what was applied to it, and is undone with it.
    void wentOn(Edits inverse) {
        BEDLORE_EXPECTS(!undo_.empty());
        Edits& earlier = undo_.back().edits;
        inverse.insert(inverse.end(), earlier.begin(), earlier.end());
        earlier = std::move(inverse);
        redo_.clear();
    }
    /// `nextUndo` was applied and gave `inverse`.
    void undone(Edits inverse) { move(undo_, redo_, std::move(inverse)); }
    /// `nextRedo` was applied and gave `inverse`.
    void redone(Edits inverse) { move(redo_, undo_, std::move(inverse)); }

private:
    static void move(std::vector<Step>& from, std::vector<Step>& to, Edits inverse) {
        BEDLORE_EXPECTS(!from.empty());
        to.push_back({std::move(from.back().label), std::move(inverse)});
        from.pop_back();
    }

    std::vector<Step> undo_;
    std::vector<Step> redo_;
};

} // namespace bedlore
