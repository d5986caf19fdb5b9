#include "follow.h"

#include "json_lines.h"
#include "score.h"
#include "score_tables.h"

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <map>
#include <stdexcept>
#include <tuple>
#include <vector>

#include <nlohmann/json.hpp>
#include <toml++/toml.h>

namespace population {
namespace {

using Json = nlohmann::ordered_json;
using Key = std::tuple<std::string, std::string, double>;

Key key_of(const Json& reading) {
    return {reading["quantity"], reading.value("between", "leads"), reading.value("frequency", 0.0)};
}

/// How long each reading takes at the bench, as the rules say.
std::map<Key, double> seconds_by_reading(const std::filesystem::path& rules) {
    std::map<Key, double> seconds;
    const toml::table bench = toml::parse_file((rules / "bench.toml").string());
    for (const toml::node& node : *bench["reading"].as_array()) {
        const toml::table& reading = *node.as_table();
        seconds[{reading["quantity"].value_or(""), reading["between"].value_or("leads"),
                 reading["frequency"].value_or(0.0)}] = reading["seconds"].value_or(0.0);
    }
    return seconds;
}

/// Documents of coils on a bench, of which some readings have been taken.
class Bench {
public:
    explicit Bench(const FollowOptions& options)
        : options_(options), seconds_(seconds_by_reading(options.rules)),
          all_(json_lines(options.drawn / "readings.jsonl")) {
        all_.resize(std::min(all_.size(), static_cast<std::size_t>(options.count)));
        taken_ = all_;
        for (Json& document : taken_)
            document["readings"] = Json::array();
        for (std::size_t i = 0; i < all_.size(); ++i)
            for (const char* first : {"temperature", "dc_resistance"})
                take(i, {first, "leads", 0.0});
    }

    std::size_t size() const { return all_.size(); }

    std::vector<Json> answers_to_all() const { return answers(all_); }

    /// Takes readings until nothing more is asked for. Returns the last answers.
    std::vector<Json> follow() {
        std::vector<Json> last = answers(taken_);
        while (take_next(last))
            last = answers(taken_);
        return last;
    }

    /// Of what was taken, as a share of everything.
    double share_of_seconds() const { return seconds(taken_) / seconds(all_); }

private:
    bool take(std::size_t coil, const Key& key) {
        const auto has = [&](const Json& document) {
            return std::ranges::any_of(document["readings"],
                                       [&](const Json& reading) { return key_of(reading) == key; });
        };
        if (has(taken_[coil])) return false;
        bool found = false;
        for (const Json& reading : all_[coil]["readings"])
            if (key_of(reading) == key) {
                taken_[coil]["readings"].push_back(reading);
                found = true;
            }
        return found;
    }

    bool take_next(const std::vector<Json>& last) {
        bool any = false;
        for (std::size_t i = 0; i < all_.size(); ++i) {
            if (last[i]["verdict"]["decided"]) continue;
            for (const Json& next : last[i]["next"])
                if (take(i, key_of(next))) {
                    any = true;
                    break;
                }
        }
        return any;
    }

    double seconds(const std::vector<Json>& documents) const {
        double sum = 0.0;
        for (const Json& document : documents)
            for (const Json& reading : document["readings"])
                sum += seconds_.at(key_of(reading));
        return sum;
    }

    std::vector<Json> answers(const std::vector<Json>& documents) const {
        const std::filesystem::path asked = options_.drawn / "follow.jsonl";
        const std::filesystem::path answered = options_.drawn / "follow.answers";
        std::ofstream file(asked);
        for (const Json& document : documents)
            file << document.dump() << '\n';
        file.close();
        const std::string command = options_.program + " diagnose --rules " + options_.rules.string() +
                                    " --jsonl <" + asked.string() + " >" + answered.string();
        if (std::system(command.c_str()) != 0) throw std::runtime_error("this failed: " + command);
        return json_lines(answered);
    }

    FollowOptions options_;
    std::map<Key, double> seconds_;
    std::vector<Json> all_;
    std::vector<Json> taken_;
};

} // namespace

void print_follow_scores(const FollowOptions& options, std::ostream& out) {
    Bench bench(options);
    const std::vector<Json> with_all = bench.answers_to_all();
    const std::vector<Json> followed = bench.follow();
    const std::vector<Json> labels = json_lines(options.drawn / "labels.jsonl");
    Share same;
    Share right;
    Share right_with_all;
    for (std::size_t i = 0; i < bench.size(); ++i) {
        same.add(followed[i]["verdict"]["fault"] == with_all[i]["verdict"]["fault"]);
        right.add(followed[i]["verdict"]["fault"] == labels[i]["fault"]);
        right_with_all.add(with_all[i]["verdict"]["fault"] == labels[i]["fault"]);
    }
    out << "| following `next` | value |\n| --- | --- |\n"
        << "| the verdict of all readings | " << with_interval(same) << " |\n"
        << "| leader is the true fault | " << with_interval(right) << " |\n"
        << "| the same with all readings | " << with_interval(right_with_all) << " |\n"
        << "| bench seconds, of those of all readings | " << percent(bench.share_of_seconds()) << " |\n";
}

} // namespace population
