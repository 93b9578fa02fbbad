// The sheet of paper every picture is drawn on: white, titled, turned into a PNG off the screen.
#pragma once

#include "io/vtk/colour_map.hpp"
#include "io/vtk/picture_text.hpp"

#include <array>
#include <memory>
#include <string>

class vtkRenderer;

namespace flangewright::vtk {

/// Where and how a line of text stands. Places run from 0 to 1, lower left to upper right.
struct TextPlace {
    double x = 0;
    double y = 0;
    int size = 22; ///< points at 72 per inch
    bool is_bold = false;
    bool is_centred = false;
    bool is_on_white = false; ///< covers what lies behind
    Colour colour{0.15, 0.15, 0.15};
};

/// Needs an X display in the surroundings: make one only in a child that may die.
class Canvas {
public:
    static constexpr int width = 1600;
    static constexpr int height = 1000;
    /// Drawn this much larger, then averaged down: software rendering smooths no edges by itself.
    /// Widths of lines and sizes on the paper in pixels must be multiplied by it.
    static constexpr int fineness = 2;

    /// Units: pixels. Source: none needed. Fails: aborts without an X display.
    explicit Canvas(const PictureText& text);
    ~Canvas();
    Canvas(const Canvas&) = delete;
    Canvas& operator=(const Canvas&) = delete;

    /// For shapes in space; covers the paper below the title.
    [[nodiscard]] vtkRenderer& scene();
    /// Height over width of the scene's part of the paper.
    [[nodiscard]] double scene_aspect() const;
    /// For what lies flat on the paper, behind the scene; texts and scales lie in front of it.
    [[nodiscard]] vtkRenderer& paper();
    [[nodiscard]] vtkRenderer& front();
    /// Place on the paper of a place in the scene, both from 0 to 1.
    [[nodiscard]] static TextPlace on_paper(double scene_x, double scene_y);
    void add_text(const std::string& text, const TextPlace& place);
    /// A straight line in front of all else, between two places on the paper in pixels.
    void add_stroke(const std::array<double, 2>& from, const std::array<double, 2>& to);
    /// Bytes of the finished picture; empty when the picture library gave none.
    [[nodiscard]] std::string png();

private:
    struct Parts;
    std::unique_ptr<Parts> parts_;
};

} // namespace flangewright::vtk
