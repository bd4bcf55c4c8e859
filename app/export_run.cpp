// SPDX-License-Identifier: MIT
#include "app/export_words.hpp"
#include "app/runs.hpp"
#include "core/book/leaving_book.hpp"
#include "core/chart/map_drawing.hpp"
#include "core/chart/noted_units.hpp"
#include "core/io/book_tables.hpp"
#include "core/io/geotiff.hpp"
#include "core/io/map_tables.hpp"
#include "core/io/new_folder.hpp"
#include "core/io/vector_file.hpp"
#include "core/reduction/reduction.hpp"
#include "core/units/format.hpp"
#include "gui/paint/sheet_painter.hpp"

#include <QGuiApplication>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <ctime>
#include <iostream>
#include <nlohmann/json.hpp>
#include <utility>
#include <vector>

namespace bedlore {

namespace {

using Json = nlohmann::ordered_json;
namespace fs = std::filesystem;

/// As many cells as a map is given unasked, and the most that it may have.
constexpr double usualCells = 4.0e6;
constexpr double mostCells = 2.5e7;

double cellsAt(double cell, const GridFrame& metres) {
    const double side = 2.0; // a frame of whole cells may be one longer at each edge
    return (metres.columns / cell + side) * (metres.rows / cell + side);
}

/// 1 m, or the next of 2, 5, 10, 20 … that gives no more than the usual number of cells.
Result<double> chooseCell(std::optional<double> asked, const GridFrame& metres) {
    if (asked) {
        if (cellsAt(*asked, metres) > mostCells) {
            return fail(inputError(
                "Cells of " + printExact(*asked) +
                " m are too fine for a water of this size: give --cell a larger width."));
        }
        return *asked;
    }
    double cell = 1.0;
    for (int i = 0; cellsAt(cell, metres) > usualCells; ++i) {
        const std::array<double, 3> steps{2.0, 2.5, 2.0}; // 1, 2, 5, 10, 20, 50 …
        cell *= steps[static_cast<std::size_t>(i % 3)];
    }
    return cell;
}

double unknownShare(const BedGrid& grid) {
    const auto& known = grid.known.values;
    const auto unknown = std::count(known.begin(), known.end(), std::uint8_t{0});
    return static_cast<double>(unknown) / static_cast<double>(known.size());
}

Date today() {
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    localtime_r(&now, &local);
    return Date{
        std::chrono::year{local.tm_year + 1900},
        std::chrono::month{static_cast<unsigned>(local.tm_mon + 1)},
        std::chrono::day{static_cast<unsigned>(local.tm_mday)}};
}

/// Text on paper needs Qt's fonts, and Qt's fonts need an application; no display is opened.
Result<void> writePdf(const fs::path& path, const MapDrawing& map, const Progress& progress) {
    static int argc = 1;
    static std::array<char, 8> name{'b', 'e', 'd', 'l', 'o', 'r', 'e', '\0'};
    static std::array<char*, 2> argv{name.data(), nullptr};
    qputenv("QT_QPA_PLATFORM", "offscreen");
    // What Qt remarks about a desktop that is not there is no news to whoever wants a file; what
    // goes wrong is.
    qInstallMessageHandler([](QtMsgType type, const QMessageLogContext&, const QString& text) {
        if (type == QtCriticalMsg || type == QtFatalMsg) {
            std::cerr << text.toStdString() << '\n';
        }
    });
    const QGuiApplication application(argc, argv.data());
    return writeSheetPdf(path, map, {.printed = today()}, progress);
}

std::optional<Error>
unknownSpot(const Book& book, Id<Water> water, const std::optional<std::string>& name) {
    const auto& spots = book.all<Spot>();
    const bool found = std::any_of(spots.begin(), spots.end(), [&](const Spot& spot) {
        return name && spot.water == water && spot.name == *name;
    });
    if (!name || found) {
        return std::nullopt;
    }
    return inputError("There is no spot \"" + *name + "\" on this water.");
}

struct Made {
    MapDrawing map;
    LocalFrame frame = LocalFrame::withoutOrigin();
    double cell = 1.0;
    std::optional<double> unknownShare; ///< none where there are no cells
    std::string placelessSwim;          ///< the swim that is mapped by itself, for want of a place
};

Result<Made> makeMap(const ExportCommand& command, const Book& book, Console& console) {
    const auto water = chooseWater(book, command.water);
    if (!water) {
        return fail(water.error());
    }
    const auto swim = chooseSwim(book, *water, command.swim);
    if (!swim) {
        return fail(swim.error());
    }
    if (const auto unknown = unknownSpot(book, *water, command.spot)) {
        return fail(*unknown);
    }
    const bool placeless = *swim && std::holds_alternative<std::monostate>(book.get(**swim).place);
    const auto mapped = mapWater(
        book, {.water = *water, .alone = placeless ? *swim : std::nullopt}, command.level, console);
    if (!mapped) {
        return fail(mapped.error());
    }
    for (const ReductionNotice& notice : mapped->reduction.notices) {
        console.note(notice.sentence);
    }
    const auto cell = chooseCell(command.cell, mapped->surface.frameFor(1.0));
    if (!cell) {
        return fail(cell.error());
    }
    const GridFrame frame =
        frameAtTier(mapped->surface.frameFor(*cell), mapped->reduction.frame, command.share);
    const auto grid = mapped->surface.grid(frame, console.progress("Drawing the bed"));
    if (!grid) {
        return fail(grid.error());
    }
    MapOptions options{
        .level = mapped->level,
        .tier = command.share,
        .privateThings = command.privateThings,
        .swim = *swim};
    const NotedUnits units = notedUnits(book, *water);
    options.depthUnit = units.depth;
    options.distanceUnit = units.distance;
    options.ringsInWraps = units.inWraps;
    MapDrawing map =
        drawMap(book, mapped->reduction, *grid, options, console.progress("Drawing the map"));
    if (console.interrupted()) {
        return fail(cancelledError());
    }
    return Made{
        .map = std::move(map),
        .frame = mapped->reduction.frame,
        .cell = *cell,
        .unknownShare =
            grid->known.values.empty() ? std::nullopt : std::optional(unknownShare(*grid)),
        .placelessSwim = placeless ? book.get(**swim).name : std::string()};
}

/// What can be refused is refused before anything is written.
std::optional<Error> refusal(const ExportCommand& command, const Made& made) {
    if (command.geojson && !made.placelessSwim.empty()) {
        return inputError(
            "Swim " + made.placelessSwim +
            " has no place on the water yet, and GeoJSON needs latitude and longitude: give the "
            "swim a position, or write a GeoTIFF or a PDF instead.");
    }
    if (command.geojson && !made.frame.hasOrigin()) {
        return inputError("This water has no latitude and longitude, which GeoJSON needs: give its "
                          "swims a position, or write a GeoTIFF instead.");
    }
    if (command.tiff && !made.unknownShare) {
        return inputError(
            "There is no depth yet to make a GeoTIFF of: take in readings with depths first.");
    }
    if (command.csv && made.map.tier != SharingTier::All && !made.map.emptyWords.empty()) {
        return inputError(made.map.emptyWords + " Take in readings with depths first.");
    }
    return std::nullopt;
}

/// The map's tables, by their names as they were given.
Result<void> writeSharedTables(
    const fs::path& folder, const Made& made, Console& console, std::vector<std::string>& written) {
    auto names =
        writeMapTables(folder, made.map, made.frame, console.progress("Writing the tables"));
    if (!names) {
        return fail(names.error());
    }
    std::sort(names->begin(), names->end());
    for (const std::string& name : *names) {
        written.push_back((folder / name).string());
    }
    return {};
}

/// Gives the names of what was written.
Result<std::vector<std::string>>
writeAll(const ExportCommand& command, const Made& made, Console& console) {
    Result<void> done;
    std::vector<std::string> names;
    const auto write = [&](const std::optional<fs::path>& path, auto writer) {
        if (done && path) {
            done = console.interrupted() ? Result<void>(fail(cancelledError())) : writer(*path);
            if (done) {
                names.push_back(path->string());
            }
        }
    };
    write(command.geojson, [&](const fs::path& path) {
        return writeGeoJson(path, made.map, made.frame, console.progress("Writing the GeoJSON"));
    });
    write(command.tiff, [&](const fs::path& path) {
        return writeBedGeoTiff(path, made.map, made.frame, console.progress("Writing the GeoTIFF"));
    });
    write(command.pdf, [&](const fs::path& path) {
        return writePdf(path, made.map, console.progress("Drawing the sheet"));
    });
    if (done && command.csv && !wantsWholeBook(command)) {
        done = writeSharedTables(*command.csv, made, console, names);
    }
    return done ? Result<std::vector<std::string>>(std::move(names)) : fail(done.error());
}

/// What was written, by its names as they were given.
struct Written {
    std::vector<std::string> files;
    std::optional<Made> made; ///< none where no map was asked for
};

/// The whole book, with what is private only where he says so.
Result<std::vector<std::string>>
writeTables(const BookFile& file, const ExportCommand& command, Console& console) {
    const fs::path& folder = *command.csv;
    const bool isWhole = command.privateThings == PrivateThings::Include;
    console.note(tablesHoldings(privateThingsIn(file.book()), command.privateThings));
    auto names = writeBookTables(
        isWhole ? file.book() : withoutPrivateThings(file.book()),
        file.nextId(),
        folder,
        console.progress("Writing the tables"));
    if (names) {
        std::sort(names->begin(), names->end());
        for (std::string& name : *names) {
            name = (folder / name).string();
        }
    }
    return names;
}

Result<Written> writeMaps(const BookFile& file, const ExportCommand& command, Console& console) {
    auto made = makeMap(command, file.book(), console);
    if (!made) {
        return fail(made.error());
    }
    if (const auto refused = refusal(command, *made)) {
        return fail(*refused);
    }
    console.note(exportHoldings(command, made->map));
    auto names = writeAll(command, *made, console);
    if (!names) {
        return fail(names.error());
    }
    return Written{.files = *std::move(names), .made = *std::move(made)};
}

/// The tables for other programs go with what leaves: where they are out of date they are made
/// anew, if the book can be written to just now.
void freshenTables(const fs::path& path, Console& console) {
    auto file = BookFile::open(path, BookAccess::ReadWrite);
    if (file && file->isWritable() && file->derivedIsStale()) {
        writeTables(*file, Book(file->book()), console);
    }
}

void say(const Written& written, ResultForm form, Console& console) {
    if (form == ResultForm::Words) {
        for (const std::string& name : written.files) {
            console.result("Written: " + name);
        }
        return;
    }
    Json result{
        {"files", written.files},
        {"level_m", nullptr},
        {"cell_m", nullptr},
        {"unknown_share", nullptr}};
    if (written.made) {
        result["level_m"] = written.made->map.level.aboveDatum / metre;
        result["cell_m"] = written.made->cell;
        if (written.made->unknownShare) {
            result["unknown_share"] = *written.made->unknownShare;
        }
    }
    console.result(result.dump(-1, ' ', false, Json::error_handler_t::replace));
}

ExitStatus
exportFrom(const BookFile& file, const ExportCommand& command, ResultForm form, Console& console) {
    if (command.csv) {
        if (const auto free = checkNewFolder(*command.csv); !free) {
            return console.fault(free.error());
        }
    }
    Written written;
    if (wantsMap(command)) {
        auto maps = writeMaps(file, command, console);
        if (!maps) {
            return console.fault(maps.error());
        }
        written = *std::move(maps);
    }
    if (wantsWholeBook(command)) {
        const auto tables = writeTables(file, command, console);
        if (!tables) {
            return console.fault(tables.error());
        }
        written.files.insert(written.files.end(), tables->begin(), tables->end());
    }
    say(written, form, console);
    return ExitStatus::Done;
}

} // namespace

ExitStatus runExport(const ExportCommand& command, ResultForm form, Console& console) {
    for (const auto& refused : {exportNotBuilt(command), exportClash(command)}) {
        if (refused) {
            return console.fault(*refused);
        }
    }
    bool isStale = false;
    ExitStatus status = ExitStatus::Done;
    {
        const auto file = openToRead(command.book, console);
        if (!file) {
            return console.fault(file.error());
        }
        isStale = file->derivedIsStale();
        status = exportFrom(*file, command, form, console);
    }
    if (isStale && status == ExitStatus::Done) {
        freshenTables(command.book, console);
    }
    return status;
}

} // namespace bedlore
