#include "history/history_export.h"
#include "history/history_import.h"
#include "history/temporary_folder.h"
#include "hostile/mutant.h"
#include "reading/examination_json.h"

#include <fstream>
#include <functional>
#include <iterator>
#include <memory>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace coilward {
namespace {

using ::testing::IsEmpty;
using testing::Mutant;
using testing::Original;
using testing::TemporaryFolder;

std::string shop() {
    std::ifstream file(COILWARD_SOURCE_DIR "/docs/shop.json");
    return {std::istreambuf_iterator<char>(file), {}};
}

/// Thousands of histories; what is tested here is not the disk, and memory is quicker.
struct TemporaryFiles : ::testing::Environment {
    void SetUp() override {
        if (std::filesystem::is_directory("/dev/shm")) ::setenv("TMPDIR", "/dev/shm", 0);
    }
};

[[maybe_unused]] const auto* const temporary_files = ::testing::AddGlobalTestEnvironment(new TemporaryFiles);

/// A history in a folder of its own.
struct Bench {
    TemporaryFolder folder;
    History history{folder.path()};
};

/// With a pickup of its own, of which nothing may get lost.
std::unique_ptr<Bench> bench_with_a_pickup() {
    auto bench = std::make_unique<Bench>();
    import(bench->history, whole_pickups_from_csv("name,visit_at,quantity,value\r\n"
                                                  "Own,2025-01-01T10:00:00Z,dc_resistance,6112\r\n",
                                                  bench->history));
    return bench;
}

using Read = std::function<std::vector<WholePickup>(const std::string&, const History&)>;

/// Tries one file after the other on the same bench until one is accepted, and then on a new one.
class Importing {
public:
    explicit Importing(Read read) : read_(std::move(read)) {}

    bool operator()(const Mutant& mutant) {
        if (!bench_) {
            bench_ = bench_with_a_pickup();
            before_ = everything_to_json(bench_->history);
        }
        try {
            import(bench_->history, read_(mutant.text, bench_->history));
        } catch (const BadDocument& refusal) {
            expect_nothing_of_it(refusal.what());
            return false;
        } catch (const HistoryError& refusal) {
            expect_nothing_of_it(refusal.what());
            return false;
        }
        expect_whole();
        bench_.reset();
        return true;
    }

private:
    void expect_nothing_of_it(const std::string& refusal) {
        testing::expect_useful(refusal);
        EXPECT_EQ(everything_to_json(bench_->history), before_) << refusal;
    }

    /// Sound, and nothing of it is lost on the way to another bench.
    void expect_whole() {
        EXPECT_THAT(bench_->history.problems(), IsEmpty());
        const std::string exported = everything_to_json(bench_->history);
        Bench other;
        import(other.history, whole_pickups_from_json(exported));
        EXPECT_EQ(everything_to_json(other.history), exported);
    }

    Read read_;
    std::unique_ptr<Bench> bench_;
    std::string before_;
};

TEST(HostileImport, OfJsonIsAllOrNothing) {
    Importing importing(
        [](const std::string& text, const History&) { return whole_pickups_from_json(text); });
    const auto ends = testing::try_mutants({{"docs/shop.json", shop()}}, 40'000, 1500, std::ref(importing));
    testing::expect_both(ends, 500, 50);
}

TEST(HostileImport, OfCsvIsAllOrNothing) {
    Bench source;
    import(source.history, whole_pickups_from_json(shop()));
    const std::vector<Original> originals{
        {"an export", readings_to_csv(source.history)},
        {"a table", "name,visit_at,quantity,value,unit,standard_uncertainty,frequency,remark\r\n"
                    "\"Neck, red\",2026-03-02T10:00:00Z,dc_resistance,6112,ohm,9,,\"two\r\nlines\"\r\n"
                    "\"Neck, red\",2026-03-02T10:00:00Z,inductance,2.331,H,0.008,1000,\r\n"
                    "\"Neck, red\",2026-03-02T10:00:00Z,temperature,21.4,degC,,,\"a \"\"quote\"\"\"\n"}};
    Importing importing(
        [](const std::string& text, const History& known) { return whole_pickups_from_csv(text, known); });
    const auto ends = testing::try_mutants(originals, 45'000, 1000, std::ref(importing));
    testing::expect_both(ends, 300, 50);
}

} // namespace
} // namespace coilward
