// SPDX-License-Identifier: MIT
#include "tests/bench/case_files.hpp"

#include "core/book/edit.hpp"
#include "core/reduction/reduction.hpp"
#include "tests/support/csv_table.hpp"

#include <algorithm>
#include <charconv>
#include <map>
#include <utility>

namespace bedlore::bench {

namespace {

using bedlore::testing::CsvTable;
using bedlore::testing::readCsvTable;

Date dateOf(const std::string& text) {
    const auto part = [&](std::size_t from, std::size_t length) {
        int value = 0;
        std::from_chars(text.data() + from, text.data() + from + length, value);
        return value;
    };
    return std::chrono::year(part(0, 4)) / part(5, 2) / part(8, 2);
}

/// Builds the book of a case, record by record.
class CaseBook {
public:
    void addSwims(const CsvTable& swims) {
        for (std::size_t i = 0; i < swims.rows.size(); ++i) {
            const GeographicPoint place{swims.number(i, "lat"), swims.number(i, "lon")};
            if (i == 0) {
                Water water;
                water.id = {1};
                water.name = "case";
                water.planeOrigin = planeOriginFor({place});
                put(std::move(water));
            }
            Swim swim;
            swim.id = {next_++};
            swim.water = {1};
            swim.name = swims.text(i, "swim");
            swim.place = place;
            swim.tipHeight = Entered{swims.number(i, "tip_height_m"), Unit::Metre, ""};
            swims_[swim.name] = swim.id;
            put(std::move(swim));
        }
    }

    void addReading(const CsvTable& readings, std::size_t i) {
        const Id<Cast> cast = castOf(readings, i);
        Reading reading;
        reading.id = {next_++};
        reading.cast = cast;
        reading.order = static_cast<int>(i);
        reading.from = {
            readings.number(i, "distance"),
            unitFromCode(readings.text(i, "distance_unit")).value(),
            ""};
        if (!readings.text(i, "depth").empty()) {
            DepthEntry depth;
            depth.value = {
                readings.number(i, "depth"),
                unitFromCode(readings.text(i, "depth_unit")).value(),
                ""};
            reading.depth = depth;
        }
        put(std::move(reading));
    }

    [[nodiscard]] Result<Book> book() && {
        auto applied = applyEdits(Book{}, edits_);
        if (!applied) {
            return fail(applied.error());
        }
        return std::move(applied->book);
    }

private:
    template <class Record>
    void put(Record record) {
        edits_.emplace_back(Put<Record>{std::move(record)});
    }

    Id<Cast> castOf(const CsvTable& readings, std::size_t i) {
        const std::string& swim = readings.text(i, "swim");
        const std::string day = swim + readings.text(i, "date");
        if (!visits_.contains(day)) {
            Visit visit;
            visit.id = {next_++};
            visit.swim = swims_.at(swim);
            visit.date = dateOf(readings.text(i, "date"));
            visits_[day] = visit.id;
            put(std::move(visit));
        }
        const std::string name = readings.text(i, "cast");
        if (!casts_.contains(day + name)) {
            Cast cast;
            cast.id = {next_++};
            cast.visit = visits_[day];
            cast.order = static_cast<int>(i);
            cast.name = name;
            cast.bearing =
                BearingEntry{{readings.number(i, "bearing"), Unit::Degree, ""}, North::True};
            casts_[day + name] = cast.id;
            put(std::move(cast));
        }
        return casts_[day + name];
    }

    Edits edits_;
    std::int64_t next_ = 2;
    std::map<std::string, Id<Swim>> swims_;
    std::map<std::string, Id<Visit>> visits_;
    std::map<std::string, Id<Cast>> casts_;
};

} // namespace

Result<BedCase> readCase(const std::filesystem::path& folder) {
    CaseBook building;
    building.addSwims(readCsvTable(folder / "swims.csv"));
    const CsvTable readings = readCsvTable(folder / "readings.csv");
    for (std::size_t i = 0; i < readings.rows.size(); ++i) {
        building.addReading(readings, i);
    }
    auto book = std::move(building).book();
    if (!book) {
        return fail(book.error());
    }
    auto reduction = reduce(*book, {.water = {1}, .alone = std::nullopt});
    if (!reduction) {
        return fail(reduction.error());
    }
    BedCase result;
    result.name = folder.filename().string();
    result.reduction = *std::move(reduction);
    const CsvTable truth = readCsvTable(folder / "truth_grid.csv");
    for (std::size_t i = 0; i < truth.rows.size(); ++i) {
        const GeographicPoint place{truth.number(i, "lat"), truth.number(i, "lon")};
        result.truth.push_back(
            {.place = result.reduction.frame.toPlane(place), .depth = truth.number(i, "depth_m")});
    }
    return result;
}

std::vector<std::filesystem::path> caseFolders(const std::filesystem::path& root) {
    std::vector<std::filesystem::path> folders;
    for (const auto& entry : std::filesystem::directory_iterator(root)) {
        if (std::filesystem::exists(entry.path() / "truth_grid.csv")) {
            folders.push_back(entry.path());
        }
    }
    std::sort(folders.begin(), folders.end());
    return folders;
}

} // namespace bedlore::bench
