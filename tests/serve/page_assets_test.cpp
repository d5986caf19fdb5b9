#include "serve/page_asset.h"

#include <algorithm>
#include <regex>
#include <string>

#include <gtest/gtest.h>

namespace coilward {
namespace {

TEST(PageAssets, AreAtMost300KilobytesWithTheChartLibrary) {
    std::size_t bytes = 0;
    for (const PageAsset& asset : page_assets())
        bytes += asset.bytes.size();
    EXPECT_GT(bytes, 100'000U);
    EXPECT_LE(bytes, 300'000U);
}

TEST(PageAssets, HaveNothingInlineAndNothingFromElsewhere) {
    const std::regex forbidden(R"(<style|style=|\son[a-z]+=|<script>|javascript:|eval\(|innerHTML)");
    const std::regex elsewhere(R"((src|href)="(https?:)?//|url\(|import [^;]*"https?:|fetch\([`"]https?:)");
    for (const PageAsset& asset : page_assets()) {
        if (asset.path == "/dygraph.min.js") continue; // by its maker
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
        if (asset.path == "/dygraph.min.js") continue;
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
