// SPDX-License-Identifier: MIT
#include "tests/support/disk_log.hpp"

#include <algorithm>
#include <cstring>
#include <filesystem>
#include <limits>
#include <new>
#include <sqlite3.h>
#include <utility>

// Every method but those that change a file goes straight to the layer of the system.

namespace bedlore::testing {

namespace {

struct State {
    std::vector<DiskStep> steps;
    std::size_t failing = std::numeric_limits<std::size_t>::max();
    std::size_t counted = 0; ///< steps since `failFrom`
    int code = SQLITE_OK;
    bool failed = false;
    std::int64_t clock = -1; ///< seconds after the start of 1970; −1 for the system's
};
State state;                  // NOLINT: SQLite's layer is one for the process
sqlite3_vfs* below = nullptr; // NOLINT: as above
sqlite3_vfs layer{};          // NOLINT: as above, and SQLite keeps its address

struct File {
    sqlite3_file base{};
    char name[256]{}; // NOLINT: SQLite gives the memory and frees it without a destructor
    sqlite3_file* real = nullptr;
};
File& of(sqlite3_file* file) {
    return *reinterpret_cast<File*>(file);
}
sqlite3_file* real(sqlite3_file* file) {
    return of(file).real;
}

/// SQLITE_OK when the step may be done.
int take(DiskStep step) {
    if (state.counted++ >= state.failing) {
        state.failed = true;
        return state.code;
    }
    state.steps.push_back(std::move(step));
    return SQLITE_OK;
}

int closeFile(sqlite3_file* f) {
    return real(f)->pMethods->xClose(real(f));
}
int readFile(sqlite3_file* f, void* to, int size, sqlite3_int64 at) {
    return real(f)->pMethods->xRead(real(f), to, size, at);
}
int writeFile(sqlite3_file* f, const void* from, int size, sqlite3_int64 at) {
    const int code = take(
        {.kind = DiskStep::Kind::Write,
         .file = of(f).name,
         .offset = at,
         .bytes = std::string(static_cast<const char*>(from), static_cast<std::size_t>(size))});
    return code == SQLITE_OK ? real(f)->pMethods->xWrite(real(f), from, size, at) : code;
}
int truncateFile(sqlite3_file* f, sqlite3_int64 size) {
    const int code =
        take({.kind = DiskStep::Kind::Truncate, .file = of(f).name, .offset = size, .bytes = {}});
    return code == SQLITE_OK ? real(f)->pMethods->xTruncate(real(f), size) : code;
}
/// What is to reach the disk is written down; the disk itself need not be waited for.
int syncFile(sqlite3_file* f, int) {
    return take({.kind = DiskStep::Kind::Sync, .file = of(f).name, .bytes = {}});
}
int sizeOfFile(sqlite3_file* f, sqlite3_int64* size) {
    return real(f)->pMethods->xFileSize(real(f), size);
}
int lockFile(sqlite3_file* f, int level) {
    return real(f)->pMethods->xLock(real(f), level);
}
int unlockFile(sqlite3_file* f, int level) {
    return real(f)->pMethods->xUnlock(real(f), level);
}
int checkLock(sqlite3_file* f, int* held) {
    return real(f)->pMethods->xCheckReservedLock(real(f), held);
}
int controlFile(sqlite3_file* f, int what, void* argument) {
    return real(f)->pMethods->xFileControl(real(f), what, argument);
}
int sectorOf(sqlite3_file* f) {
    return real(f)->pMethods->xSectorSize(real(f));
}
int promisesOf(sqlite3_file*) {
    return 0;
}

// Version 1: no shared memory and no mapping, which would go past this layer.
constexpr sqlite3_io_methods methods{
    1,
    closeFile,
    readFile,
    writeFile,
    truncateFile,
    syncFile,
    sizeOfFile,
    lockFile,
    unlockFile,
    checkLock,
    controlFile,
    sectorOf,
    promisesOf,
    nullptr,
    nullptr,
    nullptr,
    nullptr,
    nullptr,
    nullptr};

std::string nameOf(const char* path) {
    return path == nullptr ? "" : std::filesystem::path(path).filename().string();
}

int openFile(sqlite3_vfs*, const char* name, sqlite3_file* f, int flags, int* outFlags) {
    auto* file = new (f) File;
    const std::string bare = nameOf(name);
    std::memcpy(file->name, bare.data(), std::min(bare.size(), sizeof(file->name) - 1));
    file->real = reinterpret_cast<sqlite3_file*>(reinterpret_cast<char*>(f) + sizeof(File));
    const int code = below->xOpen(below, name, file->real, flags, outFlags);
    file->base.pMethods = code == SQLITE_OK ? &methods : nullptr;
    return code;
}

int deleteFile(sqlite3_vfs*, const char* name, int) {
    const int code = take({.kind = DiskStep::Kind::Delete, .file = nameOf(name), .bytes = {}});
    return code == SQLITE_OK ? below->xDelete(below, name, 0) : code;
}

/// In milliseconds, as SQLite counts: from noon of a day in 4714 before our time on.
int timeNow(sqlite3_vfs*, sqlite3_int64* now) {
    if (state.clock < 0) {
        return below->xCurrentTimeInt64(below, now);
    }
    constexpr sqlite3_int64 startOf1970 = 210'866'760'000'000;
    *now = startOf1970 + state.clock * 1000;
    return SQLITE_OK;
}

} // namespace

void apply(const DiskStep& step, DiskImage& image, std::size_t most) {
    if (step.kind == DiskStep::Kind::Sync) {
        return;
    }
    if (step.kind == DiskStep::Kind::Delete) {
        image.erase(step.file);
        return;
    }
    std::string& bytes = image[step.file];
    const auto offset = static_cast<std::size_t>(step.offset);
    if (step.kind == DiskStep::Kind::Truncate) {
        bytes.resize(offset);
        return;
    }
    const std::size_t size = std::min(most, step.bytes.size());
    bytes.resize(std::max(bytes.size(), offset + size));
    bytes.replace(offset, size, step.bytes, 0, size);
}

DiskLog::DiskLog() {
    state = State{};
    below = sqlite3_vfs_find(nullptr);
    layer = *below;
    layer.zName = "bedlore-disk-log";
    layer.pNext = nullptr;
    layer.szOsFile = static_cast<int>(sizeof(File)) + below->szOsFile;
    layer.xOpen = openFile;
    layer.xDelete = deleteFile;
    layer.xCurrentTimeInt64 = timeNow;
    sqlite3_vfs_register(&layer, 1);
}

DiskLog::~DiskLog() {
    sqlite3_vfs_unregister(&layer);
    sqlite3_vfs_register(below, 1);
}

const std::vector<DiskStep>& DiskLog::steps() const {
    return state.steps;
}

void DiskLog::failFrom(std::size_t step, int code) {
    state.counted = 0;
    state.failing = step;
    state.code = code;
    state.failed = false;
}

void DiskLog::heal() {
    state.failing = std::numeric_limits<std::size_t>::max();
}

void DiskLog::setClock(std::int64_t seconds) {
    state.clock = seconds;
}

bool DiskLog::hasFailed() const {
    return state.failed;
}

} // namespace bedlore::testing
