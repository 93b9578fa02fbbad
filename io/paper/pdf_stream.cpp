#include "io/paper/pdf_stream.hpp"

#include <cairo-pdf.h>

namespace flangewright::paper {

namespace {

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {
    static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
}

} // namespace

std::string sound_text(const std::string& text) {
    std::string sound;
    for (const char c : text) {
        sound += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
    }
    return sound;
}

void SurfaceEnd::operator()(cairo_surface_t* surface) const {
    cairo_surface_destroy(surface);
}

void PenEnd::operator()(cairo_t* pen) const {
    cairo_destroy(pen);
}

PdfStream::PdfStream(double width, double height, const std::string& title)
    : surface_(cairo_pdf_surface_create_for_stream(append, &bytes_, width, height)) {
    const std::string sound = sound_text(title);
    cairo_pdf_surface_set_metadata(surface_.get(), CAIRO_PDF_METADATA_TITLE, sound.c_str());
}

CairoPen PdfStream::new_pen() const {
    return CairoPen(cairo_create(surface_.get()));
}

void PdfStream::end_page(cairo_t* pen) {
    cairo_show_page(pen);
    take(cairo_status(pen));
}

std::optional<std::string> PdfStream::finish() {
    cairo_surface_finish(surface_.get());
    take(cairo_surface_status(surface_.get()));
    return status_ == CAIRO_STATUS_SUCCESS ? std::optional(bytes_) : std::nullopt;
}

const char* PdfStream::trouble() const {
    return cairo_status_to_string(static_cast<cairo_status_t>(status_));
}

void PdfStream::take(int status) {
    status_ = status_ == CAIRO_STATUS_SUCCESS ? status : status_;
}

} // namespace flangewright::paper
