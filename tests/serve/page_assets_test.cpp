#include "serve/page_asset.h"

#include <algorithm>
#include <cstdio>
#include <regex>
#include <string>
#include <string_view>

#include <gtest/gtest.h>

namespace coilward {
namespace {

constexpr std::string_view chart_library = "/dygraph.min.js"; // by its maker

TEST(PageAssets, AreAtMost300KilobytesWithTheChartLibrary) {
    std::size_t own = 0;
    std::size_t all = 0;
    for (const PageAsset& asset : page_assets()) {
        all += asset.bytes.size();
        if (asset.path != chart_library) own += asset.bytes.size();
    }
    std::printf("the page's own files: %zu bytes; with the chart library: %zu bytes\n", own, all);
    EXPECT_GT(own, 50'000U);
    EXPECT_LE(own, 150'000U); // half, so that the whole stays within it whatever the library grows by
    EXPECT_LE(all, 300'000U);
}

TEST(PageAssets, HaveNothingInlineAndNothingFromElsewhere) {
    const std::regex forbidden(R"(<style|style=|\son[a-z]+=|<script>|javascript:|eval\(|innerHTML)");
    const std::regex elsewhere(R"((src|href)="(https?:)?//|url\(|import [^;]*"https?:|fetch\([`"]https?:)");
    for (const PageAsset& asset : page_assets()) {
        if (asset.path == chart_library) continue;
        const std::string text(asset.bytes);
        std::smatch found;
        EXPECT_FALSE(std::regex_search(text, found, forbidden)) << asset.path << ": " << found.str();
        EXPECT_FALSE(std::regex_search(text, found, elsewhere)) << asset.path << ": " << found.str();
    }
}

TEST(PageAssets, HoldEveryFileThatThePageNames) {
    const std::regex named(R"((?:src|href)="(/[^"#]*)\"|from "\.(/[^"]+)\")");
    const auto assets = page_assets();
    int count = 0;
    for (const PageAsset& asset : assets) {
        if (asset.path == chart_library) continue;
        const std::string text(asset.bytes);
        for (std::sregex_iterator it(text.begin(), text.end(), named), end; it != end; ++it, ++count) {
            const std::string path = (*it)[1].matched ? (*it)[1] : (*it)[2];
            EXPECT_TRUE(std::ranges::any_of(assets, [&](const auto& a) { return a.path == path; })) << path;
        }
    }
    EXPECT_GT(count, 10);
}

} // namespace
} // namespace coilward
