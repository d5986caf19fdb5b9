#pragma once

namespace coilward {

/// Adds a row for every driver that is there. Not done before main(), because the drivers are read from
/// files.
void add_decoder_rows();

} // namespace coilward
