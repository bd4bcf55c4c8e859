// SPDX-License-Identifier: MIT
#include "core/io/gdal_guard.hpp"
#include "core/io/import_text.hpp"
#include "core/io/shoreline_file.hpp"

#include <cpl_error.h>
#include <gdal.h>
#include <ogr_api.h>
#include <ogrsf_frmts.h>

#include <cmath>
#include <memory>
#include <mutex>
#include <utility>

namespace bedlore {

namespace {

constexpr int deepest = 100;

/// Whether elements stand in elements deeper than any file of its kind needs; parsers that follow
/// them by recursion would run out of stack.
class NestingMeter {
public:
    explicit NestingMeter(std::string_view text)
        : text_(text) {}

    [[nodiscard]] bool isTooDeep() {
        int depth = 0;
        while (at_ < text_.size()) {
            at_ = text_.find('<', at_);
            if (at_ == std::string_view::npos) {
                break;
            }
            depth += step();
            if (depth > deepest) {
                return true;
            }
        }
        return false;
    }

private:
    /// What the markup at hand does to the depth; moves behind it.
    int step() {
        const std::string_view rest = text_.substr(at_);
        if (rest.starts_with("<!--")) {
            return skipPast("-->");
        }
        if (rest.starts_with("<![CDATA[")) {
            return skipPast("]]>");
        }
        if (rest.starts_with("<?")) {
            return skipPast("?>");
        }
        const bool closes = rest.starts_with("</");
        const std::size_t end = tagEnd();
        const bool isAlone = end > 0 && end <= text_.size() && text_[end - 1] == '/';
        at_ = end;
        return closes ? -1 : isAlone ? 0 : 1;
    }

    int skipPast(std::string_view mark) {
        const std::size_t end = text_.find(mark, at_);
        at_ = end == std::string_view::npos ? text_.size() : end + mark.size();
        return 0;
    }

    /// Where the tag at hand ends; a ">" within an attribute's quotes is none.
    [[nodiscard]] std::size_t tagEnd() const {
        char quote = '\0';
        for (std::size_t i = at_; i < text_.size(); ++i) {
            const char c = text_[i];
            if (quote != '\0') {
                quote = c == quote ? '\0' : quote;
            } else if (c == '"' || c == '\'') {
                quote = c;
            } else if (c == '>') {
                return i;
            }
        }
        return text_.size();
    }

    std::string_view text_;
    std::size_t at_ = 0;
};

/// The encoding that an XML declaration names, in lower case; empty for none.
std::string declaredEncoding(std::string_view text) {
    if (!text.starts_with("<?xml")) {
        return {};
    }
    const std::string declaration = lowerCase(text.substr(0, text.find("?>")));
    const std::size_t word = declaration.find("encoding");
    const std::size_t open =
        word == std::string::npos ? word : declaration.find_first_of("\"'", word);
    if (open == std::string::npos) {
        return {};
    }
    const std::size_t close = declaration.find(declaration[open], open + 1);
    return declaration.substr(open + 1, close - open - 1);
}

/// Notes what must not reach the library's parser; true where there is such a thing.
bool isHostile(std::string_view text, FaultList& faults) {
    const std::string lower = lowerCase(text);
    for (const std::string_view mark : {"<!doctype", "<!entity"}) {
        const std::size_t at = lower.find(mark);
        if (at != std::string::npos) {
            faults.addForFile(
                lineAt(text, at), "", mark, "XML without a document type or entities of its own");
            return true;
        }
    }
    const std::string encoding = declaredEncoding(text);
    if (!encoding.empty() && encoding != "utf-8" && encoding != "us-ascii") {
        faults.addForFile(1, "encoding", encoding, wantedEncoding);
        return true;
    }
    if (NestingMeter(text).isTooDeep()) {
        faults.addForFile(
            1, "", "elements within elements without end", "a plain file of lines or areas");
        return true;
    }
    return false;
}

struct CloseDataset {
    void operator()(void* dataset) const { GDALClose(dataset); }
};
struct DestroyFeature {
    void operator()(void* feature) const { OGR_F_Destroy(feature); }
};
using Dataset = std::unique_ptr<void, CloseDataset>;
using Feature = std::unique_ptr<void, DestroyFeature>;

void registerDrivers() {
    static std::once_flag once;
    std::call_once(once, [] {
        RegisterOGRKML();
        RegisterOGRGPX();
    });
}

class GeometryTaker {
public:
    GeometryTaker(ShoreOutlines& to, FaultList& faults)
        : to_(to)
        , faults_(faults) {}

    void take(OGRGeometryH geometry) {
        const auto type = wkbFlatten(OGR_G_GetGeometryType(geometry));
        if (type == wkbPoint || type == wkbMultiPoint) {
            ++points_;
        } else if (type == wkbLineString || type == wkbLinearRing) {
            takeLine(geometry);
        } else {
            // Areas hold rings, collections hold anything.
            for (int i = 0; i < OGR_G_GetGeometryCount(geometry); ++i) {
                take(OGR_G_GetGeometryRef(geometry, i));
            }
        }
    }

    [[nodiscard]] std::size_t points() const { return points_; }

private:
    void takeLine(OGRGeometryH line) {
        ++lines_;
        ShoreOutline outline;
        for (int i = 0; i < OGR_G_GetPointCount(line); ++i) {
            const GeographicPoint place{
                .latitude = OGR_G_GetY(line, i), .longitude = OGR_G_GetX(line, i)};
            // Written so that what is no number is refused too.
            if (!(std::abs(place.latitude) <= 90.0 && std::abs(place.longitude) <= 180.0)) {
                faults_.add(
                    1,
                    "coordinates of line " + std::to_string(lines_),
                    std::to_string(place.longitude) + ", " + std::to_string(place.latitude),
                    "a longitude and a latitude in degrees");
                return;
            }
            outline.vertices.push_back(place);
        }
        addOutline(std::move(outline), to_, faults_);
    }

    ShoreOutlines& to_;
    FaultList& faults_;
    std::size_t points_ = 0;
    std::size_t lines_ = 0;
};

/// Of GPX, tracks and routes whole; their single points come again in layers of their own.
bool isWanted(OGRLayerH layer, ImportKind kind) {
    const std::string name = OGR_L_GetName(layer);
    return kind == ImportKind::Kml || name == "tracks" || name == "routes";
}

void takeLayer(OGRLayerH layer, GeometryTaker& taker) {
    while (const Feature feature{OGR_L_GetNextFeature(layer)}) {
        if (OGRGeometryH geometry = OGR_F_GetGeometryRef(feature.get())) {
            taker.take(geometry);
        }
    }
}

} // namespace

ShoreOutlines readShorelineXml(const std::string& text, ImportKind kind, FaultList& faults) {
    ShoreOutlines outlines;
    if (isHostile(text, faults)) {
        return outlines;
    }
    const bool isKml = kind == ImportKind::Kml;
    const std::string words = isKml ? "a KML file" : "a GPX file";
    registerDrivers();
    const QuietGdal quiet;
    const GdalMemoryFile memory(isKml ? ".kml" : ".gpx", text);
    const std::vector<const char*> drivers{isKml ? "KML" : "GPX", nullptr};
    const std::vector<const char*> noSiblings{nullptr};
    CPLErrorReset();
    const Dataset dataset(GDALOpenEx(
        memory.path(),
        GDAL_OF_VECTOR | GDAL_OF_READONLY,
        drivers.data(),
        nullptr,
        noSiblings.data()));
    if (!dataset) {
        faults.addForFile(1, "", "something else", words);
        return outlines;
    }
    GeometryTaker taker(outlines, faults);
    for (int i = 0; i < GDALDatasetGetLayerCount(dataset.get()); ++i) {
        OGRLayerH layer = GDALDatasetGetLayer(dataset.get(), i);
        if (isWanted(layer, kind)) {
            takeLayer(layer, taker);
        }
    }
    if (CPLGetLastErrorType() >= CE_Failure) {
        outlines.parts.clear();
        faults.addForFile(1, "", "a file that breaks off or is damaged", words);
    } else if (outlines.parts.empty() && faults.empty()) {
        faults.addForFile(1, "", "no line or area", "a line or an area along the shore");
    }
    if (taker.points() > 0) {
        outlines.notices.push_back(
            "single points are no shoreline and were left out (" + std::to_string(taker.points()) +
            ").");
    }
    return outlines;
}

} // namespace bedlore
