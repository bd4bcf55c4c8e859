// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/page_edits.hpp"
#include "gui/window/main_window.hpp"
#include "tests/gui/support.hpp"

#include <QTest>
#include <gtest/gtest.h>

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

// A window with a new book, and pages to type into it.

namespace bedlore::testing {

struct OpenWindow {
    TempFolder folder;
    std::filesystem::path book = folder / "Harl Pit.gpkg";
    MainWindow window{{.book = {}, .practice = {}, .settings = folder / "settings.ini"}};

    OpenWindow() {
        window.show();
        EXPECT_TRUE(window.newBook(book));
    }
    /// The part of the window under an object name.
    template <class Part>
    Part& part(const char* name) {
        auto* found = window.findChild<Part*>(QString::fromLatin1(name));
        EXPECT_NE(found, nullptr) << name;
        return *found;
    }
    Desk& desk() { return *window.desk(); }
    PageEditor& editor() { return desk().page().editor(); }
    std::shared_ptr<const Book> records() { return desk().document().book(); }

    /// Presses the keys of `letters`.
    void press(const std::string& letters) { pressKeys(editor(), QString::fromStdString(letters)); }
    /// Presses the keys of `line`, then Return.
    void type(const std::string& line) {
        press(line);
        QTest::keyClick(&editor(), Qt::Key_Return);
    }
    /// A new page begins with its first two headers, waiting to be completed.
    void typePage(const std::vector<std::string>& lines) {
        editor().selectAll();
        QTest::keyClick(&editor(), Qt::Key_Delete);
        for (const std::string& line : lines) {
            type(line);
        }
        EXPECT_TRUE(waitUntilIdle(desk().jobs()));
    }
};

inline const std::vector<std::string> headers{
    "swim the Point",
    "date 2025-04-12",
    "level 0.35 m",
    "sticks 12 ft",
    "distances wraps",
    "depths ft",
    "float pulls 12 in + 12 in",
    "tip 6 ft",
    "aim A = dead pine",
    "aim B = A + 10 deg right",
    "aim C = B + 1 fist right"};

/// An evening's page: three aims, some fifty lines.
inline std::vector<std::string> eveningPage() {
    std::vector<std::string> lines = headers;
    for (const char* aim : {"A", "B", "C"}) {
        lines.push_back(std::string(aim) + " 32 6'");
        for (int wraps = 31; wraps >= 16; --wraps) {
            const std::string depth = wraps % 3 == 0   ? "9p D"
                                      : wraps % 3 == 1 ? "9½ gr"
                                                       : "10 si glide";
            lines.push_back(std::to_string(wraps) + " " + depth);
        }
    }
    lines.emplace_back("wind SW3, 11c rising");
    return lines;
}

inline std::string whole(const std::vector<std::string>& lines) {
    std::string text;
    for (const std::string& line : lines) {
        text += line + "\n";
    }
    return text;
}

inline std::string storedText(const Book& book) {
    std::string text = pageText(book, book.all<Page>().begin()->id);
    while (text.ends_with("\n\n")) {
        text.pop_back(); // the line that waits for the next one
    }
    return text;
}

} // namespace bedlore::testing
