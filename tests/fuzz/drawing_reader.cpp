// Entry for libFuzzer: any bytes as a drawing.
#include "tests/fuzz/feed.hpp"

#include <cstddef>
#include <cstdint>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    flangewright::fuzz::feed_drawing({reinterpret_cast<const char*>(data), size});
    return 0;
}
