// SPDX-License-Identifier: MIT
#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>

namespace bedlore::testing {

/// Where the package of the usual fonts puts them.
inline const std::filesystem::path packagedFonts = "/usr/share/fonts/truetype/dejavu";

/// Before the application begins: whatever else is installed, it finds those fonts alone, drawn in
/// one way, so that pictures come out the same on every machine. `scratch` is a folder that stays
/// as long as it runs.
inline void usePackagedFonts(const std::filesystem::path& scratch) {
    const std::filesystem::path file = scratch / "fonts.conf";
    std::ofstream(file) << R"(<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig>
  <dir>)" << packagedFonts.string()
                        << R"(</dir>
  <cachedir>)" << (scratch / "fonts").string()
                        << R"(</cachedir>
  <alias><family>sans-serif</family><prefer><family>DejaVu Sans</family></prefer></alias>
  <alias><family>monospace</family><prefer><family>DejaVu Sans Mono</family></prefer></alias>
  <match target="pattern">
    <edit name="family" mode="append_last"><string>DejaVu Sans</string></edit>
  </match>
  <match target="font">
    <edit name="antialias" mode="assign"><bool>true</bool></edit>
    <edit name="hinting" mode="assign"><bool>true</bool></edit>
    <edit name="hintstyle" mode="assign"><const>hintslight</const></edit>
    <edit name="rgba" mode="assign"><const>none</const></edit>
  </match>
</fontconfig>
)";
    setenv("FONTCONFIG_FILE", file.c_str(), 1);
}

} // namespace bedlore::testing
