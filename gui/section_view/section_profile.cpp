// SPDX-License-Identifier: MIT
#include "gui/section_view/section_profile.hpp"

#include "core/chart/map_notes.hpp"

#include <algorithm>
#include <cmath>

namespace bedlore {

namespace {

constexpr int sampleCount = 340;
constexpr double beyond = 1.06;        // of the farthest reading
constexpr double shortestReach = 10.0; // metres

SectionReading onSection(const BedMap& map, const PlacedReading& placed, const Reading& record) {
    SectionReading reading;
    reading.reading = placed.reading;
    reading.range = placed.range->length.si();
    if (placed.place && placed.placeTo) {
        // Both ends lie on the aim, so the stretch is as long as they are apart.
        const double length = std::hypot(
            placed.placeTo->east - placed.place->east, placed.placeTo->north - placed.place->north);
        reading.to = std::max(reading.range - length, 0.0);
    }
    if (placed.level) {
        reading.depth = depthAt(*placed.level, map.level).belowSurface.si();
    }
    reading.substrate = record.substrate;
    reading.cover = record.cover;
    reading.drop = symbolOf(record.drop);
    reading.doubtful = record.sureness == 1;
    reading.outcome = record.outcome.has_value();
    return reading;
}

} // namespace

Result<SectionProfile>
makeSection(const BedMap& map, const AimLine& aim, const Progress& progress) {
    SectionProfile section;
    section.aim = aim;
    section.tipHeight = aim.tipHeight.si();
    section.reach = std::max(aim.reach.si() * beyond, shortestReach);
    section.sampledTo = section.reach * sampledBeyond;
    std::vector<Point> places;
    places.reserve(sampleCount + 1);
    for (int i = 0; i <= sampleCount; ++i) {
        const double range = section.sampledTo * i / sampleCount;
        places.push_back(placeOn(aim.tip, aim.direction, range * metre));
    }
    Result<std::vector<BedEstimate>> bed = map.surface.at(places, progress);
    if (!bed) {
        return fail(bed.error());
    }
    for (std::size_t i = 0; i < bed->size(); ++i) {
        SectionSample sample;
        sample.range = section.sampledTo * static_cast<double>(i) / sampleCount;
        sample.depth = depthAt({(*bed)[i].level * metre}, map.level).belowSurface.si();
        sample.sigma = (*bed)[i].sigma;
        sample.known = (*bed)[i].known;
        if (sample.known && sample.range <= section.reach) {
            section.deepest = std::max(section.deepest, sample.depth);
        }
        section.samples.push_back(sample);
    }
    for (const PlacedReading& placed : map.reduction.readings) {
        const bool onAim =
            std::find(aim.casts.begin(), aim.casts.end(), placed.cast) != aim.casts.end();
        const Reading* record = map.book->find(placed.reading);
        if (!onAim || record == nullptr || !placed.range) {
            continue;
        }
        section.readings.push_back(onSection(map, placed, *record));
        section.deepest = std::max(section.deepest, section.readings.back().depth.value_or(0.0));
    }
    std::stable_sort(
        section.readings.begin(),
        section.readings.end(),
        [](const SectionReading& a, const SectionReading& b) { return a.range > b.range; });
    return section;
}

} // namespace bedlore
