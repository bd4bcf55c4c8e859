// SPDX-License-Identifier: MIT
#pragma once

#include "tests/fuzz/must.hpp"

#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>

// Files that a fuzzer hands to the program: in memory where the system has a folder for that.

namespace bedlore::fuzz {

/// A folder of this run's own, gone when the run ends in order.
class Scratch {
public:
    Scratch() {
        const std::filesystem::path memory = "/dev/shm";
        std::error_code error;
        const bool isThere = std::filesystem::is_directory(memory, error);
        std::string name =
            ((isThere ? memory : std::filesystem::temp_directory_path()) / "bedlore-fuzz-XXXXXX")
                .string();
        must(::mkdtemp(name.data()) != nullptr, "there is room for a folder");
        path_ = name;
    }
    ~Scratch() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;
    Scratch(Scratch&&) = delete;
    Scratch& operator=(Scratch&&) = delete;

    [[nodiscard]] std::filesystem::path put(const std::string& name, std::string_view bytes) const {
        std::filesystem::path file = path_ / name;
        std::ofstream out(file, std::ios::binary | std::ios::trunc);
        out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
        must(out.good(), "there is room for a file");
        return file;
    }
    [[nodiscard]] std::filesystem::path operator/(const std::string& name) const {
        return path_ / name;
    }

private:
    std::filesystem::path path_;
};

/// One for the whole run.
inline const Scratch& scratch() {
    static const Scratch folder;
    return folder;
}

inline std::string bytesOf(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

/// What libFuzzer hands over, as text.
inline std::string_view textOf(const std::uint8_t* data, std::size_t size) {
    // An input of no bytes may have no address either.
    return size == 0 ? std::string_view()
                     : std::string_view(reinterpret_cast<const char*>(data), size);
}

} // namespace bedlore::fuzz
