// SPDX-License-Identifier: MIT
#include "core/io/import_preview_rows.hpp"

#include "core/book/page_meaning.hpp"
#include "core/book/page_words.hpp"
#include "core/io/import_text.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <limits>
#include <set>
#include <span>
#include <type_traits>
#include <utility>

namespace bedlore {

namespace {

std::string orBlank(const std::optional<Entered>& entered) {
    return entered ? printEntered(*entered) : std::string();
}

std::string geographicWords(double latitude, double longitude) {
    return printFixed(latitude, 6) + ", " + printFixed(longitude, 6);
}

std::string planeWords(double east, double north) {
    return printFixed(east, 2) + " m east, " + printFixed(north, 2) + " m north";
}

struct PlaceWords {
    std::string operator()(const std::monostate&) const { return "no place yet"; }
    std::string operator()(const GeographicPoint& place) const {
        return geographicWords(place.latitude, place.longitude);
    }
    std::string operator()(const Point& place) const { return planeWords(place.east, place.north); }
};

template <class Kind>
std::string kindWord(std::uint8_t code) {
    constexpr std::uint8_t none = 255;
    return code == none ? std::string() : std::string(word(static_cast<Kind>(code)));
}

std::string bottomCell(const FixColumns& columns, std::size_t i) {
    std::string words =
        columns.substrate.empty() ? std::string() : kindWord<Substrate>(columns.substrate[i]);
    const std::string cover =
        columns.cover.empty() ? std::string() : kindWord<Cover>(columns.cover[i]);
    return words + (words.empty() || cover.empty() ? "" : " under ") + cover;
}

std::string dayCell(const FixColumns& columns, std::size_t i) {
    if (columns.day.empty() || columns.day[i] == std::numeric_limits<std::int32_t>::min()) {
        return {};
    }
    return isoDate(std::chrono::sys_days(std::chrono::days(columns.day[i])));
}

std::string levelCell(const FixColumns& columns, std::size_t i) {
    const bool said = !columns.level.empty() && !std::isnan(columns.level[i]);
    return said ? printFixed(static_cast<double>(columns.level[i]), 2) + " m" : std::string();
}

/// The visit that a row would go to, as far as it says what a wrap is.
Visit visitOf(const ReadingRow& row, const ImportSession& session) {
    const Book& book = session.book();
    const Swim* swim = findSwim(book, session.waterId(), row.swim);
    const Visit* known = swim != nullptr ? findVisit(book, swim->id, row.date) : nullptr;
    Visit visit = known != nullptr ? *known : Visit{};
    if (row.stickGap) {
        visit.sticks = row.stickGap;
    }
    return visit;
}

std::string bearingCell(const ReadingRow& row) {
    if (!row.bearing) {
        return {};
    }
    return printNumber(row.bearing->number) + "°" +
           (row.north ? " " + std::string(northWord(*row.north)) : std::string());
}

class Previewer {
public:
    Previewer(const ImportSession& session, std::size_t most, FilePreview& preview)
        : session_(session)
        , most_(most)
        , preview_(preview) {}

    void operator()(std::monostate) const {}

    void operator()(const PageText& page) {
        begin({"as it stands", "taken as"}, page.lines.size());
        const std::span<const std::string> first(
            page.lines.data(), std::min(most_, page.lines.size()));
        const PageMeaning meaning =
            readPage(first, pageContext(session_.book(), session_.waterId()));
        for (std::size_t i = 0; i < first.size(); ++i) {
            const LineMeaning& line = meaning.lines[i];
            const std::string& asked = line.unclear.empty() ? line.remark : line.unclear;
            std::string words = line.words;
            words += (words.empty() || asked.empty() ? "" : "; ") + asked;
            for (const LineOffer& offer : line.offers) {
                words += " " + offer.words;
            }
            add(static_cast<int>(i) + 1, {first[i], std::move(words)});
            preview_.rows.back().isUnclear = !asked.empty();
        }
    }

    void operator()(const SwimRows& swims) {
        begin({"swim", "place", "tip above the water"}, swims.rows.size());
        eachOf(swims.rows, [](const SwimRow& row) {
            return Cells{row.name, std::visit(PlaceWords{}, row.place), orBlank(row.tipHeight)};
        });
    }

    void operator()(const ReelRows& reels) {
        begin({"reel", "turns", "line out"}, reels.rows.size());
        eachOf(reels.rows, [](const ReelRow& row) {
            return Cells{row.name, printNumber(row.turns), printEntered(row.distance)};
        });
    }

    void operator()(const ReadingRows& readings) {
        begin({"swim", "date", "cast", "aim", "bearing", "taken as"}, readings.rows.size());
        eachOf(readings.rows, [this](const ReadingRow& row) {
            return Cells{
                row.swim,
                isoDate(row.date),
                row.cast,
                row.aim,
                bearingCell(row),
                readingWords(row.reading, visitOf(row, session_))};
        });
    }

    void operator()(const FixRows& fixes) {
        const FixColumns& columns = fixes.columns;
        const bool geographic = fixes.frame == FixFrame::Geographic;
        begin(
            {geographic ? "latitude, longitude" : "place", "depth", "bottom", "date", "level"},
            columns.x.size());
        for (std::size_t i = 0; i < std::min(most_, columns.x.size()); ++i) {
            add(fixes.lines[i],
                {geographic ? geographicWords(columns.y[i], columns.x[i])
                            : planeWords(columns.x[i], columns.y[i]),
                 printFixed(columns.depth[i], 2) + " m",
                 bottomCell(columns, i),
                 dayCell(columns, i),
                 levelCell(columns, i)});
        }
    }

    void operator()(const ShoreOutlines& shore) {
        begin({"line", "corners", "begins at"}, shore.parts.size());
        std::size_t number = 0;
        eachOf(shore.parts, [&number](const ShoreOutline& part) {
            const GeographicPoint first =
                part.vertices.empty() ? GeographicPoint{} : part.vertices.front();
            return Cells{
                std::to_string(++number),
                std::to_string(part.vertices.size()),
                geographicWords(first.latitude, first.longitude)};
        });
    }

private:
    using Cells = std::vector<std::string>;

    void begin(Cells columns, std::size_t count) {
        preview_.columns = std::move(columns);
        preview_.rowCount = count;
    }
    void add(int line, Cells cells) {
        preview_.rows.push_back({.line = line, .cells = std::move(cells)});
    }
    template <class Rows, class CellsOf>
    void eachOf(const Rows& rows, CellsOf cellsOf) {
        for (std::size_t i = 0; i < std::min(most_, rows.size()); ++i) {
            add(rows[i].line, cellsOf(rows[i]));
        }
    }

    const ImportSession& session_;
    std::size_t most_;
    FilePreview& preview_;
};

} // namespace

FilePreview previewOf(const ParsedFile& file, const ImportSession& session, std::size_t most) {
    FilePreview preview;
    preview.name = file.name;
    preview.kind = file.kind;
    if (!file.faults.fileIsUnusable()) {
        std::visit(Previewer(session, most, preview), file.content);
    }
    return preview;
}

void markBadRows(FilePreview& preview, const FaultList& faults) {
    if (preview.kind == ImportKind::Page) {
        return; // every line of a page is kept
    }
    std::set<int> lines;
    for (const BadRow& row : faults.rows()) {
        lines.insert(row.line);
    }
    for (PreviewRow& row : preview.rows) {
        row.isBad = lines.contains(row.line);
    }
}

} // namespace bedlore
