// SPDX-License-Identifier: MIT
#include "tests/support/sample_notebook.hpp"

#include <filesystem>
#include <fstream>
#include <iostream>

// make_sample FOLDER: writes the pages and tables of the sample's notebook.

int main(int argc, char** argv) {
    if (argc != 2) {
        std::cerr << "usage: make_sample FOLDER\n";
        return 2;
    }
    const std::filesystem::path folder = argv[1];
    for (const auto& [name, text] : bedlore::testing::sampleNotebook()) {
        std::ofstream out(folder / name, std::ios::binary);
        out << text;
        if (!out.flush()) {
            std::cerr << "cannot write " << (folder / name).string() << '\n';
            return 3;
        }
    }
    return 0;
}
