// SPDX-License-Identifier: MIT
#include "core/io/derived_tables.hpp"

#include "core/base/contract.hpp"
#include "core/io/field_codec.hpp"
#include "core/io/geopackage_schema.hpp"
#include "core/io/layer_table.hpp"
#include "core/units/format.hpp"

#include <cpl_error.h>
#include <ogr_spatialref.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <limits>
#include <string>
#include <unordered_map>
#include <utility>

namespace bedlore {

namespace {

constexpr std::array<std::string_view, 3> layerNames{"swims", "casts", "soundings"};
constexpr std::array<std::string_view, 3> planeLayerNames{
    "swims_plane", "casts_plane", "soundings_plane"};

const LayerShape& swimShape() {
    static const LayerShape shape{
        .geometryType = "POINT",
        .columns = {"water TEXT", "swim TEXT", "place_sigma_m REAL"},
        .description = "where the rod tip was held; made from the notes"};
    return shape;
}
const LayerShape& castShape() {
    static const LayerShape shape{
        .geometryType = "LINESTRING",
        .columns =
            {"water TEXT",
             "swim TEXT",
             "date DATE",
             "\"cast\" TEXT",
             "bearing_true_deg REAL",
             "bearing_guessed BOOLEAN"},
        .description = "from the rod tip to the farthest reading; made from the notes"};
    return shape;
}
const LayerShape& soundingShape() {
    static const LayerShape shape{
        .geometryType = "POINT",
        .columns =
            {"water TEXT",
             "swim TEXT",
             "date DATE",
             "\"cast\" TEXT",
             "line_m REAL",
             "range_m REAL",
             "depth_m REAL",
             "bed_level_m REAL",
             "depth_sigma_m REAL",
             "along_sigma_m REAL",
             "across_sigma_m REAL",
             "bottom TEXT",
             "cover TEXT",
             "reading INTEGER",
             "fix_set INTEGER"},
        .description = "depths where they were read; made from the notes"};
    return shape;
}

template <class Kind>
LayerValue wordOf(const std::optional<Kind>& kind) {
    return kind ? LayerValue(word(*kind)) : LayerValue();
}

template <class Kind>
std::optional<Kind> fixKind(const std::vector<std::uint8_t>& column, std::size_t row) {
    constexpr std::uint8_t none = 255;
    if (column.empty() || column[row] == none) {
        return std::nullopt;
    }
    return static_cast<Kind>(column[row]);
}

/// The word for what the bed is made of, else for what lies on it.
LayerValue bottomOf(std::optional<Substrate> substrate, std::optional<Cover> cover) {
    return substrate ? wordOf(substrate) : wordOf(cover);
}

LayerValue dateOfDay(const FixColumns& fixes, std::size_t row) {
    constexpr auto none = std::numeric_limits<std::int32_t>::min();
    if (fixes.day.empty() || fixes.day[row] == none) {
        return {};
    }
    const Date date{std::chrono::sys_days{std::chrono::days{fixes.day[row]}}};
    return isoDate(date);
}

/// Tells how many of all rows are written.
class RowCount {
public:
    RowCount(std::size_t all, const Progress& progress)
        : all_(all)
        , progress_(progress) {}

    void oneMore() {
        constexpr std::size_t between = 4096; // reports
        if (++done_ % between == 0) {
            progress_.at(static_cast<double>(done_) / static_cast<double>(all_));
        }
    }

private:
    std::size_t all_;
    std::size_t done_ = 0;
    const Progress& progress_;
};

using PlacedById = std::unordered_map<Id<Reading>, const PlacedReading*>;

/// Fills the layers of one system from the reductions that belong into it.
class Layers {
public:
    Layers(Database& database, const Book& book, int srsId, RowCount& count)
        : database_(database)
        , book_(book)
        , srsId_(srsId)
        , count_(count) {}

    Result<void> write(
        const std::vector<const Reduction*>& reductions,
        std::span<const std::string_view, 3> names) {
        struct Layer {
            const LayerShape& shape;
            Result<void> (Layers::*fill)(LayerTable&, const Reduction&);
        };
        const std::array<Layer, 3> layers{
            {{swimShape(), &Layers::addSwims},
             {castShape(), &Layers::addCasts},
             {soundingShape(), &Layers::addSoundings}}};
        for (std::size_t i = 0; i < layers.size(); ++i) {
            Result<LayerTable> table =
                LayerTable::start(database_, std::string(names[i]), srsId_, layers[i].shape);
            if (!table) {
                return fail(table.error());
            }
            for (const Reduction* reduction : reductions) {
                if (Result<void> done = (this->*layers[i].fill)(*table, *reduction); !done) {
                    return done;
                }
            }
            if (Result<void> done = table->finish(); !done) {
                return done;
            }
        }
        return {};
    }

private:
    static LayerPoint onLayer(const LocalFrame& frame, Point place) {
        if (!frame.hasOrigin()) {
            return {.x = place.east, .y = place.north};
        }
        const GeographicPoint geographic = frame.toGeographic(place);
        return {.x = geographic.longitude, .y = geographic.latitude};
    }

    [[nodiscard]] LayerValue waterName(const Reduction& reduction) const {
        const Water* water = book_.find(reduction.water);
        return water != nullptr ? LayerValue(std::string_view(water->name)) : LayerValue();
    }

    Result<void> addSwims(LayerTable& table, const Reduction& reduction) {
        for (const ReducedSwim& swim : reduction.swims) {
            const LayerPoint tip = onLayer(reduction.frame, swim.tip);
            if (Result<void> done = table.add(
                    swim.swim.value,
                    std::span(&tip, 1),
                    {waterName(reduction), std::string_view(swim.name), swim.placeSigma / metre});
                !done) {
                return done;
            }
        }
        return {};
    }

    Result<void> addCasts(LayerTable& table, const Reduction& reduction) {
        std::vector<const PlacedReading*> farthest(reduction.casts.size(), nullptr);
        for (const PlacedReading& reading : reduction.readings) {
            const PlacedReading*& best = farthest[reading.cast];
            const bool farther = best == nullptr || !best->range || *best->range < *reading.range;
            if (reading.place && reading.range && farther) {
                best = &reading;
            }
        }
        for (std::size_t i = 0; i < farthest.size(); ++i) {
            if (farthest[i] == nullptr) {
                continue;
            }
            const ReducedCast& cast = reduction.casts[i];
            const ReducedVisit& visit = reduction.visits[cast.visit];
            const ReducedSwim& swim = reduction.swims[visit.swim];
            const std::array<LayerPoint, 2> line{
                onLayer(reduction.frame, swim.tip), onLayer(reduction.frame, *farthest[i]->place)};
            const Bearing bearing = reduction.frame.toTrue(cast.direction, swim.tip);
            if (Result<void> done = table.add(
                    cast.cast.value,
                    line,
                    {waterName(reduction),
                     std::string_view(swim.name),
                     isoDate(visit.date),
                     std::string_view(cast.name),
                     bearing.degrees(),
                     std::int64_t{cast.directionGuessed ? 1 : 0}});
                !done) {
                return done;
            }
        }
        return {};
    }

    Result<void> addSoundings(LayerTable& table, const Reduction& reduction) {
        PlacedById placed;
        for (const PlacedReading& reading : reduction.readings) {
            placed.emplace(reading.reading, &reading);
        }
        for (const Sounding& sounding : reduction.soundings) {
            const LayerPoint place = onLayer(reduction.frame, sounding.place);
            const auto* fix = std::get_if<FixRow>(&sounding.source);
            const std::int64_t id =
                fix != nullptr ? nextFixId_++ : std::get<Id<Reading>>(sounding.source).value;
            const std::vector<LayerValue> row = fix != nullptr
                                                    ? fixRow(reduction, sounding, *fix)
                                                    : readingRow(reduction, sounding, placed);
            if (Result<void> done = table.add(id, std::span(&place, 1), row); !done) {
                return done;
            }
            count_.oneMore();
        }
        return {};
    }

    [[nodiscard]] std::vector<LayerValue> readingRow(
        const Reduction& reduction, const Sounding& sounding, const PlacedById& placed) const {
        BEDLORE_EXPECTS(sounding.line.has_value());
        const LineGeometry& line = *sounding.line;
        const ReducedCast& cast = reduction.casts[line.cast];
        const ReducedVisit& visit = reduction.visits[cast.visit];
        const Id<Reading> id = std::get<Id<Reading>>(sounding.source);
        const Reading* reading = book_.find(id);
        const auto substrate = reading != nullptr ? reading->substrate : std::nullopt;
        const auto cover = reading != nullptr ? reading->cover : std::nullopt;
        const auto at = placed.find(id);
        const bool errorKnown = at != placed.end();
        const Depth depth = depthAt(sounding.level, visit.level);
        return {
            waterName(reduction),
            std::string_view(reduction.swims[visit.swim].name),
            isoDate(visit.date),
            std::string_view(cast.name),
            line.line.length / metre,
            line.range.length / metre,
            depth.belowSurface / metre,
            sounding.level.aboveDatum / metre,
            sounding.levelSigma / metre,
            errorKnown ? LayerValue(at->second->alongSigma / metre) : LayerValue(),
            errorKnown ? LayerValue(at->second->acrossSigma / metre) : LayerValue(),
            bottomOf(substrate, cover),
            wordOf(cover),
            id.value,
            {}};
    }

    [[nodiscard]] std::vector<LayerValue>
    fixRow(const Reduction& reduction, const Sounding& sounding, const FixRow& fix) const {
        const FixSet* set = book_.find(fix.set);
        const bool known = set != nullptr && set->columns && fix.row < set->columns->x.size();
        static const FixColumns nothing;
        const FixColumns& columns = known ? *set->columns : nothing;
        const auto cover = fixKind<Cover>(columns.cover, fix.row);
        return {
            waterName(reduction),
            {},
            dateOfDay(columns, fix.row),
            {},
            {},
            {},
            known ? LayerValue(columns.depth[fix.row]) : LayerValue(),
            sounding.level.aboveDatum / metre,
            sounding.levelSigma / metre,
            sounding.placeSigma / metre,
            sounding.placeSigma / metre,
            bottomOf(fixKind<Substrate>(columns.substrate, fix.row), cover),
            wordOf(cover),
            {},
            fix.set.value};
    }

    Database& database_;
    const Book& book_;
    int srsId_;
    RowCount& count_;
    // Above any id that a book's counter reaches, so that a fix never takes a reading's.
    std::int64_t nextFixId_ = std::int64_t{1} << 53;
};

/// The plane in the text form that this version of the standard wants (OGC 01-009), empty where it
/// cannot be made.
std::string olderWkt(const LocalFrame& frame) {
    const CPLErrorHandlerPusher quiet(CPLQuietErrorHandler);
    OGRSpatialReference reference;
    char* text = nullptr;
    const std::array<const char*, 2> options{"FORMAT=WKT1_GDAL", nullptr};
    std::string result;
    if (reference.importFromWkt(frame.wkt().c_str()) == OGRERR_NONE &&
        reference.exportToWkt(&text, options.data()) == OGRERR_NONE) {
        result = text;
    }
    CPLFree(text);
    return result;
}

/// Lists the plane of a water, so that a GIS can draw in the metres that the program works in.
Result<void> listPlane(Database& database, const Reduction& reduction) {
    // Below 100,000 are the numbers of public registers.
    constexpr std::int64_t firstOwnSrsId = 100000;
    const std::string wkt = reduction.frame.hasOrigin() ? olderWkt(reduction.frame) : "";
    if (wkt.empty()) {
        return {};
    }
    Result<Statement> put =
        database.prepare("INSERT INTO gpkg_spatial_ref_sys VALUES (?1, ?2, 'NONE', ?2, ?3, "
                         "'metres east and north of the middle of the first swims') "
                         "ON CONFLICT (srs_id) DO UPDATE SET definition = excluded.definition");
    if (!put) {
        return fail(put.error());
    }
    const std::string name = "Plane of water " + std::to_string(reduction.water.value);
    put->bind(1, std::string_view(name));
    put->bind(2, firstOwnSrsId + reduction.water.value);
    put->bind(3, std::string_view(wkt));
    return put->run();
}

} // namespace

std::vector<std::string_view> derivedTableNames() {
    std::vector<std::string_view> names(layerNames.begin(), layerNames.end());
    names.insert(names.end(), planeLayerNames.begin(), planeLayerNames.end());
    return names;
}

Result<void> writeDerivedTables(
    Database& database,
    const Book& book,
    const std::vector<Reduction>& reductions,
    const Progress& progress) {
    std::vector<const Reduction*> onEarth;
    std::vector<const Reduction*> inPlane;
    std::size_t rows = 0;
    for (const Reduction& reduction : reductions) {
        rows += reduction.soundings.size();
        (reduction.frame.hasOrigin() ? onEarth : inPlane).push_back(&reduction);
        if (Result<void> done = listPlane(database, reduction); !done) {
            return done;
        }
    }
    RowCount count(rows, progress);
    const bool planeAlone = onEarth.empty() && !inPlane.empty();
    if (planeAlone || inPlane.empty()) {
        for (const std::string_view name : planeLayerNames) {
            if (Result<void> done = LayerTable::drop(database, std::string(name)); !done) {
                return done;
            }
        }
    } else if (Result<void> done =
                   Layers(database, book, cartesianSrsId, count).write(inPlane, planeLayerNames);
               !done) {
        return done;
    }
    return planeAlone ? Layers(database, book, cartesianSrsId, count).write(inPlane, layerNames)
                      : Layers(database, book, wgs84SrsId, count).write(onEarth, layerNames);
}

} // namespace bedlore
