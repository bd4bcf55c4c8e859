# SPDX-License-Identifier: MIT
# Ordinary kriging with gstat under a covariance that is given, on the grid that
# bedlore_bench_kriging answers for. Prints how long the kriging alone took, and what of a processor
# [s]: not R's start, nor reading and writing.
# Usage: Rscript fixed_kriging.R READINGS.csv OUT.csv COLUMNS CELL SIGMA RANGE NOISE
suppressPackageStartupMessages({
    library(sp)
    library(gstat)
})
arguments <- commandArgs(trailingOnly = TRUE)
columns <- as.integer(arguments[3])
cell <- as.numeric(arguments[4])
sigma <- as.numeric(arguments[5])
range <- as.numeric(arguments[6])
noise <- as.numeric(arguments[7])

readings <- read.csv(arguments[1])
coordinates(readings) <- ~ east_m + north_m
centres <- (seq_len(columns) - 0.5) * cell
grid <- expand.grid(east_m = centres, north_m = rev(centres))
coordinates(grid) <- ~ east_m + north_m

# "Err" is noise of the data that the bed itself does not have, as in Bedlore.
model <- vgm(noise^2, "Err", 0, add.to = vgm(sigma^2, "Exp", range))
taken <- system.time(
    bed <- krige(level_m ~ 1, readings, grid, model, debug.level = 0)
)
write.table(
    data.frame(
        level_m = sprintf("%.12f", bed$var1.pred),
        error_m = sprintf("%.12f", sqrt(bed$var1.var))
    ),
    arguments[2], sep = ",", row.names = FALSE, quote = FALSE
)
cat(taken[["elapsed"]], taken[["user.self"]] + taken[["sys.self"]], "\n")
