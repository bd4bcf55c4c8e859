// SPDX-License-Identifier: MIT
#include "core/chart/contour_labels.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>
#include <utility>

namespace bedlore {

namespace {

double distance(CanvasPoint a, CanvasPoint b) {
    return std::hypot(b.x - a.x, b.y - a.y);
}

std::array<CanvasPoint, 4> corners(const CanvasBox& box) {
    const double c = std::cos(box.turn);
    const double s = std::sin(box.turn);
    const auto corner = [&](double x, double y) {
        return CanvasPoint{box.centre.x + c * x - s * y, box.centre.y + s * x + c * y};
    };
    const double w = 0.5 * box.width;
    const double h = 0.5 * box.height;
    return {corner(-w, -h), corner(w, -h), corner(w, h), corner(-w, h)};
}

/// A line that can be asked for the point at a length.
class Measured {
public:
    explicit Measured(const LineToLabel& line)
        : path_(line.vertices) {
        if (line.closed && !path_.empty()) {
            path_.push_back(path_.front());
        }
        lengths_.reserve(path_.size());
        double sum = 0.0;
        for (std::size_t i = 0; i < path_.size(); ++i) {
            sum += i == 0 ? 0.0 : distance(path_[i - 1], path_[i]);
            lengths_.push_back(sum);
        }
    }
    [[nodiscard]] double length() const { return lengths_.empty() ? 0.0 : lengths_.back(); }
    [[nodiscard]] CanvasPoint at(double along) const {
        const auto above = std::lower_bound(lengths_.begin(), lengths_.end(), along);
        if (above == lengths_.begin()) {
            return path_.front();
        }
        if (above == lengths_.end()) {
            return path_.back();
        }
        const auto i = static_cast<std::size_t>(above - lengths_.begin());
        const double step = lengths_[i] - lengths_[i - 1];
        const double share = step > 0.0 ? (along - lengths_[i - 1]) / step : 0.0;
        return {
            path_[i - 1].x + share * (path_[i].x - path_[i - 1].x),
            path_[i - 1].y + share * (path_[i].y - path_[i - 1].y)};
    }

private:
    std::vector<CanvasPoint> path_;
    std::vector<double> lengths_;
};

/// Looks for room, line by line.
class Placing {
public:
    Placing(TakenBoxes taken, const LabelOptions& options)
        : taken_(std::move(taken))
        , options_(options) {}

    void addLine(std::size_t number, const LineToLabel& line) {
        const Measured path(line);
        const double wide = line.width + 2.0 * options_.gap;
        if (!(wide > 0.0 && path.length() >= 2.0 * wide)) {
            return;
        }
        // As many stretches as numbers fit; in each the straightest place that is free.
        const double stretches = std::max(1.0, std::floor(path.length() / options_.apart));
        const double stretch = path.length() / stretches;
        for (int i = 0; i < stretches; ++i) {
            const double from = i * stretch + 0.5 * wide;
            if (auto place = bestWithin(path, from, (i + 1) * stretch - 0.5 * wide, wide)) {
                place->line = number;
                taken_.add(place->box);
                places_.push_back(*place);
            }
        }
    }
    std::vector<LabelPlace> take() { return std::move(places_); }

private:
    [[nodiscard]] std::optional<LabelPlace>
    bestWithin(const Measured& path, double first, double last, double wide) const {
        std::optional<LabelPlace> best;
        double bestScore = options_.straight;
        const double middle = 0.5 * (first + last);
        const double step = 0.25 * wide;
        for (int i = 0; first + i * step <= last; ++i) {
            const double at = first + i * step;
            const double from = at - 0.5 * wide;
            const CanvasPoint a = path.at(from);
            const CanvasPoint b = path.at(from + wide);
            const CanvasPoint m = path.at(at);
            const double chord = distance(a, b) / wide;
            // Straight first; near the middle of its stretch where that costs little.
            const double score = chord - 0.02 * std::abs(at - middle) / (last - first + 1.0);
            if (chord < options_.straight || score <= bestScore) {
                continue;
            }
            double turn = std::atan2(b.y - a.y, b.x - a.x);
            constexpr double quarter = 0.5 * std::numbers::pi;
            turn += turn > quarter ? -2.0 * quarter : turn <= -quarter ? 2.0 * quarter : 0.0;
            const CanvasBox box{
                // Between the line's own middle and its chord's: evenly over a gentle bend.
                {0.5 * m.x + 0.25 * (a.x + b.x), 0.5 * m.y + 0.25 * (a.y + b.y)},
                wide,
                options_.height,
                turn};
            if (isFree(box)) {
                best = LabelPlace{.line = 0, .box = box, .from = from, .to = from + wide};
                bestScore = score;
            }
        }
        return best;
    }

    [[nodiscard]] bool isFree(const CanvasBox& box) const {
        const CanvasBox& window = options_.window;
        for (const CanvasPoint p : corners(box)) {
            if (std::abs(p.x - window.centre.x) > 0.5 * window.width ||
                std::abs(p.y - window.centre.y) > 0.5 * window.height) {
                return false;
            }
        }
        return taken_.isFree(box);
    }

    TakenBoxes taken_;
    LabelOptions options_;
    std::vector<LabelPlace> places_;
};

} // namespace

std::vector<LabelPlace>
placeLabels(const std::vector<LineToLabel>& lines, TakenBoxes taken, const LabelOptions& options) {
    Placing placing(std::move(taken), options);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        placing.addLine(i, lines[i]);
    }
    return placing.take();
}

} // namespace bedlore
