// SPDX-License-Identifier: MIT
#pragma once

#include "gui/panels/page_editor.hpp"

#include <QWidget>

// The page's left margin: a small mark at each line to look at.

namespace bedlore {

class PageMargin : public QWidget {
public:
    explicit PageMargin(PageEditor& editor);
    /// Its width in pixels.
    static constexpr int room = 20;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    PageEditor& editor_;
};

} // namespace bedlore
