// SPDX-License-Identifier: MIT
#include "gui/document/bed_builder.hpp"
#include "gui/document/document.hpp"
#include "gui/document/live_map.hpp"
#include "gui/document/page_session.hpp"
#include "gui/jobs/job_board.hpp"
#include "gui/plan_view/plan_view.hpp"
#include "tests/bench/live_entry.hpp"
#include "tests/support/temp_folder.hpp"

#include <QApplication>
#include <QEventLoop>
#include <QImage>
#include <QKeyEvent>
#include <QPainter>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <string>
#include <vector>

// From a line kept to the end of the paint, on a real file: a reading entered, changed and removed
// on a swim of so many readings, plan of 1000 × 800; then the frames of a plan that is moved.
// Usage: bedlore_bench_live [readings]

namespace {

using namespace bedlore;
using namespace bedlore::bench;

class Desk {
public:
    static constexpr int mostToWaitFor = 500;

    explicit Desk(int readings)
        : waits_(readings <= mostToWaitFor)
        , document_(Document::create(folder_ / "live.gpkg").value())
        , session_(*document_)
        , builder_(*document_, jobs_) {
        session_.begin(std::nullopt);
        must(session_.keep(pageOf(readings)).has_value(), "keeping the page");
        plan_.resize(1000, 800);
        plan_.show();
        QObject::connect(&builder_, &BedBuilder::built, &plan_, [this] {
            plan_.setPicture(builder_.picture());
            plan_.repaint();
            if (!painted_) {
                painted_ = since(kept_);
            }
        });
        builder_.show(
            {.water = document_->book()->all<Water>().begin()->id,
             .swim = document_->book()->all<Swim>().begin()->id});
        settle();
        plan_.showAll();
    }

    [[nodiscard]] std::vector<std::string> lines() const { return session_.keptLines(); }
    /// Milliseconds from the call that keeps the page to the end of the plan's first paint with it.
    /// The fit behind it is waited for where that is soon done; else he types on, and it is
    /// stopped.
    double keep(const std::vector<std::string>& lines) {
        painted_.reset();
        kept_ = Clock::now();
        must(session_.keep(lines).has_value(), "keeping a line");
        while (!painted_) {
            QApplication::processEvents(QEventLoop::WaitForMoreEvents);
        }
        const double taken = *painted_;
        if (waits_) {
            settle();
        }
        return taken;
    }
    /// Milliseconds of each frame while the plan is dragged, zoomed and turned.
    std::vector<double> move(const std::function<void(PlanView&, int)>& step) {
        std::vector<double> frames;
        for (int i = 0; i < 120; ++i) {
            step(plan_, i);
            const auto start = Clock::now();
            plan_.repaint();
            frames.push_back(since(start));
        }
        plan_.showAll();
        plan_.repaint();
        return frames;
    }
    /// The steps from a book with one line more to a painted plan, one after another on one thread.
    void saySteps(const std::vector<std::string>& next) {
        const std::vector<std::string> before = lines();
        std::vector<std::vector<double>> steps(6);
        for (int i = 0; i < 21; ++i) {
            const auto live = LiveMap::over(*builder_.map());
            auto start = Clock::now();
            must(session_.keep(next).has_value(), "keeping a line");
            const auto done = [&](std::size_t step) {
                steps[step].push_back(since(start));
                start = Clock::now();
            };
            done(0);
            static_cast<void>(reduceFor(*document_->book(), live->request()));
            done(1);
            const auto map = live->follow(document_->book());
            must(map != nullptr, "following");
            done(2);
            const auto picture = drawBed(map, {});
            done(3);
            QImage image(1000, 800, QImage::Format_ARGB32_Premultiplied);
            QPainter painter(&image);
            start = Clock::now();
            picture->painter->paint(
                painter, {.toView = plan_.camera().toView(plan_.rect()), .window = plan_.rect()});
            done(4);
            settle();
            keep(before);
        }
        constexpr std::array<const char*, 5> names{
            "  keeping it", "  notes to places", "  notes and bed", "  drawing", "  painting"};
        for (std::size_t i = 0; i < 5; ++i) {
            say(names[i], steps[i]);
        }
    }
    [[nodiscard]] std::size_t cells() const { return builder_.map()->grid.frame().size(); }
    [[nodiscard]] std::size_t soundings() const { return builder_.map()->surface.soundingCount(); }

private:
    void settle() {
        while (!jobs_.isIdle() || plan_.isFading()) {
            QApplication::processEvents(QEventLoop::WaitForMoreEvents);
        }
    }

    bool waits_;
    testing::TempFolder folder_;
    std::unique_ptr<Document> document_;
    PageSession session_;
    JobBoard jobs_;
    BedBuilder builder_;
    PlanView plan_;
    Clock::time_point kept_;
    std::optional<double> painted_;
};

void run(int readings) {
    Desk desk(readings);
    std::printf("%zu depths, %zu cells\n", desk.soundings(), desk.cells());
    std::vector<double> entered;
    std::vector<double> changed;
    std::vector<double> removed;
    const std::vector<std::string> before = desk.lines();
    const std::size_t middle = before.size() - static_cast<std::size_t>(readings) / 2;
    for (int i = 0; i < 30; ++i) {
        std::vector<std::string> lines = before;
        lines.emplace_back("18 10.5");
        entered.push_back(desk.keep(lines));
        lines.back() = "18 9";
        changed.push_back(desk.keep(lines));
        lines[middle] += " gr";
        lines.pop_back();
        removed.push_back(desk.keep(lines));
        desk.keep(before);
    }
    say("a reading entered", entered);
    say("a reading changed", changed);
    say("a reading removed", removed);
    std::vector<std::string> lines = before;
    lines[middle] += " gr";
    lines.back() += " gr";
    lines.emplace_back("21 10.5");
    if (readings <= Desk::mostToWaitFor) {
        desk.saySteps(lines);
    }
    const auto press = [](PlanView& plan, int key) {
        QKeyEvent event(QEvent::KeyPress, key, Qt::NoModifier);
        QApplication::sendEvent(&plan, &event);
    };
    say("a frame of panning", desk.move([&](PlanView& plan, int i) {
        press(plan, i % 40 < 20 ? Qt::Key_Left : Qt::Key_Right);
    }));
    say("a frame of zooming", desk.move([&](PlanView& plan, int i) {
        press(plan, i % 8 < 4 ? Qt::Key_Plus : Qt::Key_Minus);
    }));
    say("a frame of turning",
        desk.move([&](PlanView& plan, int) { press(plan, Qt::Key_BracketLeft); }));
}

} // namespace

int main(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    const QApplication app(argc, argv);
    return reported([&] { run(argc > 1 ? std::atoi(argv[1]) : 250); });
}
