# No -DNDEBUG, so that Eigen checks its indices too. -fpch-preprocess is for ccache. GCC's warning of
# uninitialised values finds false ones in <regex> once the sanitizers are on (gcc.gnu.org, PR 105562,
# from memory); the other builds keep it.
# Under the address sanitizer Eigen would align memory by hand; libgmsh, which takes over our copies of
# Eigen's functions, frees it as it comes from malloc, which is aligned well enough.
set(CMAKE_BUILD_TYPE None CACHE STRING "")
string(CONCAT flags
    "-O1 -g1 -fpch-preprocess -Wno-maybe-uninitialized -DEIGEN_MALLOC_ALREADY_ALIGNED=1")
set(CMAKE_CXX_FLAGS "${flags}" CACHE STRING "" FORCE)
set(FLANGEWRIGHT_FAST_BUILD ON CACHE BOOL "")
set(FLANGEWRIGHT_WARNINGS_AS_ERRORS ON CACHE BOOL "")
# Of `undefined` all but the checks of each single pointer (null, alignment, object-size, vptr,
# pointer-overflow, nonnull): they double the time to compile Eigen, and `address` sees a null or
# stray access too.
string(CONCAT sanitizers
    "address,bool,bounds,builtin,enum,float-cast-overflow,integer-divide-by-zero,return,shift,"
    "signed-integer-overflow,unreachable,vla-bound")
set(FLANGEWRIGHT_SANITIZE "${sanitizers}" CACHE STRING "")
