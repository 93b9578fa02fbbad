// An outside program: meshes a small blank and counts the hardening laws.
#include "mesh/grid/blank_mesher.hpp"
#include "solver/material/hardening_law.hpp"

int main() {
    flangewright::grid::BlankGrid blank;
    blank.web_width = 10;
    blank.bend_width = 3;
    blank.flange_width = 12;
    const auto mesh = flangewright::grid::mesh_blank(blank);
    const bool is_whole = mesh && mesh->n_elements() > 0;
    return is_whole && !flangewright::material::hardening_laws().empty() ? 0 : 1;
}
