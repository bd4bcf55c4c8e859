// SPDX-License-Identifier: MIT
#include "core/geometry/propagation.hpp"
#include "tests/support/csv_table.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace bedlore {
namespace {

using testing::CsvTable;
using testing::readCsvTable;

/// A published figure, the same recomputed with more digits, and how far it may be off.
struct Figure {
    double published = 0.0;
    double recomputed = 0.0;
    double tolerance = 0.0;
};

Figure figure(const CsvTable& table, const std::string& quantity) {
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        if (table.text(i, "quantity") == quantity) {
            return {
                table.number(i, "published"),
                table.number(i, "recomputed"),
                table.number(i, "tolerance")};
        }
    }
    ADD_FAILURE() << "no row " << quantity;
    return {};
}

void expectFigure(double got, const Figure& figure) {
    EXPECT_NEAR(got, figure.published, figure.tolerance);
    EXPECT_NEAR(got, figure.recomputed, 1e-9 * std::abs(figure.recomputed) + 1e-9);
}

// Source: JCGM 100:2008, example H.2 (tests/reference/SOURCES.md). Voltage V, current I and phase φ
// were read together five times; R = V/I cos φ, X = V/I sin φ, Z = V/I. The covariance of the means
// is what the readings scatter by, over n (n − 1).
TEST(Propagated, ResistanceReactanceAndImpedanceKeepTheirCorrelations) {
    const CsvTable readings = readCsvTable(BEDLORE_REFERENCE_DIR "/case08_gum_h2_inputs.csv");
    const CsvTable expected = readCsvTable(BEDLORE_REFERENCE_DIR "/case08_gum_h2.csv");
    Eigen::Matrix<double, 5, 3> x;
    ASSERT_EQ(readings.rows.size(), 5U);
    for (std::size_t i = 0; i < 5; ++i) {
        x.row(static_cast<Eigen::Index>(i)) << readings.number(i, "V_volt"),
            1e-3 * readings.number(i, "I_mA"), readings.number(i, "phi_rad");
    }
    const Eigen::RowVector3d mean = x.colwise().mean();
    const Eigen::Matrix<double, 5, 3> scatter = x.rowwise() - mean;
    const Eigen::Matrix3d covariance = scatter.transpose() * scatter / 20.0;

    const double v = mean[0];
    const double i = mean[1];
    const double c = std::cos(mean[2]);
    const double s = std::sin(mean[2]);
    Eigen::Matrix3d jacobian; // rows R, X, Z by columns V, I, φ
    jacobian << c / i, -v * c / (i * i), -v * s / i, s / i, -v * s / (i * i), v * c / i, 1.0 / i,
        -v / (i * i), 0.0;
    const Eigen::Matrix3d got = propagated(jacobian, covariance);

    expectFigure(v / i * c, figure(expected, "R_ohm"));
    expectFigure(v / i * s, figure(expected, "X_ohm"));
    expectFigure(v / i, figure(expected, "Z_ohm"));
    const Eigen::Vector3d sigma = got.diagonal().cwiseSqrt();
    expectFigure(sigma[0], figure(expected, "u_R"));
    expectFigure(sigma[1], figure(expected, "u_X"));
    expectFigure(sigma[2], figure(expected, "u_Z"));
    expectFigure(got(0, 1) / (sigma[0] * sigma[1]), figure(expected, "r_RX"));
    expectFigure(got(0, 2) / (sigma[0] * sigma[2]), figure(expected, "r_RZ"));
    expectFigure(got(1, 2) / (sigma[1] * sigma[2]), figure(expected, "r_XZ"));
}

} // namespace
} // namespace bedlore
