// SPDX-License-Identifier: MIT
#include "app/export_words.hpp"

#include <array>
#include <system_error>
#include <utility>
#include <vector>

namespace bedlore {

namespace {

namespace fs = std::filesystem;

struct NamedOutput {
    const char* option;
    const std::optional<fs::path>& path;
};

std::array<NamedOutput, 6> outputsOf(const ExportCommand& c) {
    return {
        {{"--geojson", c.geojson},
         {"--tiff", c.tiff},
         {"--pdf", c.pdf},
         {"--bottom-tiff", c.bottomTiff},
         {"--card", c.card},
         {"--csv", c.csv}}};
}

/// The one day that a file of the lower tiers holds is the one on which it was printed.
std::string nothingOfHis(const ExportCommand& command) {
    return std::string("No casts, readings, swims, spots, names or dates") +
           (command.pdf ? " but the day of printing, which the PDF has." : ".");
}

} // namespace

std::optional<Error> exportNotBuilt(const ExportCommand& c) {
    std::string names;
    for (const auto& [option, path] : outputsOf(c)) {
        const std::string name = option;
        const bool built =
            name == "--geojson" || name == "--tiff" || name == "--pdf" || name == "--csv";
        if (path && !built) {
            names += (names.empty() ? "" : " and ") + name;
        }
    }
    if (names.empty()) {
        return std::nullopt;
    }
    return Error{
        .fault = Fault::Usage,
        .message = "export " + names + " is not built yet, so nothing was written."};
}

std::optional<Error> exportClash(const ExportCommand& c) {
    std::vector<std::pair<std::string, fs::path>> taken{{"the book", c.book}};
    for (const auto& [option, path] : outputsOf(c)) {
        if (!path) {
            continue;
        }
        for (const auto& [name, other] : taken) {
            std::error_code none;
            if (fs::absolute(*path, none).lexically_normal() ==
                    fs::absolute(other, none).lexically_normal() ||
                fs::equivalent(*path, other, none)) {
                return Error{
                    .fault = Fault::Usage,
                    .message = std::string(option) + " would be written over " + name +
                               ": give it a file of its own."};
            }
        }
        taken.emplace_back(std::string("what ") + option + " writes", *path);
    }
    return std::nullopt;
}

std::string tablesHoldings(const PrivateCounts& privateOnes, PrivateThings privateThings) {
    const std::string all = "The tables will hold everything in the book";
    const std::string words = privateWords(privateOnes);
    if (words.empty()) {
        return all + "; nothing in it is private.";
    }
    const bool isOne = privateOnes.spots + privateOnes.marks + privateOnes.photos == 1;
    return privateThings == PrivateThings::Include
               ? all + ", " + words + " too: they are for yourself, not for sharing."
               : all + " but what is private: " + words + (isOne ? " stays" : " stay") +
                     " at home. With --private the tables make an equal book.";
}

std::string exportHoldings(const ExportCommand& command, const MapDrawing& map) {
    std::string text = "The files will hold: depths";
    if (command.share == SharingTier::Depth) {
        return text + " inside one outline. " + nothingOfHis(command);
    }
    if (command.share == SharingTier::Bottom) {
        return text + " inside one outline (the bottom is not built yet). " + nothingOfHis(command);
    }
    text += " and how sure they are";
    if (!command.geojson && !command.pdf && !command.csv) {
        return text + ". No casts, readings, swims, spots, names or dates.";
    }
    const auto count = [](std::size_t n, const std::string& one, const std::string& many) {
        return ", " + std::to_string(n) + " " + (n == 1 ? one : many);
    };
    text += count(map.swims.size(), "swim", "swims") + count(map.casts.size(), "cast", "casts") +
            count(map.readings.size(), "reading", "readings") +
            count(map.spots.size(), "spot", "spots") + count(map.marks.size(), "mark", "marks");
    return text + ", with their names and dates." +
           (command.pdf ? " The PDF has the day of printing." : "") +
           (command.privateThings == PrivateThings::Include
                ? " Private spots and marks are among them."
                : " Private spots and marks are left out.");
}

} // namespace bedlore
