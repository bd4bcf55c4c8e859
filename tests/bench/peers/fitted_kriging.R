# SPDX-License-Identifier: MIT
# Ordinary kriging as gstat does it by itself: the empirical variogram with its own bins, the best
# of four models with its own starting values, then kriging. Where it gives no value there is nan.
# Usage: Rscript fitted_kriging.R SOUNDINGS.csv PLACES.csv OUT.csv
suppressPackageStartupMessages({
    library(sp)
    library(gstat)
})
arguments <- commandArgs(trailingOnly = TRUE)
soundings <- read.csv(arguments[1])
coordinates(soundings) <- ~ east_m + north_m
places <- read.csv(arguments[2])
coordinates(places) <- ~ east_m + north_m

empirical <- variogram(level_m ~ 1, soundings)
model <- suppressWarnings(fit.variogram(empirical, vgm(c("Exp", "Sph", "Gau", "Mat"))))
bed <- krige(level_m ~ 1, soundings, places, model, debug.level = 0)
write.csv(
    data.frame(level_m = bed$var1.pred, error_m = sqrt(bed$var1.var)),
    arguments[3], row.names = FALSE, na = "nan"
)
cat(paste(model$model, signif(model$psill, 3), signif(model$range, 3)), sep = "; ")
