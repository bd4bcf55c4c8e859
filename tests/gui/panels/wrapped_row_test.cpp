// SPDX-License-Identifier: MIT
#include "gui/widgets/wrapped_row.hpp"

#include <QPushButton>
#include <QWidget>
#include <gtest/gtest.h>

#include <vector>

namespace bedlore {
namespace {

struct Row {
    QWidget whole;
    WrappedRow* row = new WrappedRow;
    std::vector<QPushButton*> buttons;

    Row() {
        whole.setLayout(row);
        row->setContentsMargins(0, 0, 0, 0);
        row->setSpacing(8);
        for (const char* words : {"yards?  F2", "metres?  Alt+2", "feet?  Alt+3"}) {
            buttons.push_back(new QPushButton(QString::fromLatin1(words), &whole));
            row->addWidget(buttons.back());
        }
    }
    void resize(int width) { row->setGeometry(QRect(0, 0, width, row->heightForWidth(width))); }
};

TEST(WrappedRow, CutsNoButton) {
    Row row;
    for (const int width : {1000, 300, 200, 10}) {
        row.resize(width);
        for (std::size_t i = 0; i < row.buttons.size(); ++i) {
            EXPECT_EQ(row.buttons[i]->size(), row.buttons[i]->sizeHint()) << width;
            for (std::size_t j = 0; j < i; ++j) {
                EXPECT_FALSE(row.buttons[i]->geometry().intersects(row.buttons[j]->geometry()));
            }
        }
    }
}

TEST(WrappedRow, GoesOnBelowOnlyWhereItIsFull) {
    Row row;
    const int button = row.buttons.front()->sizeHint().height();
    EXPECT_EQ(row.row->heightForWidth(1000), button);
    const int widest = row.row->minimumSize().width();
    // Source: by hand. One in each row: three heights and the two gaps of 8.
    EXPECT_EQ(row.row->heightForWidth(widest), 3 * button + 16);
    row.resize(widest);
    for (const QPushButton* each : row.buttons) {
        EXPECT_EQ(each->x(), 0);
        EXPECT_LE(each->geometry().right(), widest);
    }
}

} // namespace
} // namespace bedlore
