// SPDX-License-Identifier: MIT
#include "core/geodesy/magnetic_model.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <span>

namespace bedlore {

namespace {

constexpr std::size_t maxDegree = 12;

/// Schmidt semi-normalised Gauss coefficients [nT] and their change [nT a year].
struct Coefficient {
    std::size_t n;
    std::size_t m;
    double g;
    double h;
    double gRate;
    double hRate;
};

constexpr auto wmm2015v2 = std::to_array<Coefficient>({
#include "wmm2015v2.inc"
});
constexpr auto wmm2020 = std::to_array<Coefficient>({
#include "wmm2020.inc"
});
constexpr auto wmm2025 = std::to_array<Coefficient>({
#include "wmm2025.inc"
});

constexpr std::size_t coefficientCount = maxDegree * (maxDegree + 3) / 2;
static_assert(wmm2015v2.size() == coefficientCount);
static_assert(wmm2020.size() == coefficientCount);
static_assert(wmm2025.size() == coefficientCount);

/// `declinationFloor` [°] and `declinationByField` [° nT] give the model's stated error (1 sd) of
/// the declination: sqrt(floor² + (byField / H)²), H the horizontal field.
/// Source: the error models in the agencies' own software for each model.
struct Model {
    double epoch;
    std::span<const Coefficient, coefficientCount> coefficients;
    double declinationFloor;
    double declinationByField;
};

constexpr double yearsPerModel = 5.0;
constexpr std::array<Model, 3> models{{
    {2015.0, wmm2015v2, 0.24, 5432.0},
    {2020.0, wmm2020, 0.26, 5625.0},
    {2025.0, wmm2025, 0.26, 5417.0},
}};
constexpr double firstYear = models.front().epoch;
constexpr double lastYear = models.back().epoch + yearsPerModel;
constexpr Angle errorPerYearOutside = 0.1 * degree;

const Model& modelOf(double decimalYear) {
    for (const Model& model : models) {
        if (decimalYear < model.epoch + yearsPerModel) {
            return model;
        }
    }
    return models.back();
}

double decimalYearOf(std::chrono::year_month_day date) {
    using namespace std::chrono;
    const sys_days day = sys_days(date);
    const sys_days newYear = sys_days(date.year() / January / 1);
    const sys_days nextNewYear = sys_days((date.year() + years(1)) / January / 1);
    return static_cast<double>(static_cast<int>(date.year())) +
           static_cast<double>((day - newYear).count()) /
               static_cast<double>((nextNewYear - newYear).count());
}

/// Schmidt semi-normalised associated Legendre functions of sin(latitude) and their derivatives by
/// latitude.
struct Legendre {
    using Triangle = std::array<std::array<double, maxDegree + 1>, maxDegree + 1>;
    Triangle value{};
    Triangle slope{};
};

/// Symbols as in Heiskanen & Moritz (1967) with colatitude θ: s = sin θ, c = cos θ.
/// P_nn = s·sqrt((2n−1)/2n)·P_(n−1)(n−1) (the root is 1 at n = 1),
/// P_nm = ((2n−1)·c·P_(n−1)m − sqrt((n−1)²−m²)·P_(n−2)m) / sqrt(n²−m²).
Legendre legendre(double s, double c) {
    Legendre p;
    p.value[0][0] = 1.0;
    for (std::size_t n = 1; n <= maxDegree; ++n) {
        const auto dn = static_cast<double>(n);
        const double diagonal = n == 1 ? 1.0 : std::sqrt((2.0 * dn - 1.0) / (2.0 * dn));
        p.value[n][n] = diagonal * s * p.value[n - 1][n - 1];
        p.slope[n][n] = diagonal * (s * p.slope[n - 1][n - 1] + c * p.value[n - 1][n - 1]);
        for (std::size_t m = 0; m < n; ++m) {
            const auto dm = static_cast<double>(m);
            const double scale = 1.0 / std::sqrt(dn * dn - dm * dm);
            const double before = std::sqrt(std::max(0.0, (dn - 1.0) * (dn - 1.0) - dm * dm));
            const double older = n >= 2 ? p.value[n - 2][m] : 0.0;
            const double olderSlope = n >= 2 ? p.slope[n - 2][m] : 0.0;
            p.value[n][m] = scale * ((2.0 * dn - 1.0) * c * p.value[n - 1][m] - before * older);
            p.slope[n][m] =
                scale * ((2.0 * dn - 1.0) * (c * p.slope[n - 1][m] - s * p.value[n - 1][m]) -
                         before * olderSlope);
        }
    }
    // The recursion differentiates by colatitude.
    for (auto& row : p.slope) {
        for (double& slope : row) {
            slope = -slope;
        }
    }
    return p;
}

/// A place in the earth's own sphere: geocentric latitude [rad] and distance from the centre [km].
struct Geocentric {
    double latitude;
    double radius;
};

Geocentric geocentric(double latitude, double heightKm) {
    constexpr double a = 6378.137; // WGS 84 [km]
    constexpr double f = 1.0 / 298.257223563;
    constexpr double e2 = f * (2.0 - f);
    const double primeVertical = a / std::sqrt(1.0 - e2 * std::pow(std::sin(latitude), 2));
    const double p = (primeVertical + heightKm) * std::cos(latitude);
    const double z = (primeVertical * (1.0 - e2) + heightKm) * std::sin(latitude);
    return {std::atan2(z, p), std::hypot(p, z)};
}

Angle statedError(const Model& model, double horizontalField) {
    const double byField = model.declinationByField / std::max(horizontalField, 1.0);
    return std::min(180.0, std::hypot(model.declinationFloor, byField)) * degree;
}

} // namespace

double MagneticField::horizontal() const {
    return std::hypot(north, east);
}

Angle MagneticField::declination() const {
    return std::atan2(east, north) * radian;
}

Angle MagneticField::inclination() const {
    return std::atan2(down, horizontal()) * radian;
}

// Symbols as in the technical report of the model: φ geodetic and φ′ geocentric latitude, r
// distance from the centre, a = 6371.2 km, X′ Y′ Z′ [nT] north, east and down in the sphere.
MagneticField magneticFieldAt(GeographicPoint place, Length height, double decimalYear) {
    constexpr double referenceRadius = 6371.2; // [km]
    const double year = std::clamp(decimalYear, firstYear, lastYear);
    const Model& model = modelOf(year);
    const double elapsed = year - model.epoch;

    const double latitude = (place.latitude * degree).si();
    const double longitude = (place.longitude * degree).si();
    const Geocentric sphere = geocentric(latitude, height.si() / 1000.0);
    // At a pole itself east has no meaning; a hair beside it the limit is taken.
    const double s = std::max(std::cos(sphere.latitude), 1e-10);
    const Legendre p = legendre(s, std::sin(sphere.latitude));

    double x = 0.0;
    double y = 0.0;
    double z = 0.0;
    for (const Coefficient& k : model.coefficients) {
        const auto n = static_cast<double>(k.n);
        const auto m = static_cast<double>(k.m);
        const double g = k.g + elapsed * k.gRate;
        const double h = k.h + elapsed * k.hRate;
        const double cosine = std::cos(m * longitude);
        const double sine = std::sin(m * longitude);
        const double decay = std::pow(referenceRadius / sphere.radius, n + 2.0);
        x -= decay * (g * cosine + h * sine) * p.slope[k.n][k.m];
        y += decay * m * (g * sine - h * cosine) * p.value[k.n][k.m] / s;
        z -= decay * (n + 1.0) * (g * cosine + h * sine) * p.value[k.n][k.m];
    }
    const double tilt = sphere.latitude - latitude;
    return {
        .north = x * std::cos(tilt) - z * std::sin(tilt),
        .east = y,
        .down = x * std::sin(tilt) + z * std::cos(tilt)};
}

Declination declinationAt(GeographicPoint place, std::chrono::year_month_day date) {
    const double year = decimalYearOf(date);
    const double yearsOutside = std::max({firstYear - year, year - lastYear, 0.0});
    const MagneticField field = magneticFieldAt(place, Length{}, year);
    const Model& model = modelOf(std::clamp(year, firstYear, lastYear));
    return {
        .east = field.declination(),
        .sigma = statedError(model, field.horizontal()) + yearsOutside * errorPerYearOutside,
        .outsideModels = yearsOutside > 0.0};
}

} // namespace bedlore
