// SPDX-License-Identifier: MIT
#include "tests/fuzz/seeds.hpp"

#include <cstdio>
#include <filesystem>
#include <fstream>

// Writes what the fuzzers set out from: bedlore_fuzz_seeds FOLDER makes a folder in it for each.

namespace {

bool write(const std::filesystem::path& folder, const std::vector<std::string>& seeds) {
    std::filesystem::remove_all(folder);
    std::filesystem::create_directories(folder);
    for (std::size_t i = 0; i < seeds.size(); ++i) {
        std::ofstream out(folder / ("seed-" + std::to_string(i)), std::ios::binary);
        out << seeds[i];
        if (!out.flush()) {
            std::fprintf(stderr, "%s cannot be written\n", folder.c_str());
            return false;
        }
    }
    return true;
}

} // namespace

int main(int argc, char** argv) {
    if (argc != 2) {
        std::fputs("bedlore_fuzz_seeds FOLDER\n", stderr);
        return 2;
    }
    const std::filesystem::path folder = argv[1];
    using namespace bedlore::fuzz;
    const bool done =
        write(folder / "page", pageSeeds()) && write(folder / "table", tableSeeds()) &&
        write(folder / "shoreline", shorelineSeeds()) && write(folder / "book", bookSeeds());
    return done ? 0 : 1;
}
