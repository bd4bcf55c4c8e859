// SPDX-License-Identifier: MIT
#include "core/chart/taken_boxes.hpp"

#include <algorithm>
#include <cmath>

namespace bedlore {

namespace {

constexpr double side = 32.0; // of a square: about a word
constexpr int mostSquares = 64;

} // namespace

TakenBoxes::TakenBoxes(const std::vector<CanvasBox>& boxes) {
    for (const CanvasBox& box : boxes) {
        add(box);
    }
}

TakenBoxes::Span TakenBoxes::spanOf(const CanvasBox& box) {
    const double cosine = std::abs(std::cos(box.turn));
    const double sine = std::abs(std::sin(box.turn));
    const double x = 0.5 * (box.width * cosine + box.height * sine);
    const double y = 0.5 * (box.width * sine + box.height * cosine);
    const auto square = [](double at) {
        constexpr double far = 1e6; // squares: beyond any canvas
        return static_cast<std::int32_t>(std::clamp(std::floor(at / side), -far, far));
    };
    return {
        .left = square(box.centre.x - x),
        .top = square(box.centre.y - y),
        .right = square(box.centre.x + x),
        .bottom = square(box.centre.y + y)};
}

std::uint64_t TakenBoxes::squareAt(std::int32_t x, std::int32_t y) {
    return (static_cast<std::uint64_t>(static_cast<std::uint32_t>(y)) << 32) |
           static_cast<std::uint32_t>(x);
}

void TakenBoxes::add(const CanvasBox& box) {
    const auto number = static_cast<std::uint32_t>(boxes_.size());
    boxes_.push_back(box);
    const Span span = spanOf(box);
    const double wide = static_cast<double>(span.right) - span.left + 1.0;
    const double high = static_cast<double>(span.bottom) - span.top + 1.0;
    if (wide * high > mostSquares) {
        large_.push_back(number);
        return;
    }
    for (std::int32_t y = span.top; y <= span.bottom; ++y) {
        for (std::int32_t x = span.left; x <= span.right; ++x) {
            squares_[squareAt(x, y)].push_back(number);
        }
    }
}

bool TakenBoxes::isFree(const CanvasBox& box) const {
    const auto meets = [&](std::uint32_t number) { return overlap(box, boxes_[number]); };
    if (std::any_of(large_.begin(), large_.end(), meets)) {
        return false;
    }
    const Span span = spanOf(box);
    const double wide = static_cast<double>(span.right) - span.left + 1.0;
    const double high = static_cast<double>(span.bottom) - span.top + 1.0;
    if (wide * high > mostSquares) {
        return std::none_of(boxes_.begin(), boxes_.end(), [&](const CanvasBox& other) {
            return overlap(box, other);
        });
    }
    for (std::int32_t y = span.top; y <= span.bottom; ++y) {
        for (std::int32_t x = span.left; x <= span.right; ++x) {
            const auto found = squares_.find(squareAt(x, y));
            if (found != squares_.end() &&
                std::any_of(found->second.begin(), found->second.end(), meets)) {
                return false;
            }
        }
    }
    return true;
}

} // namespace bedlore
