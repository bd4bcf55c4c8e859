// SPDX-License-Identifier: MIT
#include "core/bed/bed_fit.hpp"
#include "core/bed/surface.hpp"
#include "tests/bench/live_entry.hpp"
#include "tests/bench/peers/point_files.hpp"

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <vector>

// Ordinary kriging under a covariance that is given, through the program's own surface: solved
// once, then level and error on a square grid. No unknown is looked for, so that another program
// can be asked for the same. Usage: bedlore_bench_kriging READINGS.csv OUT.csv COLUMNS CELL SIGMA
// RANGE NOISE THREADS
//   READINGS.csv  east_m,north_m,level_m
//   OUT.csv       level_m,error_m, row by row from the north-west; the grid begins at the plane's
//                 zero and goes north and east
//   SIGMA, RANGE  of the bed's exponential covariance [m]; NOISE of each level [m, 1 sd]
//   THREADS       0: one for each core
// Says as JSON how long both ways took [s]: `places` in double precision (OUT.csv is theirs),
// `grid` in the precision that maps are drawn in, and how far the two lie apart at most [m].

namespace bedlore::bench {
namespace {

struct Question {
    int columns = 0;
    double cell = 1.0;
    double sigma = 1.0;
    double range = 1.0;
    double noise = 0.0;
    int threads = 0;
};

BedShape exponentialAlone() {
    BedShape shape;
    shape.longFamily = CovarianceFamily::Exponential;
    shape.hasShort = false;
    shape.hasNugget = false;
    return shape;
}

/// The surface of a fit that found exactly what is given, around one unknown constant level.
BedSurface solvedSurface(const std::vector<LevelPoint>& readings, const Question& question) {
    const auto n = static_cast<Eigen::Index>(readings.size());
    const CovariancePart part{
        .family = CovarianceFamily::Exponential,
        .variance = question.sigma * question.sigma,
        .range = question.range};
    BedFit fit;
    fit.shape = exponentialAlone();
    BedTheta theta{};
    theta[LongSigma] = std::log(question.sigma);
    theta[LongRange] = std::log(question.range);
    std::vector<BedDatum> data;
    KrigingSystem system;
    system.covariance.resize(n, n);
    system.values.resize(n);
    for (Eigen::Index i = 0; i < n; ++i) {
        const LevelPoint& reading = readings[static_cast<std::size_t>(i)];
        system.values[i] = reading.level;
        fit.places.push_back(reading.place);
        data.push_back(
            {.recorded = reading.place, .level = reading.level, .noise = question.noise});
        for (Eigen::Index j = 0; j <= i; ++j) {
            const Point& other = readings[static_cast<std::size_t>(j)].place;
            system.covariance(i, j) = covarianceAt(
                part,
                std::hypot(reading.place.east - other.east, reading.place.north - other.north));
        }
        system.covariance(i, i) += question.noise * question.noise;
    }
    fit.drift = Drift::over(fit.places, DriftKind::Constant, 1.0);
    fit.driftPrecision = Eigen::VectorXd::Zero(1);
    fit.placeSpread = Eigen::VectorXd::Zero(n);
    system.drift = fit.drift.at(fit.places);
    system.driftPrecision = fit.driftPrecision;
    auto solved = Kriging::solve(system);
    must(solved.has_value(), "solving");
    fit.nodes.push_back({.theta = theta, .solved = *std::move(solved)});
    return BedSurface::made(
        Reduction{}, std::move(fit), std::move(data), {.threads = question.threads});
}

GridFrame frameOf(const Question& question) {
    return {
        .west = 0.0,
        .north = question.columns * question.cell,
        .cell = question.cell,
        .rows = question.columns,
        .columns = question.columns};
}

std::vector<Point> centresOf(const GridFrame& frame) {
    std::vector<Point> centres;
    centres.reserve(frame.size());
    for (int row = 0; row < frame.rows; ++row) {
        for (int column = 0; column < frame.columns; ++column) {
            centres.push_back(frame.centre(row, column));
        }
    }
    return centres;
}

void run(const char* in, const char* out, const Question& question) {
    const std::vector<LevelPoint> readings = readLevelPoints(in);
    const GridFrame frame = frameOf(question);

    const std::clock_t before = std::clock();
    auto begin = Clock::now();
    const auto places = solvedSurface(readings, question).at(centresOf(frame));
    const double ofPlaces = since(begin) / 1000.0;
    const double cpu = static_cast<double>(std::clock() - before) / CLOCKS_PER_SEC;
    must(places.has_value(), "the bed at the places");

    begin = Clock::now();
    const auto grid = solvedSurface(readings, question).grid(frame);
    const double ofGrid = since(begin) / 1000.0;
    must(grid.has_value(), "the bed on the grid");

    double apart = 0.0;
    FILE* const file = std::fopen(out, "w");
    must(file != nullptr, "opening the file to write");
    std::fputs("level_m,error_m\n", file);
    for (std::size_t i = 0; i < places->size(); ++i) {
        const BedEstimate& at = (*places)[i];
        std::fprintf(file, "%.12f,%.12f\n", at.level, at.sigma);
        apart = std::max(apart, std::abs(at.level - static_cast<double>(grid->level.values[i])));
        apart = std::max(apart, std::abs(at.sigma - static_cast<double>(grid->sigma.values[i])));
    }
    must(std::fclose(file) == 0, "writing");
    std::printf(
        R"({"places":%.6f,"cpu":%.6f,"grid":%.6f,"apart":%.3e})"
        "\n",
        ofPlaces,
        cpu,
        ofGrid,
        apart);
}

} // namespace
} // namespace bedlore::bench

int main(int argc, char** argv) {
    using namespace bedlore::bench;
    must(argc == 9, "READINGS.csv OUT.csv COLUMNS CELL SIGMA RANGE NOISE THREADS: that");
    return reported([&] {
        run(argv[1],
            argv[2],
            {.columns = std::atoi(argv[3]),
             .cell = std::atof(argv[4]),
             .sigma = std::atof(argv[5]),
             .range = std::atof(argv[6]),
             .noise = std::atof(argv[7]),
             .threads = std::atoi(argv[8])});
    });
}
