// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/chart/sharing.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <variant>
#include <vector>

// Arguments into a plain description of what is asked for.

namespace bedlore {

/// `bedlore [BOOK]`
struct OpenWindow {
    std::optional<std::filesystem::path> book;
    friend bool operator==(const OpenWindow&, const OpenWindow&) = default;
};

struct ImportCommand {
    std::filesystem::path book;
    std::vector<std::filesystem::path> files;
    std::optional<std::string> water;
    bool skipBad = false;
    bool again = false;
    friend bool operator==(const ImportCommand&, const ImportCommand&) = default;
};

/// `cell` in metres; `level` in metres above the water's datum.
struct ExportCommand {
    std::filesystem::path book;
    std::optional<std::filesystem::path> tiff;
    std::optional<std::filesystem::path> bottomTiff;
    std::optional<std::filesystem::path> geojson;
    std::optional<std::filesystem::path> pdf;
    std::optional<std::filesystem::path> card;
    std::optional<std::filesystem::path> csv;
    std::optional<std::string> water;
    std::optional<std::string> swim;
    std::optional<std::string> spot;
    std::optional<double> cell;
    std::optional<double> level;
    SharingTier share = SharingTier::Depth;
    bool shareWasSaid = false;
    PrivateThings privateThings = PrivateThings::LeaveOut;
    friend bool operator==(const ExportCommand&, const ExportCommand&) = default;
};

/// Whether `--csv` means the tables of the whole book: with `--share` they are those of the map.
[[nodiscard]] bool wantsWholeBook(const ExportCommand& command);
/// Whether any of what is asked for is a map's.
[[nodiscard]] bool wantsMap(const ExportCommand& command);

struct DepthCommand {
    std::filesystem::path book;
    std::filesystem::path points;
    std::optional<std::string> water;
    std::optional<double> level;
    friend bool operator==(const DepthCommand&, const DepthCommand&) = default;
};

struct CheckCommand {
    std::filesystem::path book;
    friend bool operator==(const CheckCommand&, const CheckCommand&) = default;
};

struct NextCommand {
    std::filesystem::path book;
    std::optional<std::string> water;
    std::string swim;
    int casts = 3;
    friend bool operator==(const NextCommand&, const NextCommand&) = default;
};

struct SpotCommand {
    std::filesystem::path book;
    std::optional<std::string> water;
    std::string spot;
    friend bool operator==(const SpotCommand&, const SpotCommand&) = default;
};

struct InfoCommand {
    std::filesystem::path book;
    friend bool operator==(const InfoCommand&, const InfoCommand&) = default;
};

/// Help or version, asked for: to be printed on standard output.
struct ShowText {
    std::string text;
    friend bool operator==(const ShowText&, const ShowText&) = default;
};

using Command = std::variant<
    OpenWindow,
    ImportCommand,
    ExportCommand,
    DepthCommand,
    CheckCommand,
    NextCommand,
    SpotCommand,
    InfoCommand,
    ShowText>;

struct Options {
    Command command;
    bool json = false; ///< the result on standard output as JSON
    friend bool operator==(const Options&, const Options&) = default;
};

/// `arguments` without the program's name. Fails with `Fault::Usage` and a sentence that says what
/// is wrong and how to see the help.
[[nodiscard]] Result<Options> readCommandLine(std::vector<std::string> arguments);

} // namespace bedlore
