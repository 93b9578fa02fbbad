// A PDF file that the drawing library writes into memory.
#pragma once

#include <memory>
#include <optional>
#include <string>

// Of cairo.h, so that who includes this needs none of it.
struct _cairo; // NOLINT(clang-diagnostic-reserved-identifier): the library's name
struct _cairo_surface; // NOLINT(clang-diagnostic-reserved-identifier): the library's name
using cairo_t = _cairo; // NOLINT(readability-identifier-naming): the library's name
using cairo_surface_t = _cairo_surface; // NOLINT(readability-identifier-naming): the library's name

namespace flangewright::paper {

struct SurfaceEnd {
    void operator()(cairo_surface_t* surface) const;
};

struct PenEnd {
    void operator()(cairo_t* pen) const;
};

using CairoSurface = std::unique_ptr<cairo_surface_t, SurfaceEnd>;
using CairoPen = std::unique_ptr<cairo_t, PenEnd>;

/// Text the library takes: without control characters, at which it would stop.
[[nodiscard]] std::string sound_text(const std::string& text);

/// The file's bytes as they come; any trouble of library or pens is remembered to the end.
class PdfStream {
public:
    /// Units: points (1/72 in).
    PdfStream(double width, double height, const std::string& title);
    PdfStream(const PdfStream&) = delete;
    PdfStream& operator=(const PdfStream&) = delete;

    [[nodiscard]] cairo_surface_t* surface() const { return surface_.get(); }
    [[nodiscard]] CairoPen new_pen() const;
    void end_page(cairo_t* pen);

    /// The whole file; nothing is drawn after it. Source: PDF (ISO 32000-1), by the library. Fails:
    /// empty when the library met trouble; `trouble()` has its words.
    [[nodiscard]] std::optional<std::string> finish();
    [[nodiscard]] const char* trouble() const;

private:
    void take(int status);

    std::string bytes_; // written to until the surface goes
    CairoSurface surface_;
    int status_ = 0; // the library's first trouble, 0: none
};

} // namespace flangewright::paper
