// SPDX-License-Identifier: MIT
#pragma once

#include <QPlainTextDocumentLayout>

#include <vector>

// How the lines of a page stand under each other.

namespace bedlore {

/// Leaves room under lines for what does not fit beside them.
class PageLayout : public QPlainTextDocumentLayout {
public:
    using QPlainTextDocumentLayout::QPlainTextDocumentLayout;

    /// Pixels below each line, none for lines beyond the end. True where that differs from before.
    bool setRoomBelow(std::vector<double> room);
    [[nodiscard]] double roomBelow(const QTextBlock& block) const;

    [[nodiscard]] QRectF blockBoundingRect(const QTextBlock& block) const override;

private:
    std::vector<double> room_;
};

} // namespace bedlore
