// SPDX-License-Identifier: MIT
#include "core/io/csv_header.hpp"

#include "core/base/contract.hpp"
#include "core/io/import_text.hpp"

#include <algorithm>
#include <array>

namespace bedlore {

namespace {

using Names = std::span<const std::string_view>;

constexpr std::array<std::string_view, 6> swimColumns{
    "swim", "lat", "lon", "east_m", "north_m", "tip_height_m"};
constexpr std::array<std::string_view, 3> reelColumns{"reel", "turns", "distance_m"};
constexpr std::array<std::string_view, 21> readingColumns{
    "swim",         "date",       "cast",   "bearing", "north",       "distance", "distance_unit",
    "depth",        "depth_unit", "bottom", "note",    "distance_to", "reel",     "aim",
    "stick_gap_ft", "level_m",    "drop",   "pull",    "on_lead",     "sure",     "outcome"};
constexpr std::array<std::string_view, 9> fixColumns{
    "lat", "lon", "east_m", "north_m", "depth_m", "bottom", "sigma_m", "date", "level_m"};
constexpr std::array<std::string_view, 3> shorelineColumns{"part", "lat", "lon"};

constexpr std::array<std::string_view, 2> readingSign{"swim", "distance"};
constexpr std::array<std::string_view, 2> reelSign{"reel", "turns"};
constexpr std::array<std::string_view, 2> swimSign{"swim", "tip_height_m"};
constexpr std::array<std::string_view, 1> shorelineSign{"part"};
constexpr std::array<std::string_view, 1> fixSign{"depth_m"};

/// `sign` are the columns that tell the kind; the first `required` columns must be there, those of
/// a place aside.
struct Layout {
    ImportKind kind;
    Names columns;
    Names sign;
    std::size_t required;
};

// Looked through from the top: what is more particular first.
const std::array<Layout, 5> layouts{{
    {ImportKind::Readings, readingColumns, readingSign, 11},
    {ImportKind::Reels, reelColumns, reelSign, 3},
    {ImportKind::Swims, swimColumns, swimSign, 6},
    {ImportKind::Fixes, fixColumns, fixSign, 5},
    {ImportKind::Shoreline, shorelineColumns, shorelineSign, 3},
}};

const Layout& layoutOf(ImportKind kind) {
    const auto found = std::find_if(
        layouts.begin(), layouts.end(), [&](const Layout& layout) { return layout.kind == kind; });
    BEDLORE_EXPECTS(found != layouts.end());
    return *found;
}

const Layout* layoutWithSign(const std::vector<std::string>& names) {
    for (const Layout& layout : layouts) {
        const bool all =
            std::all_of(layout.sign.begin(), layout.sign.end(), [&](std::string_view name) {
                return std::find(names.begin(), names.end(), name) != names.end();
            });
        if (all) {
            return &layout;
        }
    }
    return nullptr;
}

bool isIn(Names columns, std::string_view name) {
    return std::find(columns.begin(), columns.end(), name) != columns.end();
}

/// How many of `names` are columns of `layout`; zero where none of them is particular to tables of
/// this trade.
std::size_t likeness(const Layout& layout, const std::vector<std::string>& names) {
    constexpr std::array<std::string_view, 6> particular{
        "swim", "reel", "turns", "tip_height_m", "depth_m", "east_m"};
    const bool isOurs = std::any_of(names.begin(), names.end(), [&](const std::string& name) {
        return isIn(layout.columns, name) && (isIn(particular, name) || name == "lat");
    });
    const auto count = std::count_if(names.begin(), names.end(), [&](const std::string& name) {
        return isIn(layout.columns, name);
    });
    return isOurs ? static_cast<std::size_t>(count) : 0;
}

/// The kind that a header without a sign comes closest to: with two columns of it at least.
const Layout* likelyLayout(const std::vector<std::string>& names) {
    constexpr std::size_t enough = 2;
    const auto likeliest =
        std::max_element(layouts.begin(), layouts.end(), [&](const Layout& a, const Layout& b) {
            return likeness(a, names) < likeness(b, names);
        });
    return likeness(*likeliest, names) >= enough ? &*likeliest : nullptr;
}

bool isPlaceColumn(std::string_view name) {
    return name == "lat" || name == "lon" || name == "east_m" || name == "north_m";
}

/// Whether all that can be known of these columns is where something is, and not what.
bool arePlacesAlone(const std::vector<std::string>& names) {
    const auto isThere = [&](std::string_view name) {
        return std::find(names.begin(), names.end(), name) != names.end();
    };
    const bool arePlaces =
        (isThere("lat") && isThere("lon")) || (isThere("east_m") && isThere("north_m"));
    return arePlaces && std::none_of(names.begin(), names.end(), [](const std::string& name) {
               constexpr std::string_view everyTables[] = {"date", "note", "depth"};
               return !isPlaceColumn(name) && !isIn(everyTables, name) &&
                      std::any_of(layouts.begin(), layouts.end(), [&](const Layout& layout) {
                          return isIn(layout.columns, name);
                      });
           });
}

class HeaderMaker {
public:
    HeaderMaker(const Layout& layout, const CsvRecord& record, FaultList& faults)
        : layout_(layout)
        , line_(record.line)
        , faults_(faults) {
        header_.kind = layout.kind;
        header_.width = record.cells.size();
        header_.cell.resize(layout.columns.size());
    }

    CsvHeader make(const std::vector<std::string>& names) {
        place(names);
        for (std::size_t i = 0; i < layout_.required; ++i) {
            if (!header_.cell[i] && !isPlaceColumn(layout_.columns[i])) {
                missing(layout_.columns[i]);
            }
        }
        choosePlaces();
        return header_;
    }

private:
    void place(const std::vector<std::string>& names) {
        for (std::size_t at = 0; at < names.size(); ++at) {
            const auto known = std::find(layout_.columns.begin(), layout_.columns.end(), names[at]);
            if (known == layout_.columns.end()) {
                header_.unknown.push_back(names[at]);
                continue;
            }
            auto& cell = header_.cell[static_cast<std::size_t>(known - layout_.columns.begin())];
            if (cell) {
                faults_.addForFile(line_, names[at], "two such columns", "one");
            }
            cell = at;
        }
    }

    void missing(std::string_view name) {
        faults_.addForFile(line_, name, "no such column", "a column named " + std::string(name));
    }

    std::optional<std::size_t>& cellNamed(std::string_view name) {
        const auto known = std::find(layout_.columns.begin(), layout_.columns.end(), name);
        return header_.cell[static_cast<std::size_t>(known - layout_.columns.begin())];
    }

    /// Latitude and longitude count where both kinds of place are given.
    void choosePlaces() {
        const auto& columns = layout_.columns;
        if (std::find(columns.begin(), columns.end(), "lat") == columns.end()) {
            return;
        }
        const bool both = cellNamed("lat") && cellNamed("lon");
        if (std::find(columns.begin(), columns.end(), "east_m") == columns.end()) {
            for (const std::string_view name : {"lat", "lon"}) {
                if (!cellNamed(name)) {
                    missing(name);
                }
            }
            return;
        }
        const bool plane = cellNamed("east_m") && cellNamed("north_m");
        if (!both && !plane) {
            faults_.addForFile(
                line_,
                "lat",
                "no columns that say where",
                "columns named lat and lon, or east_m and north_m");
        }
        header_.geographic = both;
        for (const std::string_view name : {"lat", "lon", "east_m", "north_m"}) {
            const bool ofGlobe = name.starts_with('l');
            if (cellNamed(name) && ofGlobe != both) {
                header_.unknown.emplace_back(name);
                cellNamed(name).reset();
            }
        }
    }

    const Layout& layout_;
    int line_;
    FaultList& faults_;
    CsvHeader header_;
};

} // namespace

Names csvColumns(ImportKind kind) {
    return layoutOf(kind).columns;
}

std::vector<std::string> columnNames(const CsvRecord& header) {
    std::vector<std::string> names;
    names.reserve(header.cells.size());
    for (const std::string_view cell : header.cells) {
        names.push_back(lowerCase(trimmed(cell)));
    }
    return names;
}

bool isSimpleTable(const std::vector<std::string>& names) {
    return layoutWithSign(names) != nullptr;
}

bool isTableOfAMap(const std::vector<std::string>& names) {
    return !isSimpleTable(names) &&
           std::any_of(names.begin(), names.end(), [](const std::string& name) {
               return name.starts_with(mapColumn);
           });
}

std::string unknownColumns(const std::string& file, const std::vector<std::string>& names) {
    constexpr std::size_t named = 10;
    std::string list;
    for (std::size_t i = 0; i < names.size() && i < named; ++i) {
        const std::string name = shown(names[i]);
        list += (i > 0 ? ", " : "") + (name.empty() ? "one without a name" : "\"" + name + "\"");
    }
    if (names.size() > named) {
        list += " and " + std::to_string(names.size() - named) + " more";
    }
    return file + ": columns that mean nothing here were left out: " + list + ".";
}

std::optional<CsvHeader> readCsvHeader(CsvReader& reader, FaultList& faults) {
    // One with all that tells its kind first; else one that lacks some of it, to say what.
    for (const auto layoutFor : {layoutWithSign, likelyLayout}) {
        for (const char separator : {',', ';'}) {
            const CsvStep step = reader.splitAgain(separator);
            if (step != CsvStep::Row) {
                faults.addForFile(
                    reader.record().line, "", reader.fault().found, reader.fault().expected);
                return std::nullopt;
            }
            const std::vector<std::string> names = columnNames(reader.record());
            if (layoutWithSign(names) == nullptr && arePlacesAlone(names)) {
                faults.addForFile(
                    reader.record().line,
                    "",
                    "places, and no column that says what is there",
                    "with them depth_m for depths, swim and tip_height_m for swims, or part for a "
                    "shoreline");
                return std::nullopt;
            }
            if (const Layout* layout = layoutFor(names)) {
                CsvHeader header = HeaderMaker(*layout, reader.record(), faults).make(names);
                header.separator = separator;
                return header;
            }
        }
    }
    return std::nullopt;
}

} // namespace bedlore
