// The few process calls that screens and children share.
#pragma once

#include <sys/types.h>

namespace flangewright::display {

/// How a waited-for child ended.
enum class Ending { cleanly, badly, not_yet };

/// Waits so long for a child. Units: ms. Source: waitpid(2). Fails: never.
[[nodiscard]] Ending wait_for(pid_t child, int patience_ms);

/// Asks a child to end, then makes it. Units: none. Source: kill(2). Fails: never.
void end_process(pid_t child);

/// In a fresh child: die with the parent, forget the parent's signal handlers and
/// mask, own group.
/// Units: none. Source: prctl(2), setpgid(2), signal(2). Fails: never.
void settle_child(pid_t parent);

/// In a fresh child: sends standard output and error nowhere, reads from nowhere.
/// Units: none. Source: dup2(2). Fails: never.
void silence();

} // namespace flangewright::display
