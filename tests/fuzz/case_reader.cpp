// Entry for libFuzzer: any bytes as a case file.
#include "tests/fuzz/feed.hpp"

#include <cstddef>
#include <cstdint>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    flangewright::fuzz::feed_case({reinterpret_cast<const char*>(data), size});
    return 0;
}
