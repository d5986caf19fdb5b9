// The readings document (docs/formats.md): what is accepted says the same once it was written again.

#include "reading/examination_json.h"
#include "require.h"

#include <optional>

using namespace coilward;

namespace {

void require_same(const Examination& read, const Examination& written) {
    require(read.id == written.id && read.coil_model == written.coil_model &&
                read.pickup_type == written.pickup_type && read.coils == written.coils,
            "the heading survives", examination_to_json(read));
    require(read.readings == written.readings, "the readings survive", examination_to_json(read));
    require(read.earlier.size() == written.earlier.size(), "earlier examinations survive");
    for (std::size_t i = 0; i < read.earlier.size(); ++i) {
        require(read.earlier[i].at == written.earlier[i].at &&
                    read.earlier[i].healthy == written.earlier[i].healthy,
                "an earlier examination's heading survives", examination_to_json(read));
        require(read.earlier[i].readings == written.earlier[i].readings, "earlier readings survive",
                examination_to_json(read));
    }
}

std::optional<Examination> accepted(const std::string& text) {
    try {
        return examination_from_json(text);
    } catch (const BadDocument& refusal) {
        require_one_line(refusal.what());
        return std::nullopt;
    }
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const auto read = accepted(text_of_input(data, size));
    if (!read) return 0;
    const auto written = accepted(examination_to_json(*read));
    require(written.has_value(), "what was accepted is accepted again", examination_to_json(*read));
    require_same(*read, *written);
    return 0;
}
