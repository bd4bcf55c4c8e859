// SPDX-License-Identifier: MIT
#include "tests/core/io/import_bench.hpp"
#include "tests/support/csv_table.hpp"

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

namespace bedlore::testing {

namespace {

class ImportCase : public ImportBench, public ::testing::WithParamInterface<std::string> {
protected:
    [[nodiscard]] std::filesystem::path data(const std::string& file) const {
        return std::filesystem::path(BEDLORE_TEST_DATA_DIR) / "cases" / GetParam() / file;
    }
};

TEST_P(ImportCase, GoesInAsItIs) {
    // Source: meta.json beside the case, written by the program that made it.
    std::ifstream in(data("meta.json"));
    const auto meta = nlohmann::json::parse(in);
    const CsvTable table = readCsvTable(data("readings.csv"));

    const ImportPlan plan = import({data("readings.csv"), data("swims.csv")});

    EXPECT_EQ(plan.counts.swims, meta["swims"].get<std::size_t>());
    EXPECT_EQ(plan.counts.casts, meta["casts"].get<std::size_t>());
    EXPECT_EQ(plan.counts.readings, meta["readings"].get<std::size_t>());
    EXPECT_EQ(plan.counts.fixes, 0U);
    const auto readings = all<Reading>();
    ASSERT_EQ(readings.size(), table.rows.size());
    const auto depths = std::count_if(
        readings.begin(), readings.end(), [](const Reading& r) { return r.depth.has_value(); });
    EXPECT_EQ(depths, meta["depths"].get<std::ptrdiff_t>());
    // One assumption for each swim and day: 12 ft to the wrap.
    std::set<std::string> visits;
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        visits.insert(table.text(i, "swim") + table.text(i, "date"));
    }
    EXPECT_EQ(plan.assumed.size(), visits.size());
}

TEST_P(ImportCase, KeepsEveryCellAsTyped) {
    const CsvTable table = readCsvTable(data("readings.csv"));
    import({data("swims.csv"), data("readings.csv")});

    const auto readings = all<Reading>();
    ASSERT_EQ(readings.size(), table.rows.size());
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const Reading& reading = readings[i];
        EXPECT_EQ(reading.from.text, table.text(i, "distance"));
        EXPECT_EQ(reading.from.number, table.number(i, "distance"));
        EXPECT_EQ(unitCode(reading.from.unit), table.text(i, "distance_unit"));
        EXPECT_EQ(reading.depth ? reading.depth->value.text : "", table.text(i, "depth"));
        ASSERT_TRUE(reading.source.has_value());
        EXPECT_EQ(reading.source->line, static_cast<int>(i) + 2);
        const Cast& cast = book_.get(reading.cast);
        EXPECT_EQ(cast.name, table.text(i, "cast"));
        ASSERT_TRUE(cast.bearing.has_value());
        EXPECT_EQ(cast.bearing->degrees.text, table.text(i, "bearing"));
    }
}

INSTANTIATE_TEST_SUITE_P(
    RealBeds,
    ImportCase,
    ::testing::Values(
        "barco-1-evening",
        "barco-1-survey",
        "barco-2-evening",
        "barco-2-survey",
        "prairie-1-evening",
        "prairie-1-survey",
        "prairie-2-evening",
        "prairie-2-survey"),
    [](const auto& param) {
        std::string name = param.param;
        std::replace(name.begin(), name.end(), '-', '_');
        return name;
    });

} // namespace

} // namespace bedlore::testing
