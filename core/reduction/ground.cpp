// SPDX-License-Identifier: MIT
#include "core/reduction/ground.hpp"

#include "core/reduction/uncertainty.hpp"

#include <algorithm>
#include <tuple>
#include <utility>

namespace bedlore {

namespace {

bool isPlaced(const Swim& swim) {
    return !std::holds_alternative<std::monostate>(swim.place);
}

bool hasFixes(const Book& book, const Water& water) {
    const auto& sets = book.all<FixSet>();
    return std::any_of(sets.begin(), sets.end(), [&](const FixSet& set) {
        return set.water == water.id && set.columns && !set.columns->x.empty();
    });
}

/// The middle of the first geographic set of fixes.
std::optional<GeographicPoint> middleOfFixes(const Book& book, const Water& water) {
    for (const FixSet& set : book.all<FixSet>()) {
        const bool geographic = set.water == water.id && set.frame == FixFrame::Geographic &&
                                set.columns && !set.columns->x.empty();
        if (!geographic) {
            continue;
        }
        const auto [west, east] = std::minmax_element(set.columns->x.begin(), set.columns->x.end());
        const auto [south, north] =
            std::minmax_element(set.columns->y.begin(), set.columns->y.end());
        return planeOriginFor({GeographicPoint{0.5 * (*south + *north), 0.5 * (*west + *east)}});
    }
    return std::nullopt;
}

std::optional<GeographicPoint> originOf(const Book& book, const Water& water) {
    if (water.planeOrigin) {
        return water.planeOrigin;
    }
    std::vector<GeographicPoint> places;
    for (const Swim* swim : swimsOf(book, water.id)) {
        if (const auto* place = std::get_if<GeographicPoint>(&swim->place)) {
            places.push_back(*place);
        }
    }
    // The mean does not depend on which swim was entered first, not even in its last digit.
    std::sort(places.begin(), places.end(), [](GeographicPoint a, GeographicPoint b) {
        return std::pair(a.latitude, a.longitude) < std::pair(b.latitude, b.longitude);
    });
    return places.empty() ? middleOfFixes(book, water) : planeOriginFor(places);
}

std::optional<Point> tipOf(const Swim& swim, const LocalFrame& frame) {
    if (const auto* point = std::get_if<Point>(&swim.place)) {
        return *point;
    }
    const auto* place = std::get_if<GeographicPoint>(&swim.place);
    if (place != nullptr && frame.hasOrigin()) {
        return frame.toPlane(*place);
    }
    return std::nullopt;
}

} // namespace

Ground groundOf(const Book& book, const Water& water, const std::optional<Id<Swim>>& alone) {
    Ground ground;
    const std::vector<const Swim*> swims = swimsOf(book, water.id);
    const Swim* single = alone ? book.find(*alone) : nullptr;
    if (single == nullptr && swims.size() == 1 && !hasFixes(book, water)) {
        single = swims.front();
    }
    if (single != nullptr && !isPlaced(*single)) {
        ground.swims.push_back(
            {.swim = single->id, .name = single->name, .tip = {}, .placeSigma = {}});
        return ground;
    }
    if (const auto origin = originOf(book, water)) {
        if (auto frame = LocalFrame::atOrigin(*origin)) {
            ground.frame = std::move(*frame);
        } else {
            ground.notices.push_back(
                {.about = AnyId(water.id), .sentence = frame.error().message, .refused = true});
        }
    }
    for (const Swim* swim : swims) {
        if (const auto tip = tipOf(*swim, ground.frame)) {
            ground.swims.push_back(
                {.swim = swim->id,
                 .name = swim->name,
                 .tip = *tip,
                 .placeSigma = usual::swimPlace});
        } else {
            ground.notices.push_back(
                {.about = AnyId(swim->id),
                 .sentence = "Swim " + swim->name +
                             " has no place on this water yet, so it is mapped by itself only.",
                 .refused = false});
        }
    }
    std::stable_sort(
        ground.swims.begin(), ground.swims.end(), [](const ReducedSwim& a, const ReducedSwim& b) {
            return std::tuple(a.name, a.tip.east, a.tip.north) <
                   std::tuple(b.name, b.tip.east, b.tip.north);
        });
    return ground;
}

} // namespace bedlore
