// SPDX-License-Identifier: MIT
#include "gui/plan_view/plan_render.hpp"

#include "core/base/parallel.hpp"
#include "gui/paint/placed_chart.hpp"

#include <QPainter>

#include <cstddef>
#include <vector>

namespace bedlore {

namespace {

/// A picture cut across into stripes, each with a painter of its own.
class Stripes {
public:
    Stripes(QImage& image, double ratio)
        : size_(image.size())
        , bits_(image.bits())
        , pitch_(image.bytesPerLine())
        , ratio_(ratio) {}

    template <class Paint>
    void paint(std::size_t number, std::size_t count, const Paint& paint) const {
        const auto edge = [&](std::size_t i) {
            return static_cast<int>(static_cast<std::size_t>(size_.height()) * i / count);
        };
        const int top = edge(number);
        const int height = edge(number + 1) - top;
        QImage part(bits_ + top * pitch_, size_.width(), height, pitch_, QImage::Format_RGB32);
        QPainter painter(&part);
        painter.translate(0.0, -top);
        painter.scale(ratio_, ratio_);
        paint(painter, QRectF(0.0, top / ratio_, size_.width() / ratio_, height / ratio_));
    }

private:
    QSize size_;
    uchar* bits_;
    qsizetype pitch_;
    double ratio_;
};

std::vector<QRectF> boxesOf(const std::vector<PlacedWords>& words) {
    std::vector<QRectF> boxes;
    boxes.reserve(words.size());
    for (const PlacedWords& one : words) {
        boxes.push_back(one.box);
    }
    return boxes;
}

} // namespace

void renderPlan(QImage& image, const PlanScene& scene) {
    const ChartView& view = scene.view;
    PlacedChart chart(*scene.picture.painter, view, ChartPainter::Detail::Whole);
    PlacedRings rings;
    const auto place = [&] {
        // What stands above the map comes first, so that no depth stands under it.
        chart.keepClear(boxesOf(placeLetters(scene.letters, scene.overlay, view.toView)));
        rings = placeRings(scene.letters, scene.picture, scene.overlay, view, chart.boxesOfFirst());
        chart.keepClear(boxesOf(rings.numbers));
        chart.place();
    };
    const Stripes stripes(image, scene.ratio);
    const int threads = usualThreads();
    // Ground in small pieces, since one thread comes later; lines cross all pieces, so in few.
    const auto grounds = 4 * static_cast<std::size_t>(threads);
    const auto signs = static_cast<std::size_t>(threads);
    const auto paintGround = [&](std::size_t i) {
        stripes.paint(i, grounds, [&](QPainter& painter, const QRectF& part) {
            chart.paintGround(painter, part);
        });
    };
    inParallelBeside(place, grounds, threads, paintGround);
    static_cast<void>(inParallel(signs, threads, {}, [&](std::size_t i) {
        stripes.paint(i, signs, [&](QPainter& painter, const QRectF& part) {
            chart.paintLinesAndSigns(painter, part);
            paintFixes(painter, scene.picture, view);
            paintRings(painter, rings, part, scene.picture.look.palette);
            chart.paintWords(painter, part);
            painter.setFont(unshared(scene.letters));
            paintRingNumbers(painter, rings, part, scene.picture.look.palette);
        });
    }));
}

} // namespace bedlore
