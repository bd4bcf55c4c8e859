// SPDX-License-Identifier: MIT
#include "tests/core/io/store_support.hpp"

#include <sqlite3.h>
#include <string>
#include <vector>

// The guards of an open book, asked of the very connection that it holds.

namespace bedlore {
namespace {

using testing::bytesOf;
using ::testing::HasSubstr;
using testing::makeFullBook;
using ::testing::Not;
using testing::sayings;
using testing::TempFolder;

/// Every connection that this program opens while it lives.
class Connections {
public:
    Connections() {
        opened().clear();
        sqlite3_auto_extension(entry());
    }
    ~Connections() { sqlite3_cancel_auto_extension(entry()); }
    Connections(const Connections&) = delete;
    Connections& operator=(const Connections&) = delete;
    Connections(Connections&&) = delete;
    Connections& operator=(Connections&&) = delete;

    static std::vector<sqlite3*>& opened() {
        static std::vector<sqlite3*> all;
        return all;
    }

private:
    static int note(sqlite3* database, const char** /*message*/, const void* /*routines*/) {
        opened().push_back(database);
        return SQLITE_OK;
    }
    static void (*entry())() {
        // SQLite asks for the type of no extension, and calls it as this one.
        return reinterpret_cast<void (*)()>(&Connections::note);
    }
};

class ConnectionGuards : public ::testing::Test {
protected:
    void SetUp() override {
        ASSERT_TRUE(makeFullBook(path));
        const Connections connections;
        file.emplace(BookFile::open(path));
        ASSERT_TRUE(*file) << sayings(*file);
        ASSERT_EQ(Connections::opened().size(), 1U);
        database = Connections::opened().front();
    }

    [[nodiscard]] int pragma(const std::string& name) const {
        int value = -1;
        const auto take = [](void* to, int, char** cells, char**) {
            *static_cast<int*>(to) = std::stoi(cells[0]);
            return 0;
        };
        EXPECT_EQ(
            sqlite3_exec(database, ("PRAGMA " + name).c_str(), take, &value, nullptr), SQLITE_OK);
        return value;
    }
    /// What SQLite says to `statements`; empty where it carries them out.
    [[nodiscard]] std::string refusalOf(const std::string& statements) const {
        char* said = nullptr;
        sqlite3_exec(database, statements.c_str(), nullptr, nullptr, &said);
        std::string words = said != nullptr ? said : "";
        sqlite3_free(said);
        return words;
    }

    TempFolder folder;
    std::filesystem::path path = folder / "a.gpkg";
    std::optional<Result<BookFile>> file;
    sqlite3* database = nullptr;
};

TEST_F(ConnectionGuards, WhatIsTakenOutIsNotInTheFilesBytes) {
    EXPECT_EQ(pragma("secure_delete"), 1);
    const std::string secret = "the gravel behind the island";
    ASSERT_TRUE((*file)->write({Put<Word>{{.id = {90}, .text = secret, .meaning = "gr"}}}, 91));
    ASSERT_THAT(bytesOf(path), HasSubstr(secret));
    ASSERT_TRUE((*file)->write({Remove<Word>{{90}}}, 91));
    EXPECT_THAT(bytesOf(path), Not(HasSubstr(secret)));
}

TEST_F(ConnectionGuards, CellsOfDamagedPagesAreMeasuredBeforeTheyAreRead) {
    EXPECT_EQ(pragma("cell_size_check"), 1);
}

TEST_F(ConnectionGuards, ASchemaMayNotCallFunctionsThatAreNotHarmless) {
    EXPECT_EQ(pragma("trusted_schema"), 0);
    const auto harmful = [](sqlite3_context* context, int, sqlite3_value**) {
        sqlite3_result_int(context, 1);
    };
    ASSERT_EQ(
        sqlite3_create_function(
            database, "harmful", 0, SQLITE_UTF8, nullptr, harmful, nullptr, nullptr),
        SQLITE_OK);
    EXPECT_EQ(refusalOf("SELECT harmful()"), "");
    EXPECT_THAT(
        refusalOf("BEGIN; CREATE VIEW trap AS SELECT harmful(); SELECT * FROM trap"),
        HasSubstr("unsafe use of harmful()"));
    EXPECT_EQ(refusalOf("ROLLBACK"), "");
}

TEST_F(ConnectionGuards, TheSchemaCannotBeWrittenAsRows) {
    int isDefensive = -1;
    sqlite3_db_config(database, SQLITE_DBCONFIG_DEFENSIVE, -1, &isDefensive);
    EXPECT_EQ(isDefensive, 1);
    EXPECT_THAT(
        refusalOf("PRAGMA writable_schema = ON; DELETE FROM sqlite_master"),
        HasSubstr("may not be modified"));
}

} // namespace
} // namespace bedlore
