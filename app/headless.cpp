// SPDX-License-Identifier: MIT
#include "app/headless.hpp"

#include "app/runs.hpp"

namespace bedlore {

namespace {

ExitStatus notBuilt(Console& console, const char* what) {
    return console.fault(
        {.fault = Fault::Usage, .message = std::string("bedlore ") + what + " is not built yet."});
}

struct Runner {
    ResultForm form;
    Console& console;

    // The window is opened by the caller.
    ExitStatus operator()(const OpenWindow&) const { return ExitStatus::WrongUsage; }
    ExitStatus operator()(const ImportCommand& c) const { return runImport(c, form, console); }
    ExitStatus operator()(const ExportCommand& c) const { return runExport(c, form, console); }
    ExitStatus operator()(const DepthCommand& c) const { return runDepth(c, form, console); }
    ExitStatus operator()(const CheckCommand& c) const { return runCheck(c, form, console); }
    ExitStatus operator()(const NextCommand&) const { return notBuilt(console, "next"); }
    ExitStatus operator()(const SpotCommand&) const { return notBuilt(console, "spot"); }
    ExitStatus operator()(const InfoCommand& c) const { return runInfo(c, form, console); }
    ExitStatus operator()(const ShowText& c) const {
        std::string text = c.text;
        while (text.ends_with('\n')) {
            text.pop_back();
        }
        console.result(text);
        return ExitStatus::Done;
    }
};

} // namespace

ExitStatus runHeadless(const Options& options, Console& console) {
    const ResultForm form = options.json ? ResultForm::Json : ResultForm::Words;
    return console.finish(std::visit(Runner{form, console}, options.command));
}

} // namespace bedlore
