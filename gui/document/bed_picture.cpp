// SPDX-License-Identifier: MIT
#include "gui/document/bed_picture.hpp"

#include <utility>

namespace bedlore {

namespace {

ChartStyle styleOf(const MapLook& look) {
    ChartStyle style;
    style.rings = false; // the plan draws its own, in the unit that he reads
    style.depthKey = true;
    style.levelWords = true;
    style.palette = look.palette;
    style.readingLabels = look.layers.depths;
    style.readings = look.layers.readings;
    style.casts = look.layers.casts;
    style.contours = look.layers.contours;
    style.hillshade = look.layers.shading;
    style.marks = look.layers.marks;
    style.spots = look.layers.spots;
    style.textSize = look.textSize;
    return style;
}

} // namespace

std::shared_ptr<const BedPicture> drawBed(std::shared_ptr<const BedMap> bed, const MapLook& look) {
    auto picture = std::make_shared<BedPicture>();
    picture->look = look;
    // On his own screen everything that he noted is shown.
    picture->drawing = std::make_shared<const MapDrawing>(drawMap(
        *bed->book,
        bed->reduction,
        bed->grid,
        {.level = bed->level,
         .tier = SharingTier::All,
         .privateThings = PrivateThings::Include,
         .swim = bed->request.swim,
         .depthUnit = look.units.depth,
         .distanceUnit = sheetUnit(look.units),
         .depthBands = false}));
    picture->painter = std::make_shared<const ChartPainter>(picture->drawing, styleOf(look));
    picture->bed = std::move(bed);
    return picture;
}

std::shared_ptr<const BedPicture> withEmptyWords(const BedPicture& picture, std::string words) {
    auto drawing = std::make_shared<MapDrawing>(*picture.drawing);
    drawing->emptyWords = std::move(words);
    auto other = std::make_shared<BedPicture>(picture);
    other->drawing = std::move(drawing);
    other->painter = std::make_shared<const ChartPainter>(other->drawing, styleOf(other->look));
    return other;
}

} // namespace bedlore
