#include "cli/program.h"

int main(int count, char** words) {
    return coilward::run_program(count, words);
}
