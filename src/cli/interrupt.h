#pragma once

namespace coilward {

/// From now on Ctrl-C and the signal to end are noted, so that a command can end in order.
void note_interrupts();

/// True once one came.
bool is_interrupted();

} // namespace coilward
