// SPDX-License-Identifier: MIT
#pragma once

#include "core/chart/canvas_box.hpp"

#include <cstddef>
#include <cstdint>
#include <unordered_map>
#include <vector>

namespace bedlore {

/// Boxes on a canvas, found by where they are: asking costs what is near, however many there are.
class TakenBoxes {
public:
    TakenBoxes() = default;
    explicit TakenBoxes(const std::vector<CanvasBox>& boxes);

    void add(const CanvasBox& box);
    /// Whether it overlaps none of them.
    [[nodiscard]] bool isFree(const CanvasBox& box) const;
    /// All of them, in the order in which they came.
    [[nodiscard]] const std::vector<CanvasBox>& boxes() const { return boxes_; }

private:
    /// Squares of the canvas that the upright box round a box touches.
    struct Span {
        std::int32_t left = 0;
        std::int32_t top = 0;
        std::int32_t right = 0;
        std::int32_t bottom = 0;
    };
    [[nodiscard]] static Span spanOf(const CanvasBox& box);
    [[nodiscard]] static std::uint64_t squareAt(std::int32_t x, std::int32_t y);

    std::vector<CanvasBox> boxes_;
    std::unordered_map<std::uint64_t, std::vector<std::uint32_t>> squares_;
    std::vector<std::uint32_t> large_; ///< over many squares: looked at every time
};

} // namespace bedlore
