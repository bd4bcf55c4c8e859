// SPDX-License-Identifier: MIT
#include "core/bed/covariance.hpp"
#include "core/bed/drift.hpp"
#include "core/bed/kriging.hpp"
#include "tests/support/csv_table.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>
#include <numeric>

// Published check values; their sources stand in tests/reference/SOURCES.md.

namespace bedlore {
namespace {

using bedlore::testing::CsvTable;
using bedlore::testing::readCsvTable;

struct Data {
    std::vector<Point> places;
    std::vector<double> values;
    std::vector<double> errorVariances;
};

struct Model {
    CovariancePart part;
    double nugget = 0.0;
    DriftKind drift = DriftKind::Constant;
    double mean = 0.0;
};

CsvTable table(const std::string& name) {
    return readCsvTable(std::filesystem::path(BEDLORE_REFERENCE_DIR) / name);
}

double distance(Point a, Point b) {
    return std::hypot(a.east - b.east, a.north - b.north);
}

/// Sets the kernel up as the reference has it: the nugget is part of the data and of a new value
/// (gstat's convention), known error variances are of the data only.
class Reference {
public:
    Reference(Data data, const Model& model)
        : data_(std::move(data))
        , model_(model)
        , drift_(Drift::over(data_.places, model.drift, 1.0))
        , kriging_(Kriging::solve(system()).value()) {}

    [[nodiscard]] KrigingEstimate at(Point target) const {
        Eigen::VectorXd k(size());
        for (Eigen::Index i = 0; i < k.size(); ++i) {
            k[i] = covarianceAt(model_.part, distance(target, place(i)));
        }
        KrigingEstimate estimate =
            kriging_.estimate(k, drift_.at(target), model_.part.variance + model_.nugget);
        estimate.value += model_.mean;
        return estimate;
    }
    [[nodiscard]] const Kriging& kriging() const { return kriging_; }
    [[nodiscard]] std::vector<KrigingEstimate> leaveOneOut() const {
        return kriging_.leaveOneOut();
    }

private:
    [[nodiscard]] Eigen::Index size() const {
        return static_cast<Eigen::Index>(data_.places.size());
    }
    [[nodiscard]] Point place(Eigen::Index i) const {
        return data_.places[static_cast<std::size_t>(i)];
    }
    [[nodiscard]] KrigingSystem system() const {
        KrigingSystem s;
        s.covariance.resize(size(), size());
        for (Eigen::Index i = 0; i < size(); ++i) {
            for (Eigen::Index j = 0; j < size(); ++j) {
                s.covariance(i, j) = covarianceAt(model_.part, distance(place(i), place(j)));
            }
            s.covariance(i, i) += model_.nugget;
            if (!data_.errorVariances.empty()) {
                s.covariance(i, i) += data_.errorVariances[static_cast<std::size_t>(i)];
            }
        }
        s.drift = drift_.at(data_.places);
        s.driftPrecision = Eigen::VectorXd::Zero(drift_.size());
        s.values = Eigen::Map<const Eigen::VectorXd>(data_.values.data(), size());
        s.values.array() -= model_.mean;
        return s;
    }

    Data data_;
    Model model_;
    Drift drift_;
    Kriging kriging_;
};

Data readData(const CsvTable& from, const std::string& value) {
    Data data;
    for (std::size_t i = 0; i < from.rows.size(); ++i) {
        data.places.push_back({from.number(i, "x"), from.number(i, "y")});
        data.values.push_back(from.number(i, value));
    }
    return data;
}

void expectColumn(const Reference& reference, const CsvTable& expected, const std::string& name) {
    for (std::size_t i = 0; i < expected.rows.size(); ++i) {
        SCOPED_TRACE(name + " row " + std::to_string(i));
        const auto got = reference.at({expected.number(i, "x"), expected.number(i, "y")});
        EXPECT_NEAR(got.value, expected.number(i, name + "_pred"), 1e-8);
        EXPECT_NEAR(got.variance, expected.number(i, name + "_var"), 1e-8);
    }
}

// Source: Isaaks & Srivastava (1989), chapter 12; recomputed to ten digits (case 1).
TEST(KrigingReference, WorkedExampleOfOrdinaryKriging) {
    const CsvTable samples = table("case01_isaaks_srivastava_samples.csv");
    const CsvTable expected = table("case01_isaaks_srivastava_expected.csv");
    const Model model{.part = {CovarianceFamily::Exponential, 10.0, 10.0 / 3.0}};
    const Data data = readData(samples, "v");
    const auto got = Reference(data, model).at({65.0, 137.0});
    EXPECT_NEAR(got.value, expected.number(0, "recomputed"), 1e-8);
    EXPECT_NEAR(got.variance, expected.number(1, "recomputed"), 1e-8);
    EXPECT_NEAR(got.value, expected.number(0, "published_rounded"), 0.05);
    EXPECT_NEAR(got.variance, expected.number(1, "published_rounded"), 0.005);
    for (std::size_t i = 0; i < data.values.size(); ++i) {
        // The estimate is linear in the data: the weight of one is the estimate from its unit.
        Data unit = data;
        std::fill(unit.values.begin(), unit.values.end(), 0.0);
        unit.values[i] = 1.0;
        EXPECT_NEAR(
            Reference(unit, model).at({65.0, 137.0}).value, samples.number(i, "ok_weight"), 1e-9);
    }
}

Data meuse() {
    Data data = readData(table("case02_meuse_data.csv"), "zinc");
    for (double& zinc : data.values) {
        zinc = std::log(zinc);
    }
    return data;
}

const Model meuseModel{.part = {CovarianceFamily::Spherical, 0.5906, 897.0}, .nugget = 0.0507};
const Model topoModel{.part = {CovarianceFamily::Spherical, 3000.0, 3.5}, .nugget = 50.0};

TEST(KrigingReference, MeuseOrdinaryAndWithALinearDrift) {
    const CsvTable expected = table("case02b_meuse_kriging_expected.csv");
    Model model = meuseModel;
    expectColumn(Reference(meuse(), model), expected, "ok");
    model.drift = DriftKind::Linear;
    expectColumn(Reference(meuse(), model), expected, "uk");
}

TEST(KrigingReference, MeuseLeavingOneOut) {
    const CsvTable expected = table("case02c_meuse_loo_expected.csv");
    const Data data = meuse();
    const auto left = Reference(data, meuseModel).leaveOneOut();
    ASSERT_EQ(left.size(), expected.rows.size());
    double square = 0.0;
    double sum = 0.0;
    double absolute = 0.0;
    double score = 0.0;
    for (std::size_t i = 0; i < left.size(); ++i) {
        EXPECT_NEAR(left[i].value, expected.number(i, "pred"), 1e-8);
        EXPECT_NEAR(left[i].variance, expected.number(i, "var"), 1e-8);
        const double residual = data.values[i] - left[i].value;
        square += residual * residual;
        sum += residual;
        absolute += std::abs(residual);
        score += residual * residual / left[i].variance;
    }
    const auto n = static_cast<double>(left.size());
    // Source: numpy and gstat alike (case 2); the mean absolute error from one of them.
    EXPECT_NEAR(std::sqrt(square / n), 0.3918052422, 1e-9);
    EXPECT_NEAR(std::abs(sum / n), 0.0000211148, 1e-9);
    EXPECT_NEAR(absolute / n, 0.2921531840, 1e-9);
    EXPECT_NEAR(score / n, 0.8183264731, 1e-9);
}

// Source: case 2d, numpy and gstat alike to 5e-11: spherical, nugget 0.04, sill 0.16, range 900, a
// chosen model. Indicators of one point's three classes sum to one, and so do their estimates;
// single ones leave [0, 1].
TEST(KrigingReference, MeuseIndicatorsOfTheFloodClasses) {
    const CsvTable samples = table("case02_meuse_data.csv");
    const CsvTable expected = table("case02d_meuse_indicator_expected.csv");
    const Model model{.part = {CovarianceFamily::Spherical, 0.16, 900.0}, .nugget = 0.04};
    for (int flood = 1; flood <= 3; ++flood) {
        Data data = readData(samples, "ffreq");
        for (double& value : data.values) {
            value = value == flood ? 1.0 : 0.0;
        }
        const Reference reference(data, model);
        for (std::size_t i = 0; i < expected.rows.size(); ++i) {
            const Point target{expected.number(i, "x"), expected.number(i, "y")};
            const std::string column = "ik_ffreq" + std::to_string(flood);
            EXPECT_NEAR(reference.at(target).value, expected.number(i, column), 1e-8)
                << column << i;
        }
    }
}

class Topo : public ::testing::Test {
protected:
    const CsvTable heights = table("case02_topo_data.csv");
    const CsvTable expected = table("case02e_topo_kriging_expected.csv");
    const Data data = readData(heights, "z");
};

TEST_F(Topo, OrdinaryWithALinearDriftAndWithAKnownMean) {
    Model model = topoModel;
    expectColumn(Reference(data, model), expected, "ok");
    model.drift = DriftKind::Linear;
    expectColumn(Reference(data, model), expected, "uk");
    model.drift = DriftKind::None;
    model.mean = 850.0;
    expectColumn(Reference(data, model), expected, "sk850");
}

TEST_F(Topo, FromTheTwelveNearest) {
    for (std::size_t i = 0; i < expected.rows.size(); ++i) {
        SCOPED_TRACE(i);
        const Point target{expected.number(i, "x"), expected.number(i, "y")};
        std::vector<std::size_t> order(data.places.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
            return distance(data.places[a], target) < distance(data.places[b], target);
        });
        Data nearest;
        for (std::size_t j = 0; j < 12; ++j) {
            nearest.places.push_back(data.places[order[j]]);
            nearest.values.push_back(data.values[order[j]]);
        }
        const auto got = Reference(nearest, topoModel).at(target);
        EXPECT_NEAR(got.value, expected.number(i, "ok12_pred"), 1e-8);
        EXPECT_NEAR(got.variance, expected.number(i, "ok12_var"), 1e-8);
    }
}

TEST_F(Topo, WithAKnownErrorOfEachHeight) {
    Data noisy = data;
    for (std::size_t i = 0; i < heights.rows.size(); ++i) {
        noisy.errorVariances.push_back(heights.number(i, "errvar"));
    }
    expectColumn(Reference(noisy, topoModel), expected, "me");
}

double rootMeanSquareLeftOut(const Data& data, const Model& model) {
    const auto left = Reference(data, model).leaveOneOut();
    double square = 0.0;
    for (std::size_t i = 0; i < left.size(); ++i) {
        square += (data.values[i] - left[i].value) * (data.values[i] - left[i].value);
    }
    return std::sqrt(square / static_cast<double>(left.size()));
}

TEST_F(Topo, LeavingOneOut) {
    Model model = topoModel;
    // Source: gstat 2.1.0, krige.cv with nfold = n (case 2).
    EXPECT_NEAR(rootMeanSquareLeftOut(data, model), 22.9356898740, 1e-8);
    model.drift = DriftKind::Linear;
    EXPECT_NEAR(rootMeanSquareLeftOut(data, model), 24.0269987737, 1e-8);
}

} // namespace
} // namespace bedlore
