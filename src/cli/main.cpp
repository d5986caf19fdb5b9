#include "cli/program.h"
#include "cli/shipped_files.h"

int main(int count, char** words) {
    return coilward::run_program(count, words, coilward::shipped_files());
}
