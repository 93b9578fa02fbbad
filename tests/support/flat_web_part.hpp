// A bent part whose web is flat and whose sheet has no stress: what is put into it is all there is.
#pragma once

#include "solver/process/bend_down.hpp"
#include "solver/process/loose_part.hpp"
#include "tests/support/small_flange.hpp"

#include <gtest/gtest.h>

namespace flangewright::support {

/// Annealed on the block, then let go: it stays where it is. Its sheet never yields again.
inline process::Workpiece flat_web_part(const job::Job& job, int n_along) {
    process::Workpiece piece = small_workpiece(job, n_along);
    EXPECT_EQ(process::bend_down(piece, {}, {}, {}).reason, process::StopReason::done);
    material::SheetMaterial elastic = job.sheet.material;
    elastic.hardening = endless_elasticity();
    process::soften(piece, elastic);
    EXPECT_EQ(
        process::balance_free(piece, job::StepKind::anneal, {}, {}, {}).reason,
        process::StopReason::done
    );
    return piece;
}

} // namespace flangewright::support
