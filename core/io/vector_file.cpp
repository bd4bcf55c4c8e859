// SPDX-License-Identifier: MIT
#include "core/io/vector_file.hpp"

#include "core/io/geojson_text.hpp"
#include "core/io/output_file.hpp"
#include "core/units/format.hpp"

#include <array>
#include <chrono>
#include <string>
#include <utility>

namespace bedlore {

namespace {

std::optional<double> metresOf(const std::optional<Length>& length) {
    return length ? std::optional(*length / metre) : std::nullopt;
}

/// Collects the features of a map, kind by kind. What is there when it is stopped is not whole.
class Features {
public:
    Features(const MapDrawing& map, const ToldPlane& plane, const Progress& progress)
        : map_(map)
        , geometry_(plane)
        , progress_(progress) {}

    void addContours() {
        for (const ContourLine& line : map_.contours.lines) {
            if (progress_.cancelled()) {
                return;
            }
            if (const auto geometry = geometry_.line(line.vertices, line.closed)) {
                GeoJsonProperties properties("contour");
                properties.number("depth_m", line.depth);
                add(properties, *geometry);
            }
        }
    }

    void addBands() {
        for (const DepthBand& band : map_.contours.bands) {
            if (progress_.cancelled()) {
                return;
            }
            if (const auto geometry = geometry_.areas(band.areas)) {
                GeoJsonProperties properties("depth_band");
                properties.number("from_m", band.from).number("to_m", band.to);
                add(properties, *geometry);
            }
        }
    }

    void addSwims() {
        for (const DrawnSwim& swim : map_.swims) {
            if (progress_.cancelled()) {
                return;
            }
            GeoJsonProperties properties("swim");
            properties.text("swim", swim.name);
            add(properties, geometry_.point(swim.tip));
        }
    }

    void addCasts() {
        for (const DrawnCast& cast : map_.casts) {
            if (progress_.cancelled()) {
                return;
            }
            GeoJsonProperties properties("cast");
            addCastKeys(properties, cast);
            properties.number("bearing_true_deg", cast.bearing.degrees());
            const auto line = cast.end ? geometry_.line({cast.tip, *cast.end}, false)
                                       : std::optional<std::string>();
            add(properties, line.value_or("null"));
        }
    }

    void addReadings() {
        for (const DrawnReading& reading : map_.readings) {
            if (progress_.cancelled()) {
                return;
            }
            const PlacedReading& placed = reading.placed;
            GeoJsonProperties properties("reading");
            addCastKeys(properties, map_.casts[reading.cast]);
            properties.number(
                "line_m", placed.line ? std::optional(placed.line->length / metre) : std::nullopt);
            if (placed.lineTo) {
                properties.number("line_to_m", placed.lineTo->length / metre);
            }
            properties
                .number(
                    "range_m",
                    placed.range ? std::optional(placed.range->length / metre) : std::nullopt)
                .number(
                    "depth_m",
                    placed.depth ? std::optional(placed.depth->belowSurface / metre) : std::nullopt)
                .number(
                    "bed_level_m",
                    placed.level ? std::optional(placed.level->aboveDatum / metre) : std::nullopt)
                .number("depth_sigma_m", metresOf(placed.depthSigma))
                .number("along_sigma_m", placed.alongSigma / metre)
                .number("across_sigma_m", placed.acrossSigma / metre)
                .textOrNull("bottom", bottomWord(reading));
            add(properties, geometryOf(placed));
        }
    }

    void addSpots() {
        for (const DrawnSpot& spot : map_.spots) {
            if (progress_.cancelled()) {
                return;
            }
            GeoJsonProperties properties("spot");
            properties.text("spot", spot.name);
            add(properties, geometry_.point(spot.place));
        }
    }

    [[nodiscard]] std::string collection() const {
        return R"({"type":"FeatureCollection","level_m":)" +
               printExact(map_.level.aboveDatum / metre) + ",\"features\":[" + features_ + "\n]}\n";
    }

private:
    void addCastKeys(GeoJsonProperties& properties, const DrawnCast& cast) const {
        properties.text("swim", map_.swims[cast.swim].name)
            .text("date", isoDate(cast.date))
            .text("cast", cast.name);
    }

    [[nodiscard]] std::string geometryOf(const PlacedReading& placed) const {
        if (!placed.place) {
            return "null";
        }
        if (placed.placeTo) {
            if (const auto line = geometry_.line({*placed.place, *placed.placeTo}, false)) {
                return *line;
            }
        }
        return geometry_.point(*placed.place);
    }

    void add(const GeoJsonProperties& properties, std::string_view geometry) {
        features_ += (features_.empty() ? "\n" : ",\n") + geoJsonFeature(properties, geometry);
    }

    const MapDrawing& map_;
    GeoJsonGeometry geometry_;
    const Progress& progress_;
    std::string features_;
};

} // namespace

Result<void> writeGeoJson(
    const std::filesystem::path& path,
    const MapDrawing& map,
    const LocalFrame& frame,
    const Progress& progress) {
    if (!frame.hasOrigin()) {
        return fail(inputError(
            "This water has no position on the earth, and GeoJSON needs one. Give a swim its "
            "latitude and longitude, or export a GeoTIFF instead."));
    }
    // A file that cannot be written is refused before the work.
    auto target = OutputFile::create(path);
    if (!target) {
        return fail(std::move(target).error());
    }
    const ToldPlane plane(map, frame);
    Features features(map, plane, progress);
    using Step = void (Features::*)();
    constexpr std::array<Step, 6> steps{
        &Features::addContours,
        &Features::addBands,
        &Features::addSwims,
        &Features::addCasts,
        &Features::addReadings,
        &Features::addSpots};
    double done = 0.0;
    for (const Step step : steps) {
        if (progress.cancelled()) {
            return fail(cancelledError());
        }
        (features.*step)();
        done += 1.0;
        progress.at(done / static_cast<double>(std::size(steps)));
    }
    return target->finish(features.collection(), progress);
}

} // namespace bedlore
