// SPDX-License-Identifier: MIT
#include "app/runs.hpp"
#include "core/io/csv_reader.hpp"
#include "core/io/import_text.hpp"
#include "core/reduction/reduction.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <nlohmann/json.hpp>
#include <span>
#include <utility>
#include <vector>

namespace bedlore {

namespace {

using Json = nlohmann::ordered_json;

/// The two columns that say where, in the order of the file.
struct PlaceColumns {
    std::array<std::size_t, 2> at{};
    std::array<std::string, 2> names; ///< as the file writes them
    bool geographic = false;
    bool secondFirst = false; ///< lon before lat, north before east
};

struct AskedPoint {
    std::array<std::string, 2> texts; ///< as the file writes them, given back as they came
    std::array<double, 2> numbers{};
};

struct AskedPoints {
    PlaceColumns columns;
    std::vector<AskedPoint> points;
    std::vector<std::string> faults;
};

std::optional<std::size_t> columnNamed(const CsvRecord& header, std::string_view name) {
    for (std::size_t i = 0; i < header.cells.size(); ++i) {
        if (lowerCase(trimmed(header.cells[i])) == name) {
            return i;
        }
    }
    return std::nullopt;
}

std::optional<PlaceColumns> placeColumns(const CsvRecord& header) {
    const auto pair = [&](std::string_view first, std::string_view second, bool geographic) {
        const auto a = columnNamed(header, first);
        const auto b = columnNamed(header, second);
        if (!a || !b) {
            return std::optional<PlaceColumns>();
        }
        PlaceColumns columns;
        columns.at = {std::min(*a, *b), std::max(*a, *b)};
        columns.geographic = geographic;
        columns.secondFirst = *b < *a;
        for (std::size_t i = 0; i < 2; ++i) {
            columns.names[i] = trimmed(header.cells[columns.at[i]]);
        }
        return std::optional(columns);
    };
    const auto geographic = pair("lat", "lon", true);
    return geographic ? geographic : pair("east_m", "north_m", false);
}

std::string atLine(const std::string& file, int line, const std::string& what) {
    return file + ", line " + std::to_string(line) + ": " + what;
}

bool isInRange(const PlaceColumns& columns, std::size_t column, double number) {
    if (!columns.geographic) {
        return std::abs(number) <= 1.0e7; // farther than any plane reaches
    }
    const bool latitude = (column == 0) != columns.secondFirst;
    return std::abs(number) <= (latitude ? 90.0 : 180.0);
}

void takeRow(const CsvRecord& row, const std::string& file, AskedPoints& asked) {
    AskedPoint point;
    for (std::size_t i = 0; i < 2; ++i) {
        const std::size_t at = asked.columns.at[i];
        const std::string_view cell =
            at < row.cells.size() ? trimmed(row.cells[at]) : std::string_view();
        const auto number = readDecimal(cell);
        if (!number || !isInRange(asked.columns, i, *number)) {
            asked.faults.push_back(atLine(
                file,
                row.line,
                asked.columns.names[i] + ": found \"" + shown(cell) + "\", expected " +
                    (asked.columns.geographic ? "degrees" : "metres") + " as a number."));
            return;
        }
        point.texts[i] = cell;
        point.numbers[i] = *number;
    }
    asked.points.push_back(std::move(point));
}

std::string faultAt(const std::string& file, const CsvReader& reader) {
    return atLine(
        file,
        reader.record().line,
        "found " + reader.fault().found + ", expected " + reader.fault().expected + ".");
}

Result<PlaceColumns> readHeader(CsvReader& reader, const std::string& file) {
    const auto step = reader.next();
    if (!step) {
        return fail(step.error());
    }
    if (*step == CsvStep::End) {
        return fail(inputError(file + " is empty: it needs lat,lon or east_m,north_m and rows."));
    }
    if (*step != CsvStep::Row) {
        return fail(inputError(faultAt(file, reader)));
    }
    const auto columns = placeColumns(reader.record());
    if (!columns) {
        return fail(
            inputError(atLine(file, 1, "the header needs lat and lon, or east_m and north_m.")));
    }
    return *columns;
}

Result<AskedPoints> readPoints(const std::filesystem::path& path, const Progress& progress) {
    auto input = InputFile::open(path);
    if (!input) {
        return fail(input.error());
    }
    const std::string name = input->name();
    CsvReader reader(*std::move(input));
    const auto columns = readHeader(reader, name);
    if (!columns) {
        return fail(columns.error());
    }
    AskedPoints asked;
    asked.columns = *columns;
    while (true) {
        if (progress.cancelled()) {
            return fail(cancelledError());
        }
        const auto step = reader.next(progress);
        if (!step) {
            return fail(step.error());
        }
        if (*step == CsvStep::End) {
            return asked;
        }
        if (*step != CsvStep::Row) {
            asked.faults.push_back(faultAt(name, reader));
        } else if (!reader.record().isBlank()) {
            takeRow(reader.record(), name, asked);
        }
        if (*step == CsvStep::Stop) {
            return asked;
        }
    }
}

/// How many points are handled between two looks at whether to go on.
constexpr std::size_t pointsBetweenLooks = 1024;

bool isStopped(std::size_t done, const Console& console) {
    return done % pointsBetweenLooks == 0 && console.interrupted();
}

Result<std::vector<Point>>
onThePlane(const AskedPoints& asked, const LocalFrame& frame, const Console& console) {
    if (asked.columns.geographic && !frame.hasOrigin()) {
        return fail(inputError("This water has no latitude and longitude: give the points as "
                               "east_m,north_m."));
    }
    std::vector<Point> places;
    places.reserve(asked.points.size());
    for (const AskedPoint& point : asked.points) {
        if (isStopped(places.size(), console)) {
            return fail(cancelledError());
        }
        const auto [first, second] = asked.columns.secondFirst
                                         ? std::array{point.numbers[1], point.numbers[0]}
                                         : point.numbers;
        Point place = asked.columns.geographic ? frame.toPlane(GeographicPoint{first, second})
                                               : Point{first, second};
        // The far side of the earth has no place on the plane; it is unknown either way.
        const double far = 1.0e7;
        place.east = std::isfinite(place.east) ? std::clamp(place.east, -far, far) : far;
        place.north = std::isfinite(place.north) ? std::clamp(place.north, -far, far) : far;
        places.push_back(place);
    }
    return places;
}

struct Answer {
    std::string depth;
    std::string error;
    bool known = false;
};

/// Four decimals, and no minus before a zero.
std::string fourDecimals(double number) {
    const std::string text = printFixed(number, 4);
    return text == "-0.0000" ? "0.0000" : text;
}

/// False when stopped.
bool printRows(const AskedPoints& asked, const std::vector<Answer>& answers, Console& console) {
    console.result(asked.columns.names[0] + "," + asked.columns.names[1] + ",depth_m,se_m,known");
    for (std::size_t i = 0; i < answers.size(); ++i) {
        if (isStopped(i, console)) {
            return false;
        }
        const auto& texts = asked.points[i].texts;
        console.result(
            texts[0] + "," + texts[1] + "," + answers[i].depth + "," + answers[i].error + "," +
            (answers[i].known ? "1" : "0"));
    }
    return true;
}

/// False when stopped, with nothing printed.
bool printJson(
    const AskedPoints& asked,
    const std::vector<Answer>& answers,
    WaterLevel level,
    Console& console) {
    const auto number = [](const std::string& text) -> Json {
        return text.empty() ? Json(nullptr) : Json(*readDecimal(text));
    };
    // Point by point, since a million of them at once could not be stopped.
    std::string text = "{\"level_m\":" + Json(level.aboveDatum / metre).dump() + ",\"points\":[";
    for (std::size_t i = 0; i < answers.size(); ++i) {
        if (isStopped(i, console)) {
            return false;
        }
        const AskedPoint& point = asked.points[i];
        const Json object{
            {asked.columns.names[0], point.numbers[0]},
            {asked.columns.names[1], point.numbers[1]},
            {"depth_m", number(answers[i].depth)},
            {"se_m", number(answers[i].error)},
            {"known", answers[i].known}};
        text += (i > 0 ? "," : "") + object.dump(-1, ' ', false, Json::error_handler_t::replace);
    }
    console.result(text + "]}");
    return true;
}

Result<std::vector<Answer>>
answer(const MappedWater& mapped, const std::vector<Point>& places, const Progress& progress) {
    if (mapped.surface.soundingCount() == 0) {
        return std::vector<Answer>(places.size());
    }
    const auto estimates = mapped.surface.at(std::span<const Point>(places), progress);
    if (!estimates) {
        return fail(estimates.error());
    }
    std::vector<Answer> answers;
    answers.reserve(places.size());
    for (const BedEstimate& bed : *estimates) {
        answers.push_back(
            {.depth = fourDecimals(mapped.level.aboveDatum / metre - bed.level),
             .error = fourDecimals(bed.sigma),
             .known = bed.known});
    }
    return answers;
}

/// All that the run needs before it may print its first row.
struct Ready {
    AskedPoints asked;
    std::vector<Answer> answers;
    WaterLevel level;
};

Result<Ready> prepare(const DepthCommand& command, Console& console) {
    auto asked = readPoints(command.points, console.progress("Reading the points"));
    if (!asked) {
        return fail(asked.error());
    }
    if (!asked->faults.empty()) {
        for (std::size_t i = 0; i + 1 < asked->faults.size(); ++i) {
            console.note(asked->faults[i]);
        }
        return fail(inputError(asked->faults.back()));
    }
    const auto file = openToRead(command.book, console);
    if (!file) {
        return fail(file.error());
    }
    const auto water = chooseWater(file->book(), command.water);
    if (!water) {
        return fail(water.error());
    }
    const auto mapped =
        mapWater(file->book(), {.water = *water, .alone = {}}, command.level, console);
    if (!mapped) {
        return fail(mapped.error());
    }
    const auto places = onThePlane(*asked, mapped->reduction.frame, console);
    if (!places) {
        return fail(places.error());
    }
    auto answers = answer(*mapped, *places, console.progress("Looking up the points"));
    if (!answers) {
        return fail(answers.error());
    }
    return Ready{
        .asked = *std::move(asked), .answers = *std::move(answers), .level = mapped->level};
}

} // namespace

ExitStatus runDepth(const DepthCommand& command, ResultForm form, Console& console) {
    const auto ready = prepare(command, console);
    if (!ready) {
        return console.fault(ready.error());
    }
    const bool isWhole = form == ResultForm::Json
                             ? printJson(ready->asked, ready->answers, ready->level, console)
                             : printRows(ready->asked, ready->answers, console);
    return isWhole ? ExitStatus::Done : console.fault(cancelledError());
}

} // namespace bedlore
