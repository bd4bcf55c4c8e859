// SPDX-License-Identifier: MIT
#include "core/geodesy/local_frame.hpp"
#include "core/io/import_places.hpp"
#include "core/io/import_session.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <filesystem>
#include <memory>
#include <utility>

// Fixes into the book, as one set of columns.

namespace bedlore {

namespace {

GeographicPoint placeAt(const FixColumns& columns, std::size_t i) {
    return {.latitude = columns.y[i], .longitude = columns.x[i]};
}

GeographicPoint medianOf(const FixColumns& columns) {
    const auto middle = static_cast<std::ptrdiff_t>(columns.x.size() / 2);
    GeographicPoint result;
    std::vector<double> sorted = columns.y;
    std::nth_element(sorted.begin(), sorted.begin() + middle, sorted.end());
    result.latitude = sorted[static_cast<std::size_t>(middle)];
    sorted = columns.x;
    std::nth_element(sorted.begin(), sorted.begin() + middle, sorted.end());
    result.longitude = sorted[static_cast<std::size_t>(middle)];
    return result;
}

template <class T>
void keep(std::vector<T>& column, const std::vector<bool>& kept) {
    if (column.empty()) {
        return;
    }
    std::size_t count = 0;
    for (std::size_t i = 0; i < kept.size(); ++i) {
        if (kept[i]) {
            column[count++] = column[i];
        }
    }
    column.resize(count);
}

/// Takes out and notes the rows that lie far from all others.
void dropFarPlaces(FixRows& fixes, GeographicPoint reference, FaultList& faults) {
    FixColumns& columns = fixes.columns;
    std::vector<bool> kept(columns.x.size(), true);
    bool all = true;
    for (std::size_t i = 0; i < kept.size(); ++i) {
        const GeographicPoint place = placeAt(columns, i);
        if (roughDistance(place, reference) > farthestPlace) {
            kept[i] = false;
            all = false;
            faults.add(
                fixes.lines[i],
                "lat",
                printExact(place.latitude) + ", " + printExact(place.longitude),
                std::string(nearOtherPlaces));
        }
    }
    if (all) {
        return;
    }
    keep(columns.x, kept);
    keep(columns.y, kept);
    keep(columns.depth, kept);
    keep(columns.sigma, kept);
    keep(columns.level, kept);
    keep(columns.day, kept);
    keep(columns.substrate, kept);
    keep(columns.cover, kept);
}

/// Halfway between the outermost fixes, so that it does not lie where the boat happened to dwell.
GeographicPoint originFor(const FixColumns& columns) {
    const auto [west, east] = std::minmax_element(columns.x.begin(), columns.x.end());
    const auto [south, north] = std::minmax_element(columns.y.begin(), columns.y.end());
    return planeOriginFor({{*south, *west}, {*north, *east}});
}

} // namespace

Result<void> planFixes(ImportSession& session, ParsedFile& parsed, Id<ImportedFile> file) {
    auto& fixes = std::get<FixRows>(parsed.content);
    const bool geographic = fixes.frame == FixFrame::Geographic;
    if (fixes.columns.x.empty()) {
        return {};
    }
    if (const auto why = whyPlacesDoNotFit(session.book(), session.water(), geographic)) {
        parsed.faults.addForFile(
            1,
            geographic ? "lat" : "east_m",
            geographic ? "latitude and longitude" : "metres east and north",
            *why);
        return {};
    }
    const auto& origin = session.water().planeOrigin;
    if (geographic) {
        dropFarPlaces(fixes, origin ? *origin : medianOf(fixes.columns), parsed.faults);
    }
    if (fixes.columns.x.empty()) {
        return {};
    }
    Edits edits;
    if (geographic && !origin) {
        Water water = session.water();
        water.planeOrigin = originFor(fixes.columns);
        edits.emplace_back(Put<Water>{std::move(water)});
    }
    FixSet set;
    set.id = session.ids().take<FixSet>();
    set.water = session.waterId();
    set.name = std::filesystem::path(parsed.name).stem().string();
    set.file = file;
    set.frame = fixes.frame;
    set.columns = std::make_shared<const FixColumns>(std::move(fixes.columns));
    edits.emplace_back(Put<FixSet>{std::move(set)});
    return session.apply(std::move(edits));
}

} // namespace bedlore
