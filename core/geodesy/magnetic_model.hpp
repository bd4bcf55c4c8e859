// SPDX-License-Identifier: MIT
#pragma once

#include "core/geodesy/geographic_point.hpp"
#include "core/units/bearing.hpp"
#include "core/units/length.hpp"

#include <chrono>

// Where a compass points, by the World Magnetic Model.

namespace bedlore {

/// `east` is the declination, positive where a compass points east of true north. `sigma` is the
/// model's own stated error plus 0.1° for each year outside the models' span; `outsideModels` says
/// that there are such years.
struct Declination {
    Angle east;
    Angle sigma;
    bool outsideModels = false;
};

/// At the earth's surface (height 0 above WGS 84) on `date`, by the coefficients of 2015 (v2), 2020
/// or 2025, whichever is of the date; outside 2015 to 2030 the nearest model, held at its end.
/// Source: World Magnetic Model 2015v2, 2020, 2025 (NOAA NCEI and BGS).
[[nodiscard]] Declination declinationAt(GeographicPoint place, std::chrono::year_month_day date);

/// The earth's main field [nT], in the directions of the place's own north, east and down.
struct MagneticField {
    double north = 0.0;
    double east = 0.0;
    double down = 0.0;

    [[nodiscard]] double horizontal() const;
    [[nodiscard]] Angle declination() const;
    [[nodiscard]] Angle inclination() const; ///< below the horizon
};

/// `height` above WGS 84; `decimalYear` from 2015 to 2030, held at the nearer end outside.
[[nodiscard]] MagneticField
magneticFieldAt(GeographicPoint place, Length height, double decimalYear);

} // namespace bedlore
