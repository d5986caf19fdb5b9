#include "hostile/mutant.h"
#include "hostile/sound_answer.h"
#include "reading/examination_json.h"
#include "rules/bench_file.h"
#include "rules/coil_model_file.h"
#include "rules/fault_file.h"
#include "rules/pickup_type_file.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

#include <gtest/gtest.h>

namespace coilward {
namespace {

using testing::Mutant;
using testing::Original;
namespace fs = std::filesystem;

const std::string rules_folder = COILWARD_SOURCE_DIR "/rules";

IdsInFolder ids_in(const char* folder) {
    std::vector<fs::path> files;
    for (const auto& entry : fs::directory_iterator(fs::path(rules_folder) / folder))
        files.push_back(fs::path("rules") / folder / entry.path().filename());
    return IdsInFolder(files);
}

Examination example(const char* name) {
    std::ifstream file(std::string(COILWARD_SOURCE_DIR "/docs/examples/") + name);
    return examination_from_json(std::string(std::istreambuf_iterator<char>(file), {}));
}

template <typename Item>
void replace(std::vector<Item>& items, const Item& changed) {
    const auto same = std::ranges::find(items, changed.id, &Item::id);
    ASSERT_NE(same, items.end()) << "the id is that of the file";
    *same = changed;
}

/// The shipped rules, of which one file at a time is harmed.
class HostileRules : public ::testing::Test {
protected:
    /// True where the file was accepted; the rules then have it in place of the sound one.
    bool take(const Mutant& mutant, Rules& changed, std::vector<Complaint>& complaints) {
        const std::string& name = mutant.original->name;
        const auto source = toml_from_text(mutant.text, "rules/" + name, complaints);
        if (!source) return false;
        IdsInFolder ids = ids_in(name == "bench.toml" ? "coils" : fs::path(name).parent_path().c_str());
        if (name == "bench.toml") {
            BenchFile bench = read_bench_file(*source, complaints);
            changed.bench_readings = std::move(bench.readings);
            changed.handled_readings = std::move(bench.handled);
            return complaints.empty();
        }
        if (name.starts_with("coils/"))
            return put(changed.coil_models, read_coil_model(*source, ids, complaints));
        if (name.starts_with("pickups/"))
            return put(changed.pickup_types, read_pickup_type(*source, ids, coil_models, complaints));
        return put(changed.faults, read_fault(*source, ids, coil_models, complaints));
    }

    template <typename Item>
    bool put(std::vector<Item>& items, const std::optional<Item>& item) {
        if (item) replace(items, *item);
        return item.has_value();
    }

    /// A coil of the changed model where there is one, and one or two with two coils of the changed type.
    void judge_by(const Rules& changed, const std::string& file) {
        Examination examination = one_coil;
        if (file.starts_with("coils/")) examination.coil_model = fs::path(file).stem();
        if (file.starts_with("pickups/dual-coil-")) examination = two_coils;
        if (file == "pickups/dual-coil-parallel.toml") examination.pickup_type = "dual-coil-parallel";
        testing::expect_an_answer(changed, examination);
    }

    const Rules rules = load_rules(rules_folder);
    const IdsInFolder coil_models = ids_in("coils");
    const Examination one_coil = example("shorted-turns.json");
    const Examination two_coils = example("two-coils.json");
};

TEST_F(HostileRules, AreUsedOrRefusedWithTheirPlace) {
    const auto ends = testing::try_mutants(
        testing::originals_below(rules_folder, ".toml"), 20'000, 2500, [&](const Mutant& mutant) {
            Rules changed = rules;
            std::vector<Complaint> complaints;
            const bool taken = take(mutant, changed, complaints);
            EXPECT_EQ(taken, complaints.empty())
                << "what is refused has a complaint, and nothing else has one";
            for (const Complaint& complaint : complaints) {
                testing::expect_useful(complaint.headline());
                EXPECT_TRUE(complaint.headline().starts_with("rules/" + mutant.original->name + ":"))
                    << complaint.headline();
            }
            if (taken) judge_by(changed, mutant.original->name);
            return taken;
        });
    testing::expect_both(ends, 1000, 200);
}

} // namespace
} // namespace coilward
