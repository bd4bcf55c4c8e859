// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/bed_map.hpp"
#include "gui/document/page_session.hpp"
#include "tests/gui/document/page_header.hpp"
#include "tests/gui/support.hpp"

#include <memory>
#include <string>
#include <vector>

// A book that was typed: one page, aims in degrees, wraps and feet.

namespace bedlore::testing {

/// A book whose only page holds `pageHeader` and `lines`.
struct TypedBook {
    TempFolder folder;
    std::unique_ptr<Document> document = newBook(folder / "Harl Pit.gpkg");
    PageSession session{*document};

    explicit TypedBook(const std::vector<std::string>& lines) {
        session.begin(std::nullopt);
        std::vector<std::string> all = pageHeader();
        all.insert(all.end(), lines.begin(), lines.end());
        const auto kept = session.keep(all);
        EXPECT_TRUE(kept.has_value()) << kept.error().message;
    }
    [[nodiscard]] BedRequest request() const {
        return {
            .water = document->book()->all<Water>().begin()->id,
            .swim = document->book()->all<Swim>().begin()->id};
    }
};

} // namespace bedlore::testing
