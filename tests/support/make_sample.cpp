// SPDX-License-Identifier: MIT
#include "tests/support/practice_notebook.hpp"
#include "tests/support/sample_notebook.hpp"

#include <filesystem>
#include <fstream>
#include <iostream>
#include <string_view>

// make_sample harl-pit|wrackle-mere FOLDER: writes the pages and tables of a sample's notebook.

int main(int argc, char** argv) {
    const std::string_view sample = argc == 3 ? argv[1] : "";
    if (sample != "harl-pit" && sample != "wrackle-mere") {
        std::cerr << "usage: make_sample harl-pit|wrackle-mere FOLDER\n";
        return 2;
    }
    const std::filesystem::path folder = argv[2];
    for (const auto& [name, text] : sample == "harl-pit" ? bedlore::testing::sampleNotebook()
                                                         : bedlore::testing::practiceNotebook()) {
        std::ofstream out(folder / name, std::ios::binary);
        out << text;
        if (!out.flush()) {
            std::cerr << "cannot write " << (folder / name).string() << '\n';
            return 3;
        }
    }
    return 0;
}
