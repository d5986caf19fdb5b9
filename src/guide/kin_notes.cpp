#include "guide/kin_notes.h"

namespace coilward {

void note_kin(Diagnosis& diagnosis, const std::vector<Kin>& all) {
    for (const Kin& kin : all)
        diagnosis.notes.push_back(in_words(kin));
}

void note_kin(PickupDiagnosis& pickup, const std::vector<Kin>& all) {
    for (auto& [name, diagnosis] : pickup.coils)
        for (const Kin& kin : all)
            if (kin.coil.coil == name) diagnosis.notes.push_back(in_words(kin));
}

} // namespace coilward
