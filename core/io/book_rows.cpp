// SPDX-License-Identifier: MIT
#include "core/io/book_rows.hpp"

#include "core/io/book_file.hpp"
#include "core/io/csv_header.hpp"
#include "core/io/fix_rows.hpp"
#include "core/io/import_text.hpp"
#include "core/io/plain_photo.hpp"

#include <type_traits>
#include <utility>

namespace bedlore {

namespace {

/// Takes off a photo what its camera wrote into it; false, with a fault, where it is none.
bool makePlain(Photo& photo, int line, FaultList& faults) {
    if (!photo.bytes || photo.bytes->empty()) {
        return true;
    }
    auto plain = plainPhoto(*photo.bytes);
    if (!plain) {
        const std::string found = std::to_string(photo.bytes->size()) + " bytes of something else";
        faults.add(line, "bytes", found, wantedPhoto);
        return false;
    }
    photo.bytes = std::make_shared<const std::vector<std::byte>>(*std::move(plain));
    return true;
}

} // namespace

OpenTable* BookRows::tableNamed(std::string_view name) {
    const auto found = std::find_if(tables_.begin(), tables_.end(), [&](const OpenTable& table) {
        return table.table() == name;
    });
    return found == tables_.end() ? nullptr : &*found;
}

template <class Row, class Use, class Spoilt>
Result<void>
BookRows::readTable(std::string_view name, const Progress& progress, Use&& use, Spoilt&& spoilt) {
    OpenTable* table = tableNamed(name);
    if (table == nullptr || table->faults.fileIsUnusable()) {
        return {};
    }
    if (!table->header.unknown.empty()) {
        notices_.push_back(unknownColumns(table->name, table->header.unknown));
    }
    return readRows<Row>(
        *table, longOnes_, progress, std::forward<Use>(use), std::forward<Spoilt>(spoilt));
}

template <class Record>
Result<void> BookRows::readRecords(const Progress& progress) {
    Incoming<Record>& incoming = all<Record>();
    incoming.table = tableNamed(tableName<Record>);
    if constexpr (std::is_same_v<Record, FixSet>) {
        return readFixes(progress);
    } else {
        auto done = readTable<Record>(
            tableName<Record>,
            progress,
            [&](Record&& record, int line) {
                if constexpr (std::is_same_v<Record, Photo>) {
                    if (!makePlain(record, line, incoming.table->faults)) {
                        incoming.spoilt.insert(record.id.value);
                        return;
                    }
                }
                incoming.rows.push_back({.record = std::move(record), .line = line});
            },
            [&](std::int64_t id) { incoming.spoilt.insert(id); });
        std::stable_sort(
            incoming.rows.begin(), incoming.rows.end(), [](const auto& a, const auto& b) {
                return a.record.id < b.record.id;
            });
        return done;
    }
}

Result<void> BookRows::readFixes(const Progress& progress) {
    Incoming<FixSet>& incoming = all<FixSet>();
    BookFixes fixes;
    std::set<std::int64_t> seen;
    auto done = readTable<FixSetRow>(
        tableName<FixSet>,
        progress.part(0.0, 0.1),
        [&](FixSetRow&& set, int line) {
            if (!seen.insert(set.id.value).second) {
                incoming.table->faults.add(
                    line, "id", std::to_string(set.id.value), "an id that no other row has");
                return;
            }
            fixes.addSet(std::move(set), line);
        },
        [&](std::int64_t id) {
            incoming.spoilt.insert(id);
            fixes.addSpoiltSet(id);
        });
    OpenTable* rows = tableNamed(tableName<FixTableRow>);
    if (!done) {
        return done;
    }
    done = readTable<FixTableRow>(
        tableName<FixTableRow>,
        progress.part(0.1, 1.0),
        [&](const FixTableRow& row, int line) { fixes.add(row, line, rows->faults); },
        [&](std::int64_t set) { fixes.addSpoiltRow(set); });
    if (incoming.table != nullptr) {
        for (BookFixes::Made& made : fixes.make(incoming.table->faults)) {
            incoming.rows.push_back({.record = std::move(made.set), .line = made.line});
        }
    }
    return done;
}

void BookRows::checkCount(const std::string& table, const MetaRow& row, int line, OpenTable& meta) {
    const auto layouts = tableLayouts();
    const bool known = std::any_of(layouts.begin(), layouts.end(), [&](const TableLayout& layout) {
        return layout.name == table;
    });
    const OpenTable* there = tableNamed(table);
    if (!known) {
        notices_.push_back(
            meta.name + ": a table \"" + shown(table) + "\" is not known to this program.");
    } else if (there == nullptr && row.value != 0) {
        meta.faults.add(
            line,
            "meta_value",
            std::to_string(row.value),
            "the file " + table + ".csv among the others: it is missing");
    } else if (there != nullptr && !there->faults.fileIsUnusable() && row.value != there->rows) {
        meta.faults.add(
            line,
            "meta_value",
            std::to_string(row.value),
            std::to_string(there->rows) + ", the rows of " + there->name +
                ": rows are missing there or too many; if that is meant, write this number here");
    }
}

void BookRows::takeMeta(const MetaRow& row, int line, OpenTable& meta) {
    const auto refuse = [&](std::string_view field, std::string_view found, std::string expected) {
        meta.faults.add(line, field, found, std::move(expected));
    };
    const std::string value = std::to_string(row.value);
    if (!metaKeys_.insert(row.key).second) {
        refuse("meta_key", row.key, "each key once");
    } else if (row.key == meta_key::format) {
        if (row.value > bookFormat) {
            newer_ = inputError(
                "These tables were written by a newer Bedlore (format " + value +
                "; this one reads up to " + std::to_string(bookFormat) +
                "). Take them in with the newer program.");
        } else if (row.value < 1) {
            refuse("meta_value", value, "a format, a whole number from 1");
        }
    } else if (row.key == meta_key::nextId) {
        if (row.value < 1 || row.value > largestTableId + 1) {
            refuse("meta_value", value, "a number above every id");
        } else {
            nextId_ = row.value;
        }
    } else if (row.key.starts_with(meta_key::rowsOf)) {
        saysHowMuch_ = true;
        checkCount(row.key.substr(meta_key::rowsOf.size()), row, line, meta);
    } else {
        notices_.push_back(
            meta.name + ": \"" + shown(row.key) + "\" means nothing here and was left out.");
    }
}

Result<void> BookRows::readMeta(const Progress& progress) {
    OpenTable* meta = tableNamed(tableName<MetaRow>);
    return readTable<MetaRow>(
        tableName<MetaRow>,
        progress,
        [&](const MetaRow& row, int line) { takeMeta(row, line, *meta); },
        [](std::int64_t) {});
}

Result<void> BookRows::read(const Progress& progress) {
    OpenTable* longTable = tableNamed(tableName<LongPiece>);
    LongValues pieces; // the table of pieces has none of its own
    auto done = readTable<LongPiece>(
        tableName<LongPiece>,
        progress.part(0.0, 0.2),
        [&](LongPiece&& piece, int line) { pieces.add(piece, line, longTable->faults); },
        [](std::int64_t) {});
    if (longTable != nullptr) {
        pieces.finish(longTable->faults);
    }
    longOnes_ = std::move(pieces);
    constexpr double step = 0.8 / 21.0; // the tables of records, and the last one
    double at = 0.2;
    forEachType(AllRecords{}, [&]<class Record>() {
        if (done) {
            done = readRecords<Record>(progress.part(at, at + step));
            at += step;
        }
    });
    if (done) {
        done = readMeta(progress.part(at, at + step));
    }
    if (done && longTable != nullptr && !anyUnusable()) {
        longOnes_.refuseUnused(longTable->faults);
    }
    return done;
}

} // namespace bedlore
