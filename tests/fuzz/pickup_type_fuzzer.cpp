// rules/pickups/*.toml

#include "rules/pickup_type_file.h"
#include "toml_input.h"

using namespace coilward;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const IdsInFolder coil_models({"six-rod-42.toml", "slug-coil-42.toml", "screw-coil-42.toml",
                                          "narrow-coil-42.toml", "split-bass-42.toml"});
    const auto type = read_input_file(data, size, [](const TomlSource& source, auto& complaints) {
        IdsInFolder ids({});
        return read_pickup_type(source, ids, coil_models, complaints);
    });
    if (!type) return 0;
    require(!type->id.empty(), "an accepted pickup type has an id");
    require(!type->coils.empty(), "an accepted pickup type has a coil");
    for (const CoilPlace& place : type->coils)
        for (const std::string& model : place.models)
            require(coil_models.has_file_for(model), "a coil model that is named is there", model);
    return 0;
}
