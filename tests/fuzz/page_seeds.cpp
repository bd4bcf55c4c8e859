// SPDX-License-Identifier: MIT
#include "tests/fuzz/scratch.hpp"
#include "tests/fuzz/seeds.hpp"

#include <algorithm>

namespace bedlore::fuzz {

namespace {

constexpr std::string_view head = "swim P14\ndate 2025-04-12\nsticks 12 ft\ndistances wraps\n"
                                  "depths ft\nfloat pulls 12 in + 12 in\nreel big\n";

/// The beginnings of the sample's pages: an input need not be long.
void addSamples(std::vector<std::string>& seeds) {
    const std::filesystem::path folder = std::filesystem::path(BEDLORE_SOURCE_DIR) / "samples";
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
        if (entry.path().extension() == ".txt") {
            files.push_back(entry.path());
        }
    }
    std::sort(files.begin(), files.end());
    for (const auto& file : files) {
        constexpr std::size_t longest = 700;
        const std::string page = bytesOf(file).substr(0, longest);
        seeds.push_back(page.substr(0, page.rfind('\n') + 1));
    }
}

} // namespace

std::vector<std::string> pageSeeds() {
    std::vector<std::string> seeds{
        "",
        "\n",
        "swim A",
        "swim P14\ndate 2025-04-12\nlevel 2 steps\nsticks 12 ft\ndistances wraps\ndepths ft\n"
        "float pulls 12 in + 12 in\naim A = 231.5 magnetic\nA 28½ 9 gr\n27-25 si glide\n27 9p D\n"
        "95t 11'6 gr? tap\n62y 3.4m sa !\n-6t soft\n28 1/2 gr\nA 28½ 9 gr x3\n24 -- lost lead\n"
        "26 nf\n27 8-10\n~25 ~9\nPINE = A 26¾ / rods 26¾ spod 26\n",
        "swim A\ndate 12 April 2025\nlevel 0.35 m\ntip 1.8 m\nbearings magnetic\nnote wind west\n"
        "depths pulls\ndistances turns\nreel big\n95 11\n",
        "swim A\ndate 2025-04-12\naim A = dead pine\naim B = A + 10 deg right\naim C = left of B\n"
        "aim D = A + 1 fist right\naim E = 1 o'clock\nA 62y 3m\nB 60y 3m\nC 50y 2m\nD 40m\nE 30 "
        "m\n",
        "swim A\ndate 2025-04-12\naim A = B + 10 deg right\naim B = A + 10 deg right\nA 62y 3m\n",
        "swim next to the reeds was taken\nswim A\n2025-04-12\nA 11.6 9\ncobs 28 9\n28 9 cobs\n",
        "swim A\ndate 2025-02-30\ndate 2025-13-01\ndate tomorrow\nsticks 0 ft\nlevel 1e999 m\n"
        "A 1e308 9\nA nan inf\nA 1000m 9\nA 0 0\nA 28½½ 9\nA 1/0 9\nA 99999999999999999999 9\n",
        std::string(head) + "28 9\n28 9\n28 9\n\n+ 27 8\n-1 soft\n-99 soft\nA 28% 9\n",
        std::string(head) + "PINE = A 26¾\nPINE = B 26 / rods 26\nOAK = PINE 20\n = A 20\n",
        std::string(head) +
            "A 28 9 gr\nswim P3\ndate 2025-05-03\nA 20 5\ndate 2025-05-04\nA 21 6\n",
        std::string(head) + "swim foo\nA 20 5\nswim A\nswim foo\n",
        "\xEF\xBB\xBFswim A\r\ndate 2025-04-12\r\nA 28 9\r",
        std::string("swim A\n\0\n", 9),
        "swim A\nA 28\xBD 9 gr\n",
        "\xFF\xFEs\nw\n",
        std::string(head) + "A 28\x05 9\n",
        "swim \xE2\x80\xAE"
        "A\n<b>x</b> <img src=x>\n&amp; &#0; %s %n\n\x1b[2J\n",
        "date 2025-04-12\nswim foo\nswim foo\n",
        "SWIM a\nDate 2025-04-12\nA28½9gr\nA  28\t9\n28,5 9,5\n28.5 9.5\n28' 9\"\n",
    };
    addSamples(seeds);
    return seeds;
}

} // namespace bedlore::fuzz
