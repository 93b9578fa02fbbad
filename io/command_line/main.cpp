#include "io/command_line/command_line.hpp"
#include "mesh/base/check.hpp"

#include <cstdio>

int main(int argc, char** argv) {
    try {
        return flangewright::command_line::run(argc, argv);
    } catch (const flangewright::InternalError& bug) {
        std::fprintf(stderr, "internal error, please report: %s\n", bug.what());
    } catch (...) {
        std::fputs("internal error, please report: stopped without a reason\n", stderr);
    }
    return flangewright::command_line::internal_error;
}
