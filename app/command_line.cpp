// SPDX-License-Identifier: MIT
#include "app/command_line.hpp"

#include "core/io/formats.hpp"
#include "core/units/format.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <string_view>
#include <system_error>
#include <utility>

namespace bedlore {

namespace {

constexpr const char* theBook = "The book, a .gpkg file";
constexpr const char* theWater = "Which water, where the book holds more than one";

Error usageError(std::string message) {
    return {.fault = Fault::Usage, .message = std::move(message)};
}

/// Files keep the name as given; an empty name is nobody's file.
CLI::Option*
addPath(CLI::App& app, const std::string& name, std::filesystem::path& into, const char* words) {
    return app.add_option_function<std::string>(
        name,
        [&into, name](const std::string& text) {
            if (text.empty()) {
                throw CLI::ValidationError(name, "a file name is needed");
            }
            into = text;
        },
        words);
}

void addPath(
    CLI::App& app,
    const std::string& name,
    std::optional<std::filesystem::path>& into,
    const char* words) {
    app.add_option_function<std::string>(
           name,
           [&into, name](const std::string& text) {
               if (text.empty()) {
                   throw CLI::ValidationError(name, "a file name is needed");
               }
               into = text;
           },
           words)
        ->type_name("FILE");
}

void addName(
    CLI::App& app, const std::string& name, std::optional<std::string>& into, const char* words) {
    app.add_option_function<std::string>(
           name, [&into](const std::string& text) { into = text; }, words)
        ->type_name("NAME");
}

/// Metres with a point, whatever the machine's locale.
CLI::Option*
addMetres(CLI::App& app, const std::string& name, std::optional<double>& into, const char* words) {
    return app
        .add_option_function<std::string>(
            name,
            [&into, name](const std::string& text) {
                const auto number = readDecimal(text);
                if (!number) {
                    throw CLI::ValidationError(name, "\"" + text + "\" is not a number of metres");
                }
                into = number;
            },
            words)
        ->type_name("METRES");
}

void addImport(CLI::App& app, ImportCommand& c) {
    addPath(app, "BOOK", c.book, "The book, a .gpkg file; made if it is not there")->required();
    std::string endings;
    for (const std::string_view ending : importEndings()) {
        endings += (endings.empty() ? "" : " ") + std::string(ending);
    }
    app.add_option_function<std::vector<std::string>>(
           "FILES",
           [&c](const std::vector<std::string>& names) {
               c.files.assign(names.begin(), names.end());
           },
           "Pages, tables of swims, reels, readings or fixes, shorelines: " + endings +
               "; or a folder of tables")
        ->required();
    addName(app, "--water", c.water, "The water that they belong to; made if it is not there");
    app.add_flag("--skip-bad", c.skipBad, "Leave bad rows out instead of refusing the files");
    app.add_flag("--again", c.again, "Take a file that was imported before");
}

void addExport(CLI::App& app, ExportCommand& c) {
    addPath(app, "BOOK", c.book, theBook)->required();
    addPath(app, "--tiff", c.tiff, "Depth and its error as GeoTIFF");
    addPath(app, "--bottom-tiff", c.bottomTiff, "The bottom as GeoTIFF");
    addPath(app, "--geojson", c.geojson, "Contours, depth bands and what --share allows");
    addPath(app, "--pdf", c.pdf, "The map on paper");
    addPath(app, "--card", c.card, "The card of a spot on paper");
    addPath(
        app,
        "--csv",
        c.csv,
        "The whole book as a new folder of tables (.csv), with --private what is private too; with "
        "--share the map");
    addName(app, "--water", c.water, theWater);
    addName(app, "--swim", c.swim, "As seen from this swim");
    addName(app, "--spot", c.spot, "The spot of the card");
    addMetres(app, "--cell", c.cell, "Width of a cell (1, coarser on a large water)");
    addMetres(app, "--level", c.level, "Depths at this level (that of the latest visit)");
    app.add_option_function<std::string>(
           "--share",
           [&c](const std::string& text) {
               const auto tier = sharingTierFrom(text);
               if (!tier) {
                   throw CLI::ValidationError(
                       "--share", "\"" + text + "\" is none of depth, bottom, all");
               }
               c.share = *tier;
               c.shareWasSaid = true;
           },
           "How much leaves: depth (the usual), bottom, all")
        ->type_name("TIER");
    app.add_flag_callback(
        "--private",
        [&c] { c.privateThings = PrivateThings::Include; },
        "Private spots, marks and photos leave too");
}

void addDepth(CLI::App& app, DepthCommand& c) {
    addPath(app, "BOOK", c.book, theBook)->required();
    addPath(app, "--points", c.points, "CSV with lat,lon or east_m,north_m")
        ->required()
        ->type_name("FILE");
    addName(app, "--water", c.water, theWater);
    addMetres(app, "--level", c.level, "Depths at this level (that of the latest visit)");
}

void addNext(CLI::App& app, NextCommand& c) {
    addPath(app, "BOOK", c.book, theBook)->required();
    addName(app, "--water", c.water, theWater);
    app.add_option("--swim", c.swim, "From this swim")->required()->type_name("NAME");
    app.add_option("--casts", c.casts, "How many casts")
        ->check(CLI::PositiveNumber)
        ->type_name("N");
}

void addSpot(CLI::App& app, SpotCommand& c) {
    addPath(app, "BOOK", c.book, theBook)->required();
    addName(app, "--water", c.water, theWater);
    app.add_option("--spot", c.spot, "The spot's name")->required()->type_name("NAME");
}

/// `--level -.5`: a number after one of these is its value, never an option.
std::vector<std::string> joinNegativeNumbers(const std::vector<std::string>& arguments) {
    std::vector<std::string> joined;
    bool optionsEnded = false;
    for (const std::string& argument : arguments) {
        const bool wantsNumber =
            !joined.empty() && !optionsEnded &&
            (joined.back() == "--level" || joined.back() == "--cell" || joined.back() == "--casts");
        if (wantsNumber && argument.starts_with('-') && readDecimal(argument)) {
            joined.back() += "=" + argument;
        } else {
            optionsEnded = optionsEnded || argument == "--";
            joined.push_back(argument);
        }
    }
    return joined;
}

} // namespace

bool wantsWholeBook(const ExportCommand& c) {
    return c.csv && !c.shareWasSaid;
}

bool wantsMap(const ExportCommand& c) {
    return c.tiff || c.bottomTiff || c.geojson || c.pdf || c.card || (c.csv && c.shareWasSaid);
}

namespace {

std::optional<std::string> exportFault(const ExportCommand& c) {
    if (!wantsMap(c) && !c.csv) {
        return "Say what to write: --tiff, --geojson or --pdf with a file name, or --csv with a "
               "folder's.";
    }
    if (!wantsMap(c) && (c.water || c.swim || c.spot || c.cell || c.level)) {
        return "--csv writes the whole book: leave --water, --swim, --spot, --cell and --level "
               "out, or say with --share how much of the map the tables are to hold.";
    }
    if (c.cell && !(*c.cell > 0.0)) {
        return "--cell must be a width above 0 m.";
    }
    return std::nullopt;
}

/// A lone word that is neither a book's name nor any file's was meant for a command.
std::optional<std::string> windowFault(const OpenWindow& c) {
    std::error_code none;
    if (!c.book || c.book->extension() == ".gpkg" || std::filesystem::exists(*c.book, none)) {
        return std::nullopt;
    }
    return "There is no command or book \"" + c.book->string() + "\". See bedlore --help.";
}

/// Everything that the arguments can fill.
struct Filled {
    Options options;
    OpenWindow window;
    ImportCommand import;
    ExportCommand exporting;
    DepthCommand depth;
    CheckCommand check;
    NextCommand next;
    SpotCommand spot;
    InfoCommand info;
};

using Chosen = std::vector<std::pair<CLI::App*, std::function<Command()>>>;

Chosen addCommands(CLI::App& app, Filled& f) {
    Chosen chosen;
    const auto add = [&](const char* name, const char* words, auto fill, auto& command) {
        CLI::App* sub = app.add_subcommand(name, words);
        fill(*sub, command);
        sub->add_flag("--json", f.options.json, "The result as JSON on standard output");
        chosen.emplace_back(sub, [&command]() -> Command { return command; });
    };
    const auto bookAlone = [](CLI::App& sub, auto& command) {
        addPath(sub, "BOOK", command.book, theBook)->required();
    };
    add("import", "Take files into a book", addImport, f.import);
    add("export", "Write maps of a water", addExport, f.exporting);
    add("depth", "Depths at points of your own", addDepth, f.depth);
    add("check", "Whether a book is whole", bookAlone, f.check);
    add("next", "The casts that would teach most", addNext, f.next);
    add("spot", "A spot's card as text", addSpot, f.spot);
    add("info", "What is in a book", bookAlone, f.info);
    return chosen;
}

/// The library's words, made into a sentence that ends.
std::string sentence(std::string words) {
    if (!words.empty() && words.back() != '.') {
        words += '.';
    }
    return words;
}

} // namespace

Result<Options> readCommandLine(std::vector<std::string> arguments) {
    CLI::App app(
        "Bedlore: a map of the lakebed from a marker rod. With a book or without a command it "
        "opens the window.",
        "bedlore");
    Filled f;
    addPath(app, "BOOK", f.window.book, theBook);
    app.set_version_flag("--version", "bedlore " BEDLORE_VERSION);
    app.require_subcommand(0, 1);
    const Chosen chosen = addCommands(app, f);

    arguments = joinNegativeNumbers(arguments);
    std::reverse(arguments.begin(), arguments.end()); // as the library wants them
    try {
        app.parse(std::move(arguments));
    } catch (const CLI::CallForHelp&) {
        f.options.command = ShowText{app.help()};
        return f.options;
    } catch (const CLI::CallForVersion&) {
        f.options.command = ShowText{app.version() + "\n"};
        return f.options;
    } catch (const CLI::ParseError& fault) {
        return fail(usageError(sentence(fault.what()) + " See bedlore --help."));
    }
    f.options.command = f.window;
    for (const auto& [sub, command] : chosen) {
        if (sub->parsed()) {
            f.options.command = command();
        }
    }
    if (const auto* c = std::get_if<ExportCommand>(&f.options.command)) {
        if (auto fault = exportFault(*c)) {
            return fail(usageError(*std::move(fault)));
        }
    }
    if (const auto* c = std::get_if<OpenWindow>(&f.options.command)) {
        if (auto fault = windowFault(*c)) {
            return fail(usageError(*std::move(fault)));
        }
    }
    return f.options;
}

} // namespace bedlore
