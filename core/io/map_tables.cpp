// SPDX-License-Identifier: MIT
#include "core/io/map_tables.hpp"

#include "core/base/contract.hpp"
#include "core/io/csv_writer.hpp"
#include "core/io/new_folder.hpp"
#include "core/io/told_plane.hpp"
#include "core/units/format.hpp"

#include <cmath>
#include <optional>
#include <utility>

namespace bedlore {

namespace {

namespace fs = std::filesystem;
using Cells = std::vector<std::string>;

std::string_view wordOf(MarkTime time) {
    switch (time) {
    case MarkTime::Day:
        return "day";
    case MarkTime::Night:
        return "night";
    case MarkTime::Both:
        return "day and night";
    }
    BEDLORE_EXPECTS(false && "every time has a word");
    return {};
}

/// The two columns of a place and what stands in them.
class Places {
public:
    Places(const MapDrawing& map, const LocalFrame& frame)
        : plane_(map, frame) {
        // A plane without origin often begins where he stands.
        if (map.tier != SharingTier::All) {
            zero_ = {map.extent.west, map.extent.south};
        }
    }

    /// Latitude before longitude, as in every table here; `of` is what comes before the names.
    void addNames(Cells& header, const std::string& of = {}) const {
        header.push_back(of + (plane_.hasOrigin() ? "lat" : "east_m"));
        header.push_back(of + (plane_.hasOrigin() ? "lon" : "north_m"));
    }

    void add(Cells& row, const std::optional<Point>& place) const {
        const auto [first, second] = place ? told(*place) : std::pair<std::string, std::string>();
        row.push_back(first);
        row.push_back(second);
    }

    [[nodiscard]] std::pair<std::string, std::string> told(Point place) const {
        if (!plane_.hasOrigin()) {
            return {toldNumber(place.east - zero_.east), toldNumber(place.north - zero_.north)};
        }
        const ToldDegrees degrees = plane_.degreesOf(place);
        return {degreesText(degrees.latitude), degreesText(degrees.longitude)};
    }

private:
    ToldPlane plane_;
    Point zero_;
};

std::string metresOf(const std::optional<Length>& length) {
    return length ? toldNumber(*length / metre) : std::string();
}

class MapTables {
public:
    MapTables(
        fs::path folder, const MapDrawing& map, const LocalFrame& frame, const Progress& progress)
        : folder_(std::move(folder))
        , map_(map)
        , frame_(frame)
        , places_(map, frame)
        , progress_(progress) {}

    Result<void> writeAll() {
        writeAbout();
        writeDepths(progress_.part(0.0, 0.8));
        writeContours();
        writeBands();
        if (map_.tier == SharingTier::All) {
            writeSwims();
            writeCasts();
            writeReadings();
            writeSpots();
            writeMarks();
        }
        progress_.at(1.0);
        return progress_.cancelled() ? fail(cancelledError()) : outcome_;
    }

    [[nodiscard]] const std::vector<std::string>& names() const { return names_; }

private:
    void begin(const std::string& name, const Cells& header) {
        if (!outcome_) {
            return;
        }
        auto table = CsvWriter::create(folder_ / name);
        if (!table) {
            outcome_ = fail(std::move(table).error());
            return;
        }
        table_.emplace(*std::move(table));
        names_.push_back(name);
        row(header);
    }

    void row(const Cells& cells) {
        if (outcome_) {
            outcome_ = progress_.cancelled() ? fail(cancelledError()) : table_->row(cells);
        }
    }

    void end() {
        if (outcome_) {
            outcome_ = table_->commit();
        }
    }

    void writeAbout() {
        begin("about.csv", {"map_about", "map_words"});
        row({"title", harmlessText(map_.title)});
        for (const std::string& line : map_.subtitle) {
            row({"title", harmlessText(line)});
        }
        row(
            {"use",
             "for reading: these depths are worked out, not measured, and cannot be taken "
             "in as anybody's notes"});
        row({"depths", harmlessText(map_.levelWords)});
        row({"level_m", toldNumber(map_.level.aboveDatum / metre)});
        row({"cell_m", toldNumber(map_.depth->frame.cell)});
        if (map_.tier == SharingTier::All && map_.anglesGuessed) {
            row(
                {"bearings",
                 "some are guessed, and with them the places of their readings: see "
                 "map_bearing_guessed in casts.csv"});
        }
        for (const std::string& note : map_.notes) {
            row({"note", harmlessText(note)});
        }
        for (const std::string& caution : map_.cautions) {
            row({"caution", harmlessText(caution)});
        }
        end();
    }

    void writeDepths(const Progress& progress) {
        Cells header;
        places_.addNames(header);
        header.emplace_back("map_depth_m");
        if (map_.sigma) {
            header.emplace_back("map_error_m");
        }
        begin("depths.csv", header);
        const GridFrame& grid = map_.depth->frame;
        for (int r = 0; r < grid.rows && outcome_ && !progress.cancelled(); ++r) {
            for (int c = 0; c < grid.columns; ++c) {
                addCell(r, c);
            }
            progress.at(static_cast<double>(r) / grid.rows);
        }
        end();
    }

    void addCell(int r, int c) {
        const auto depth = static_cast<double>(map_.depth->at(r, c));
        if (!std::isfinite(depth)) {
            return;
        }
        Cells cells;
        places_.add(cells, map_.depth->frame.centre(r, c));
        cells.push_back(toldNumber(depth));
        if (map_.sigma) {
            cells.push_back(toldNumber(static_cast<double>(map_.sigma->at(r, c))));
        }
        row(cells);
    }

    void writeContours() {
        Cells header{"map_contour", "map_depth_m"};
        places_.addNames(header);
        begin("contours.csv", header);
        int number = 0;
        for (const ContourLine& line : map_.contours.lines) {
            const auto vertices = verticesOf(line);
            if (vertices.size() < 2) {
                continue; // all on one place
            }
            const std::string name = std::to_string(++number);
            for (const auto& [first, second] : vertices) {
                row({name, toldNumber(line.depth), first, second});
            }
        }
        end();
    }

    /// In their order, a closed line's first again at its end, none twice in a row.
    [[nodiscard]] std::vector<std::pair<std::string, std::string>>
    verticesOf(const ContourLine& line) const {
        std::vector<std::pair<std::string, std::string>> vertices;
        const std::size_t count = line.vertices.size() + (line.closed ? 1 : 0);
        for (std::size_t i = 0; i < count; ++i) {
            auto told = places_.told(line.vertices[i % line.vertices.size()]);
            if (vertices.empty() || vertices.back() != told) {
                vertices.push_back(std::move(told));
            }
        }
        return vertices;
    }

    void writeBands() {
        begin("depth_bands.csv", {"map_from_m", "map_to_m", "map_area_m2"});
        for (const DepthBand& band : map_.contours.bands) {
            double size = 0.0;
            for (const Polygon& polygon : band.areas) {
                size += area(polygon);
            }
            row({toldNumber(band.from), toldNumber(band.to), toldNumber(std::round(size))});
        }
        end();
    }

    void writeSwims() {
        Cells header{"map_swim"};
        places_.addNames(header);
        begin("swims.csv", header);
        for (const DrawnSwim& swim : map_.swims) {
            Cells cells{harmlessText(swim.name)};
            places_.add(cells, swim.tip);
            row(cells);
        }
        end();
    }

    /// Swim, date and name, as for each of its readings.
    [[nodiscard]] Cells namesOf(const DrawnCast& cast) const {
        return {
            harmlessText(map_.swims[cast.swim].name), isoDate(cast.date), harmlessText(cast.name)};
    }

    void writeCasts() {
        Cells header{"map_swim", "map_date", "map_cast", "map_bearing_true_deg"};
        places_.addNames(header, "tip_");
        places_.addNames(header, "end_");
        header.emplace_back("map_bearing_guessed");
        begin("casts.csv", header);
        for (const DrawnCast& cast : map_.casts) {
            Cells cells = namesOf(cast);
            cells.push_back(toldNumber(cast.bearing.degrees()));
            places_.add(cells, cast.tip);
            places_.add(cells, cast.end);
            cells.emplace_back(cast.directionGuessed ? "yes" : "no");
            row(cells);
        }
        end();
    }

    void writeReadings() {
        Cells header{"map_swim", "map_date", "map_cast", "map_line_m", "map_line_to_m"};
        for (const char* name :
             {"map_range_m",
              "map_depth_m",
              "map_bed_level_m",
              "map_depth_sigma_m",
              "map_along_sigma_m",
              "map_across_sigma_m",
              "map_bottom"}) {
            header.emplace_back(name);
        }
        places_.addNames(header);
        places_.addNames(header, "to_");
        begin("readings.csv", header);
        for (const DrawnReading& reading : map_.readings) {
            row(cellsOf(reading));
        }
        end();
    }

    [[nodiscard]] Cells cellsOf(const DrawnReading& reading) const {
        const PlacedReading& placed = reading.placed;
        Cells cells = namesOf(map_.casts[reading.cast]);
        const auto add = [&cells](const std::optional<double>& value) {
            cells.push_back(toldNumber(value));
        };
        const auto lineOf = [](const std::optional<LineOut>& line) {
            return line ? std::optional(line->length / metre) : std::nullopt;
        };
        add(lineOf(placed.line));
        add(lineOf(placed.lineTo));
        add(placed.range ? std::optional(placed.range->length / metre) : std::nullopt);
        add(placed.depth ? std::optional(placed.depth->belowSurface / metre) : std::nullopt);
        add(placed.level ? std::optional(placed.level->aboveDatum / metre) : std::nullopt);
        cells.push_back(metresOf(placed.depthSigma));
        add(placed.alongSigma / metre);
        add(placed.acrossSigma / metre);
        cells.push_back(bottomWord(reading).value_or(""));
        places_.add(cells, placed.place);
        places_.add(cells, placed.placeTo);
        return cells;
    }

    void writeSpots() {
        Cells header{"map_spot"};
        places_.addNames(header);
        begin("spots.csv", header);
        for (const DrawnSpot& spot : map_.spots) {
            Cells cells{harmlessText(spot.name)};
            places_.add(cells, spot.place);
            row(cells);
        }
        end();
    }

    void writeMarks() {
        Cells header{"map_mark", "map_seen", "map_bearing_true_deg"};
        places_.addNames(header);
        begin("marks.csv", header);
        for (const DrawnMark& mark : map_.marks) {
            Cells cells{harmlessText(mark.name), std::string(wordOf(mark.time))};
            cells.push_back(toldNumber(trueBearingOf(mark)));
            places_.add(cells, mark.place);
            row(cells);
        }
        end();
    }

    /// From the chosen swim, or from the only one.
    [[nodiscard]] std::optional<double> trueBearingOf(const DrawnMark& mark) const {
        for (const DrawnSwim& swim : map_.swims) {
            if (mark.direction && (swim.chosen || map_.swims.size() == 1)) {
                return frame_.toTrue(*mark.direction, swim.tip).degrees();
            }
        }
        return std::nullopt;
    }

    fs::path folder_;
    const MapDrawing& map_;
    const LocalFrame& frame_;
    Places places_;
    const Progress& progress_;
    std::optional<CsvWriter> table_;
    std::vector<std::string> names_;
    Result<void> outcome_; ///< the first thing that went wrong; nothing is written after it
};

} // namespace

// Source: common practice for tables that others open; a spreadsheet takes the apostrophe for the
// sign of a text and does not show it.
std::string harmlessText(std::string_view text) {
    constexpr std::string_view reckoned = "=+-@\t\r\n";
    const bool risky = !text.empty() && reckoned.find(text.front()) != std::string_view::npos;
    return (risky ? "'" : "") + std::string(text);
}

Result<std::vector<std::string>> writeMapTables(
    const fs::path& folder,
    const MapDrawing& map,
    const LocalFrame& frame,
    const Progress& progress) {
    if (map.tier != SharingTier::All && !map.emptyWords.empty()) {
        return fail(inputError(map.emptyWords));
    }
    auto target = NewFolder::create(folder);
    if (!target) {
        return fail(std::move(target).error());
    }
    MapTables tables(target->draft(), map, frame, progress);
    if (Result<void> written = tables.writeAll(); !written) {
        return fail(written.error());
    }
    std::vector<std::string> names = tables.names();
    if (Result<void> published = target->publish(names); !published) {
        return fail(published.error());
    }
    return names;
}

} // namespace bedlore
