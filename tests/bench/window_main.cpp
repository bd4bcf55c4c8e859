// SPDX-License-Identifier: MIT
#include "gui/document/document.hpp"
#include "gui/document/page_session.hpp"
#include "gui/window/main_window.hpp"
#include "tests/bench/live_entry.hpp"
#include "tests/gui/drive.hpp"
#include "tests/support/temp_folder.hpp"

#include <QApplication>
#include <QEventLoop>
#include <QKeyEvent>
#include <QString>
#include <QTextBlock>

#include <cstdio>
#include <cstdlib>
#include <optional>
#include <string>
#include <vector>

// In the whole window, on a real file: from the Return key at the end of a line to the end of the
// plan's paint that shows it, editor, side view and lists told too. A reading entered and changed,
// its change put back and the reading removed by undo, on a swim of so many readings. What is
// painted later (the other panels) is not counted.
// Usage: bedlore_bench_window [readings]

namespace {

using namespace bedlore;
using namespace bedlore::bench;

class Window {
public:
    explicit Window(int readings) {
        const auto book = folder_ / "live.gpkg";
        {
            const auto document = Document::create(book).value();
            PageSession session(*document);
            session.begin(std::nullopt);
            must(session.keep(pageOf(readings)).has_value(), "keeping the page");
        }
        window_.resize(1700, 1150);
        window_.show();
        must(window_.openBook(book), "opening the book");
        settle();
        // The panels beside take shares: again until the plan is as large as it shall be.
        for (int round = 0; round < 5; ++round) {
            const QSize lacks = QSize(1000, 800) - desk().plan().size();
            window_.resize(window_.size() + lacks);
            settle();
        }
        must(editor().document()->blockCount() >= readings, "showing the page");
        // After the desk's own: by then the plan is painted.
        QObject::connect(&desk().builder(), &BedBuilder::built, &desk(), [this] {
            if (!painted_) {
                painted_ = since(pressed_);
            }
        });
    }
    void run() {
        std::printf(
            "%zu depths, %zu cells, plan of %d x %d\n",
            desk().builder().map()->surface.soundingCount(),
            desk().builder().map()->grid.frame().size(),
            desk().plan().width(),
            desk().plan().height());
        std::vector<double> entered;
        std::vector<double> changed;
        std::vector<double> putBack;
        std::vector<double> removed;
        editor().moveCursor(QTextCursor::End);
        if (!editor().textCursor().block().text().isEmpty()) {
            press("\n");
            settle();
        }
        for (int i = 0; i < 30; ++i) {
            press("18 10.5");
            entered.push_back(until(Qt::Key_Return));
            editor().moveCursor(QTextCursor::PreviousBlock);
            editor().moveCursor(QTextCursor::EndOfBlock);
            for (int letter = 0; letter < 4; ++letter) {
                key(Qt::Key_Backspace, Qt::NoModifier);
            }
            press("9");
            changed.push_back(until(Qt::Key_Down));
            putBack.push_back(until(Qt::Key_Z, Qt::ControlModifier));
            removed.push_back(until(Qt::Key_Z, Qt::ControlModifier));
            editor().moveCursor(QTextCursor::End);
        }
        say("a reading entered", entered);
        say("a reading changed", changed);
        say("a reading removed", removed);
        say("a change put back", putBack);
    }

private:
    Desk& desk() { return *window_.desk(); }
    PageEditor& editor() { return desk().page().editor(); }
    void press(const char* letters) { testing::pressKeys(editor(), QString::fromLatin1(letters)); }
    void key(int code, Qt::KeyboardModifiers modifiers) {
        QKeyEvent event(QEvent::KeyPress, code, modifiers);
        QApplication::sendEvent(&editor(), &event);
    }
    /// Milliseconds from this key to the end of the plan's first paint behind it.
    double until(int code, Qt::KeyboardModifiers modifiers = Qt::NoModifier) {
        rest();
        painted_.reset();
        pressed_ = Clock::now();
        key(code, modifiers);
        while (!painted_) {
            QApplication::processEvents(QEventLoop::WaitForMoreEvents);
        }
        const double taken = *painted_;
        settle();
        return taken;
    }
    void settle() {
        while (!desk().jobs().isIdle() || desk().plan().isFading()) {
            QApplication::processEvents(QEventLoop::WaitForMoreEvents);
        }
    }

    /// No finger follows another in less: what the letters before asked for is painted by now.
    static void rest() {
        const auto begin = Clock::now();
        while (since(begin) < 30.0) {
            QApplication::processEvents(QEventLoop::AllEvents, 5);
        }
    }

    testing::TempFolder folder_;
    MainWindow window_{{.book = {}, .practice = {}, .settings = folder_ / "settings.ini"}};
    Clock::time_point pressed_;
    std::optional<double> painted_;
};

} // namespace

int main(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    const QApplication app(argc, argv);
    return reported([&] { Window(argc > 1 ? std::atoi(argv[1]) : 250).run(); });
}
