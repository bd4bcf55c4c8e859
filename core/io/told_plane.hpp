// SPDX-License-Identifier: MIT
#pragma once

#include "core/chart/map_drawing.hpp"
#include "core/geodesy/local_frame.hpp"

#include <cstdint>
#include <optional>
#include <string>

// Where places are said to be in the files of a map.

namespace bedlore {

/// A place in whole ten-millionths of a degree (about a centimetre): rounded once, compared
/// exactly.
struct ToldDegrees {
    std::int64_t longitude = 0;
    std::int64_t latitude = 0;
    friend bool operator==(const ToldDegrees&, const ToldDegrees&) = default;
};

/// Seven decimals.
[[nodiscard]] std::string degreesText(std::int64_t tenMillionths);

/// At most four decimals; nothing where it is empty or not finite.
[[nodiscard]] std::string toldNumber(std::optional<double> value);

/// The water's own plane for a map that shows the swims anyway; below tier `All` the neutral one,
/// for everything that is written, so that neither a plane's origin nor the lie of a grid shows
/// where he stands. A plane without origin stays as it is.
class ToldPlane {
public:
    /// `frame` is the water's plane.
    ToldPlane(const MapDrawing& map, const LocalFrame& frame);

    [[nodiscard]] bool hasOrigin() const { return told_.plane.hasOrigin(); }
    /// Only with an origin.
    [[nodiscard]] ToldDegrees degreesOf(Point place) const;

    /// A grid's coordinate reference system and its north-west corner in it, at whole cells.
    struct Grid {
        std::string wkt;
        Point corner;
    };
    [[nodiscard]] Grid of(const GridFrame& grid) const;

private:
    NeutralPlane told_;
};

} // namespace bedlore
