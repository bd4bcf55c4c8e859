// SPDX-License-Identifier: MIT
#include "core/io/formats.hpp"
#include "tests/core/io/import_bench.hpp"

#include <random>

namespace bedlore::testing {

namespace {

using namespace std::string_view_literals;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::SizeIs;

constexpr std::string_view goodReadings =
    "swim,date,cast,bearing,north,distance,distance_unit,depth,depth_unit,bottom,note\n"
    "A,2025-04-12,1,49,true,30,wrap,9½,ft,weed,\"a \"\"b\"\", c\"\n"
    "A,2025-04-12,1,49,true,29,wrap,9,ft,gravel,\xC2\xBD\n"
    "A,2025-04-12,,50,grid,62,yd,3.4,m,silt,\n";

class HostileImport : public ImportBench {
protected:
    /// Whatever the bytes, an import ends with a plan or a sentence, and a refused one plans
    /// nothing.
    void expectSaneEnd(const std::string& name, std::string_view bytes) {
        const auto planned = plan({write(name, bytes)});
        if (!planned) {
            EXPECT_FALSE(planned.error().message.empty());
            return;
        }
        if (planned->refused) {
            EXPECT_TRUE(planned->edits.empty());
            EXPECT_EQ(planned->counts, ImportCounts{});
            EXPECT_FALSE(planned->bad.empty());
        } else {
            EXPECT_TRUE(applyEdits(book_, planned->edits).has_value());
        }
    }
};

TEST_F(HostileImport, NamesEveryKindWhenAFileIsOfNone) {
    for (const std::string name : {"a.csv", "a.txt", "a.xyz", "noending"}) {
        EXPECT_THAT(
            failure({write(name, "alpha,beta\n1,2\n")}), HasSubstr(name + " is of no known kind"));
    }
    EXPECT_THAT(failure({write("empty.csv", "")}), HasSubstr("empty.csv is empty"));
    EXPECT_THAT(failure({write("empty.txt", "\n \n")}), HasSubstr("empty.txt"));
    EXPECT_THAT(failure({folder_ / "none.csv"}), HasSubstr("There is no file"));
    std::filesystem::create_directory(folder_ / "folder");
    EXPECT_THAT(failure({folder_ / "folder"}), HasSubstr("no tables (.csv) in the folder"));
}

TEST_F(HostileImport, TellsTheFaultsOfAllFilesAtOnce) {
    const std::string message =
        failure({write("a.csv", "x\n"), folder_ / "none.csv", write("b.xyz", "")});
    EXPECT_THAT(message, HasSubstr("a.csv"));
    EXPECT_THAT(message, HasSubstr("none.csv"));
    EXPECT_THAT(message, HasSubstr("b.xyz"));

    EXPECT_THAT(
        refused(
            {write("r.csv", "swim,distance\n"),
             write("s.csv", "swim,lat,lon,tip_height_m\nA,x,,\n")}),
        SizeIs(::testing::Ge(3U)));
}

TEST_F(HostileImport, RefusesOtherEncodingsWithTheLine) {
    std::string latin(goodReadings);
    const std::string_view half = "\xC2\xBD";
    latin.replace(latin.rfind(half), half.size(), "\xBD");
    EXPECT_THAT(
        refused({write("latin.csv", latin)}),
        // The decimal fraction of line 2 is no plain number besides.
        ElementsAre(isBadAt(2, "depth"), isBadAt(3, "")));

    EXPECT_THAT(refused({write("wide.csv", "\xFF\xFEs\0w\0"sv)}), ElementsAre(isBadAt(1, "")));
    EXPECT_THAT(refused({write("wide.txt", "\xFE\xFF\0s\0w"sv)}), ElementsAre(isBadAt(1, "")));
    EXPECT_THAT(
        refused({write(
            "page.txt",
            "swim A\ndate 2025-04-12\n\xA0"
            "A 28\xBD 9 gr\n")}),
        ElementsAre(isBadAt(3, "")));
    EXPECT_THAT(
        refused({write("cut.csv", std::string(goodReadings) + "\xE2\x82")}),
        Contains(isBadAt(5, "")));
}

TEST_F(HostileImport, RefusesNulBytes) {
    std::string text(goodReadings);
    text[text.size() - 3] = '\0';
    EXPECT_THAT(refused({write("nul.csv", text)}), Contains(isBadAt(4, "")));
    EXPECT_THAT(refused({write("nul.txt", "swim A\n\0\n"sv)}), ElementsAre(isBadAt(2, "")));
    EXPECT_THAT(refused({write("nul.geojson", "{\n\0}"sv)}), ElementsAre(isBadAt(2, "")));
}

TEST_F(HostileImport, RefusesAMillionColumns) {
    std::string header = "swim,distance";
    for (int i = 0; i < 1'000'000; ++i) {
        header += ",c" + std::to_string(i);
    }
    EXPECT_THAT(refused({write("wide.csv", header + "\n")}), ElementsAre(isBadAt(1, "")));
    EXPECT_THAT(
        refused({write("wide2.csv", std::string(1'000'000, ';') + "\n")}),
        ElementsAre(isBadAt(1, "")));
}

TEST_F(HostileImport, RefusesLinesAndCellsWithoutEnd) {
    const std::string header(readingsHeader);
    EXPECT_THAT(
        refused({write("a.csv", header + std::string(5'000'000, 'x'))}),
        ElementsAre(isBadAt(2, "")));
    EXPECT_THAT(
        refused({write("b.csv", std::string(5'000'000, 'x'))}), ElementsAre(isBadAt(1, "")));
    EXPECT_THAT(
        refused({write(
            "c.csv",
            header + "A,2025-04-12,1,49,true,30,m,,,," + std::string(10'001, 'x') + "\n")}),
        ElementsAre(isBadAt(2, "note")));
    EXPECT_THAT(
        refused({write("d.txt", "swim A\n" + std::string(10'001, 'x'))}),
        ElementsAre(isBadAt(2, "")));
    EXPECT_THAT(refused({write("e.txt", "swim A\n" + std::string(20'000, '\n'))}), SizeIs(1));
}

TEST_F(HostileImport, RefusesFilesBeyondTheSizeOfTheirKind) {
    const auto path = write("big.kml", "<kml/>");
    std::filesystem::resize_file(path, importFormat(ImportKind::Kml).largestBytes + 1);
    EXPECT_THAT(failure({path}), HasSubstr("big.kml is"));
    const auto swims = write("big.csv", "swim,lat,lon,tip_height_m\n");
    std::filesystem::resize_file(swims, importFormat(ImportKind::Swims).largestBytes + 1);
    EXPECT_THAT(failure({swims}), HasSubstr("Split it"));
}

// An archive could hold anything, of any size: none is ever opened, whatever it calls itself.
TEST_F(HostileImport, RefusesArchives) {
    constexpr std::string_view zip = "PK\x03\x04\x14\0\0\0\x08\0doc.kml<kml/>"sv;
    constexpr std::string_view gzip = "\x1f\x8b\x08\0\0\0\0\0\0\x03\xb3\xc9"sv;
    for (const std::string_view bytes : {zip, gzip}) {
        for (const char* name : {"a.kmz", "a.zip", "a.gz", "a.csv.gz", "a.kml.zip"}) {
            EXPECT_THAT(failure({write(name, bytes)}), HasSubstr("is of no known kind"));
        }
        for (const std::string_view ending : importEndings()) {
            EXPECT_THAT(refused({write("a" + std::string(ending), bytes)}), SizeIs(1)) << ending;
        }
    }
}

TEST_F(HostileImport, RefusesMoreRowsThanAKindCanHave) {
    std::string text = "swim,lat,lon,tip_height_m\n";
    for (std::size_t i = 0; i <= importFormat(ImportKind::Swims).mostRows; ++i) {
        text += "s" + std::to_string(i) + ",52.2,-1.2,\n";
    }
    EXPECT_THAT(refused({write("a.csv", text)}), ElementsAre(isBadAt(20'002, "")));
}

TEST_F(HostileImport, ShowsNothingThatATerminalWouldObey) {
    const auto bad =
        refused({write("a.csv", table(readingsHeader, {"A,2025-04-12,1,49,true,\x1b[2J,m,,,,"}))});
    ASSERT_THAT(bad, SizeIs(1));
    EXPECT_EQ(bad[0].found, "\uFFFD[2J");
}

TEST_F(HostileImport, EndsSanelyOnRandomBytes) {
    for (unsigned seed = 1; seed <= 25; ++seed) {
        SCOPED_TRACE(seed);
        std::mt19937 random(seed);
        std::string bytes;
        const std::size_t size = random() % 4000;
        while (bytes.size() < size) {
            bytes.push_back(static_cast<char>(random()));
        }
        for (const std::string_view ending : importEndings()) {
            expectSaneEnd("r" + std::string(ending), bytes);
        }
        expectSaneEnd("r.csv", std::string(readingsHeader) + bytes);
        expectSaneEnd("r.txt", "swim A\n" + bytes);
    }
}

TEST_F(HostileImport, EndsSanelyOnDamagedTables) {
    constexpr std::string_view pieces = "\",;\n\r\0\xFF\xC2x-9.e+1"sv;
    for (unsigned seed = 1; seed <= 120; ++seed) {
        SCOPED_TRACE(seed);
        std::mt19937 random(seed);
        std::string bytes(goodReadings);
        for (unsigned i = 0; i <= seed % 7; ++i) {
            const std::size_t at = random() % bytes.size();
            switch (random() % 3) {
            case 0:
                bytes[at] = pieces[random() % pieces.size()];
                break;
            case 1:
                bytes.insert(at, 1, pieces[random() % pieces.size()]);
                break;
            default:
                bytes.resize(at + 1);
            }
        }
        expectSaneEnd("damaged.csv", bytes);
    }
}

TEST_F(HostileImport, EndsSanelyOnGeoJsonCutOffAnywhere) {
    constexpr std::string_view whole =
        R"({"type":"FeatureCollection","features":[{"type":"Feature","geometry":)"
        R"({"type":"Polygon","coordinates":[[[0.1,50],[0.2,50],[0.2,50.1],[0.1,50]]]}}]})";
    for (std::size_t size = 0; size <= whole.size(); ++size) {
        SCOPED_TRACE(size);
        expectSaneEnd("cut.geojson", whole.substr(0, size));
    }
}

} // namespace

} // namespace bedlore::testing
