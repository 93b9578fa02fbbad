# No -DNDEBUG, so that Eigen checks its indices too. -fpch-preprocess is for ccache. GCC's warning of
# uninitialised values finds false ones in <regex> once the sanitizers are on (gcc.gnu.org, PR 105562,
# from memory); the other builds keep it.
set(CMAKE_BUILD_TYPE None CACHE STRING "")
set(CMAKE_CXX_FLAGS "-O1 -g1 -fpch-preprocess -Wno-maybe-uninitialized" CACHE STRING "")
set(FLANGEWRIGHT_FAST_BUILD ON CACHE BOOL "")
set(FLANGEWRIGHT_WARNINGS_AS_ERRORS ON CACHE BOOL "")
# Of `undefined` all but the checks of each single pointer (null, alignment, object-size, vptr,
# pointer-overflow, nonnull): they double the time to compile Eigen, and `address` sees a null or
# stray access too.
string(CONCAT sanitizers
    "address,bool,bounds,builtin,enum,float-cast-overflow,integer-divide-by-zero,return,shift,"
    "signed-integer-overflow,unreachable,vla-bound")
set(FLANGEWRIGHT_SANITIZE "${sanitizers}" CACHE STRING "")
