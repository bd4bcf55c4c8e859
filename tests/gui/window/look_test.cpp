// SPDX-License-Identifier: MIT
#include "tests/gui/window/open_window.hpp"

#include <QAction>
#include <QLabel>
#include <QScrollArea>
#include <QScrollBar>

#include <memory>
#include <set>
#include <utility>

// How the window looks as he wants it: layers, sizes of text, units.

namespace bedlore::testing {
namespace {

void trigger(OpenWindow& open, const char* action) {
    open.window.action(QString::fromLatin1(action))->trigger();
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
}

/// Everything that a layer can hide.
std::vector<std::string> richPage() {
    std::vector<std::string> lines = eveningPage();
    lines.emplace_back("PINE = A 26¾ / rods 26¾");
    return lines;
}

struct Layered : OpenWindow {
    Layered() {
        window.resize(1280, 720);
        typePage(richPage());
        editor().goToLine(0);
        desk().choosePlace(std::nullopt);
    }
    QImage plan() { return desk().plan().grab().toImage(); }
    /// What no page can say: depths from elsewhere, and a mark with a bearing.
    void addMore() {
        Document& document = desk().document();
        const auto before = document.book();
        IdSource ids = document.freeIds();
        FixColumns columns;
        for (int i = 0; i < 8; ++i) {
            columns.x.push_back(5.0 * i - 20.0);
            columns.y.push_back(60.0);
            columns.depth.push_back(3.1);
        }
        FixSet fixes;
        fixes.id = ids.take<FixSet>();
        fixes.water = before->all<Water>().begin()->id;
        fixes.frame = FixFrame::Plane;
        fixes.columns = std::make_shared<const FixColumns>(std::move(columns));
        Mark mark = *before->all<Mark>().begin();
        mark.bearingFrom = before->all<Swim>().begin()->id;
        mark.bearing = BearingEntry{
            .degrees = {.number = 5.0, .unit = Unit::Degree, .text = "5"}, .north = North::Grid};
        EXPECT_TRUE(document.apply("more", {Put<FixSet>{fixes}, Put<Mark>{mark}}).has_value());
        EXPECT_TRUE(waitUntilIdle(desk().jobs()));
        // One more look, settled: pictures are compared to the pixel.
        window.showAll();
    }
};

TEST(Layers, EachHidesSomethingAndBringsItBack) {
    Layered open;
    open.addMore();
    trigger(open, "layerCasts"); // drawn anew, from the settled bed
    trigger(open, "layerCasts");
    const QImage whole = open.plan();
    for (const MapLayer& layer : mapLayers) {
        const std::string name = std::string("layer") + layer.name;
        QAction* action = open.window.action(QString::fromStdString(name));
        ASSERT_NE(action, nullptr) << name;
        EXPECT_TRUE(action->isChecked()) << name;
        trigger(open, name.c_str());
        EXPECT_FALSE(action->isChecked()) << name;
        EXPECT_NE(open.plan(), whole) << name << " hides nothing";
        trigger(open, name.c_str());
        EXPECT_EQ(open.plan(), whole) << name << " does not come back";
    }
}

TEST(Layers, TheHatchOverWhatNobodyKnowsCannotBeHidden) {
    Layered open;
    for (const MapLayer& layer : mapLayers) {
        trigger(open, (std::string("layer") + layer.name).c_str());
    }
    // A corner far from every cast: paper with hairlines at 45 degrees, and nothing else.
    const QImage corner = open.plan().copy(8, 8, 60, 60);
    std::set<QRgb> colours;
    for (int y = 0; y < corner.height(); ++y) {
        for (int x = 0; x < corner.width(); ++x) {
            colours.insert(corner.pixel(x, y));
        }
    }
    EXPECT_GT(colours.size(), 1U) << "only paper: what is not known would look like water";
    EXPECT_TRUE(colours.contains(palette(PaletteKind::Light).paper.rgb()));
}

TEST(Layers, AreKeptForTheNextEvening) {
    Layered open;
    trigger(open, "layerCasts");
    trigger(open, "layerShading");
    const Settings settings(QString::fromStdString((open.folder / "settings.ini").string()));
    MapLayers expected;
    expected.casts = false;
    expected.shading = false;
    EXPECT_EQ(settings.preferences().layers, expected);
}

TEST(LargeText, GoesInStepsFromOneToTwoAndAHalf) {
    OpenWindow open;
    open.typePage(headers);
    const auto scale = [&] { return open.window.preferences().textScale; };
    for (const double wanted : {1.25, 1.5, 1.75, 2.0, 2.25, 2.5, 2.5}) {
        QTest::keyClick(&open.window, Qt::Key_Equal, Qt::AltModifier);
        EXPECT_DOUBLE_EQ(scale(), wanted);
    }
    QTest::keyClick(&open.window, Qt::Key_Minus, Qt::AltModifier);
    EXPECT_DOUBLE_EQ(scale(), 2.25);
    QTest::keyClick(&open.window, Qt::Key_0, Qt::AltModifier);
    EXPECT_DOUBLE_EQ(scale(), 1.0);
}

/// Rows that a label needs and has not.
bool isCut(const QLabel& label) {
    const int needed =
        label.wordWrap() ? label.heightForWidth(label.width()) : label.sizeHint().height();
    const bool tooNarrow = !label.wordWrap() && label.width() < label.sizeHint().width();
    return label.height() < needed || tooNarrow;
}

TEST(LargeText, NothingIsCutInASmallWindow) {
    for (const double scale : {1.0, 1.5, 2.5}) {
        SCOPED_TRACE(scale);
        OpenWindow open;
        open.window.setTextScale(scale);
        open.window.resize(1280, 720);
        std::vector<std::string> lines = eveningPage();
        lines.emplace_back("110 12");
        open.typePage(lines);
        trigger(open, "panelAims");
        trigger(open, "panelShorthand");
        open.editor().goToNextQuestion();
        const AimLine& aim = open.desk().aims().front();
        open.desk().choosePlace(placeOn(aim.tip, aim.direction, 0.8 * aim.reach));
        QCoreApplication::sendPostedEvents();
        EXPECT_EQ(open.window.size(), QSize(1280, 720)) << "it does not force itself larger";
        EXPECT_LE(open.window.minimumSizeHint().width(), 1280);
        EXPECT_LE(open.window.minimumSizeHint().height(), 720);
        int looked = 0;
        for (const QLabel* label : open.window.findChildren<QLabel*>()) {
            // What stands under the pointer is one line of changing words, whole in its tool tip.
            if (label->isVisible() && label->objectName() != QLatin1String("pointerReadout")) {
                ++looked;
                EXPECT_FALSE(isCut(*label))
                    << label->objectName().toStdString() << ": " << label->text().toStdString();
            }
        }
        EXPECT_GT(looked, 8);
        for (QWidget* part :
             {&open.desk().panel(Desk::Panel::Page),
              &open.desk().panel(Desk::Panel::SideView),
              &open.desk().panel(Desk::Panel::ChosenPlace),
              static_cast<QWidget*>(&open.desk().plan())}) {
            EXPECT_GE(part->height(), part->minimumSizeHint().height())
                << part->objectName().toStdString();
        }
    }
}

TEST(LargeText, WhatDoesNotFitInTheChosenPlaceIsScrolledToByKeys) {
    OpenWindow open;
    open.window.setTextScale(2.5);
    open.window.resize(1280, 720);
    open.typePage(eveningPage());
    const AimLine& aim = open.desk().aims().front();
    open.desk().choosePlace(placeOn(aim.tip, aim.direction, 0.8 * aim.reach));
    QCoreApplication::sendPostedEvents();
    auto& scroll = open.part<QScrollArea>("placeScroll");
    ASSERT_GT(scroll.verticalScrollBar()->maximum(), 0);
    QTest::keyClick(&open.window, Qt::Key_F7, Qt::ShiftModifier);
    EXPECT_EQ(open.window.focusWidget(), &scroll);
    QTest::keyClick(&scroll, Qt::Key_Down);
    EXPECT_GT(scroll.verticalScrollBar()->value(), 0);
}

TEST(Units, WrapsSayWhatTheyAreCountedIn) {
    OpenWindow open;
    open.typePage(eveningPage());
    const AimLine& aim = open.desk().aims().front();
    open.desk().choosePlace(placeOn(aim.tip, aim.direction, 0.8 * aim.reach));
    auto& measure = open.part<QLabel>("placeMeasure");
    EXPECT_EQ(measure.text(), QStringLiteral("a wrap is 12 ft"));
    trigger(open, "distanceFeet");
    EXPECT_TRUE(measure.isHidden());
    EXPECT_TRUE(open.part<QLabel>("placeHowFar").text().endsWith(QStringLiteral(" ft")));
}

} // namespace
} // namespace bedlore::testing
