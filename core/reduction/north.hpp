// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/book/place.hpp"
#include "core/geodesy/local_frame.hpp"
#include "core/geodesy/magnetic_model.hpp"

#include <optional>

// What turns a bearing of the notes into one of the water's plane.

namespace bedlore {

/// Where the norths lie at a place of the plane on a day.
class NorthAt {
public:
    /// `position` is the water's own, for the compass where the plane has no origin.
    NorthAt(
        const LocalFrame& frame, Point place, std::optional<GeographicPoint> position, Date date);

    /// A true bearing by the plane's convergence (none without an origin: its north is then the
    /// plane's), a magnetic one also by the declination of the day, a grid one as it is. Fails for
    /// a magnetic one where nobody knows the place on the earth, and for what is no number.
    [[nodiscard]] Result<PlaneBearing> toPlane(const BearingEntry& entry) const;

    /// None where nobody knows the place on the earth.
    [[nodiscard]] const std::optional<Declination>& declination() const { return declination_; }
    [[nodiscard]] const LocalFrame& frame() const { return frame_; }

private:
    LocalFrame frame_;
    Angle convergence_;
    std::optional<Declination> declination_;
};

/// One bearing of the notes in the plane; fails for a magnetic one in a plane without origin.
[[nodiscard]] Result<PlaneBearing>
planeBearing(const BearingEntry& entry, const LocalFrame& frame, Point place, Date date);

} // namespace bedlore
