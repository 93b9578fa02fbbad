#include "mesh/grid/opened_mesh.hpp"

#include "mesh/grid/opened_region.hpp"

#include <algorithm>
#include <cmath>

namespace flangewright::grid {

namespace {

constexpr int cut_away = -1;
constexpr double rounding = 1e-9;

int place_of(const std::vector<double>& values, double value) {
    const auto off = [value](double other) { return std::abs(other - value); };
    return static_cast<int>(std::ranges::min_element(values, {}, off) - values.begin());
}

WindowPlace place_of(const Window& window, const WindowedLines& lines) {
    return {
        place_of(lines.stations, window.stations.begin),
        place_of(lines.stations, window.stations.end),
        place_of(lines.distances, window.distances.begin),
        place_of(lines.distances, window.distances.end)};
}

/// The row on which each station line ends: the edge's, or that of the tab it lies on.
std::vector<int> last_rows(const BlankGrid& blank, const WindowedLines& lines) {
    std::vector<int> rows;
    for (const double station : lines.stations) {
        double width = blank.flange_width;
        for (const outline::Tab& tab : blank.openings.tabs) {
            if (station >= tab.begin - rounding && station <= tab.end + rounding) {
                width = blank.flange_width + tab.height;
            }
        }
        rows.push_back(place_of(lines.distances, width));
    }
    return rows;
}

/// What stays of the mapped mesh, and what is put into it.
class Cutting {
public:
    Cutting(const SheetMesh& mapped, const BlankGrid& blank, const WindowedLines& lines)
        : mapped_(mapped), blank_(blank), lines_(lines), last_rows_(last_rows(blank, lines)) {
        for (const Window& window : lines.windows) {
            places_.push_back(place_of(window, lines));
        }
    }

    /// Fails: as fill_window().
    [[nodiscard]] Result<SheetMesh> cut() {
        keep_cells();
        for (std::size_t i = 0; i < places_.size(); ++i) {
            const Result<OpenedRegion> region =
                fill_window(with_new_nodes(), blank_, lines_.windows[i], places_[i]);
            if (!region) {
                return tl::unexpected(region.error());
            }
            take(*region);
        }
        number_nodes();
        SheetMesh mesh = numbered();
        name_lines(mesh);
        return mesh;
    }

private:
    [[nodiscard]] int n_rows() const { return static_cast<int>(lines_.distances.size()); }
    [[nodiscard]] int node(int station, int row) const { return station * n_rows() + row; }

    [[nodiscard]] bool is_in_window(int station, int row) const {
        return std::ranges::any_of(places_, [=](const WindowPlace& at) {
            return station >= at.first_station && station < at.last_station && row >= at.first_row
                && row < at.last_row;
        });
    }

    void keep_cells() {
        for (std::size_t k = 0; k < mapped_.quads.size(); ++k) {
            const int first = mapped_.quads[k][0]; // a cell starts at its lowest node
            const int station = first / n_rows();
            const int row = first % n_rows();
            const auto i = static_cast<std::size_t>(station);
            if (row < std::min(last_rows_[i], last_rows_[i + 1]) && !is_in_window(station, row)) {
                quads_.push_back(mapped_.quads[k]);
            }
        }
    }

    /// The mapped mesh with as many nodes as there are by now, for new numbers to go on from.
    [[nodiscard]] SheetMesh with_new_nodes() const {
        SheetMesh mesh = mapped_;
        mesh.positions.conservativeResize(
            3, mapped_.n_nodes() + static_cast<Eigen::Index>(new_positions_.size())
        );
        return mesh;
    }

    void take(const OpenedRegion& region) {
        new_positions_.insert(
            new_positions_.end(), region.positions.begin(), region.positions.end()
        );
        quads_.insert(quads_.end(), region.quads.begin(), region.quads.end());
        rims_.insert(rims_.end(), region.rims.begin(), region.rims.end());
    }

    void number_nodes() {
        numbers_.assign(
            static_cast<std::size_t>(mapped_.n_nodes()) + new_positions_.size(), cut_away
        );
        for (const std::array<int, 4>& quad : quads_) {
            for (const int corner : quad) {
                numbers_[static_cast<std::size_t>(corner)] = 0;
            }
        }
        int next = 0;
        for (int& number : numbers_) {
            if (number != cut_away) {
                number = next++;
            }
        }
        n_kept_ = next;
    }

    [[nodiscard]] int number(int old) const { return numbers_[static_cast<std::size_t>(old)]; }

    [[nodiscard]] SheetMesh numbered() const {
        SheetMesh mesh;
        mesh.positions.resize(3, n_kept_);
        mesh.station.resize(n_kept_);
        mesh.distance.resize(n_kept_);
        for (int old = 0; old < static_cast<int>(numbers_.size()); ++old) {
            const int now = number(old);
            if (now == cut_away) {
                continue;
            }
            if (old < mapped_.n_nodes()) {
                mesh.positions.col(now) = mapped_.positions.col(old);
                mesh.station[now] = mapped_.station[old];
                mesh.distance[now] = mapped_.distance[old];
                continue;
            }
            mesh.positions.col(now) =
                new_positions_[static_cast<std::size_t>(old - mapped_.n_nodes())];
            const outline::LinePosition at = blank_.line.locate(mesh.positions.col(now));
            mesh.station[now] = at.station;
            mesh.distance[now] = at.distance;
        }
        for (std::array<int, 4> quad : quads_) {
            for (int& corner : quad) {
                corner = number(corner);
            }
            mesh.quads.push_back(quad);
        }
        for (Rim rim : rims_) {
            for (int& corner : rim.nodes) {
                corner = number(corner);
            }
            mesh.rims.push_back(std::move(rim));
        }
        return mesh;
    }

    /// A line that would end within a notch is none.
    [[nodiscard]] bool ends_in_notch(int station) const {
        for (std::size_t i = 0; i < places_.size(); ++i) {
            if (!lines_.windows[i].notches.empty() && station > places_[i].first_station
                && station < places_[i].last_station) {
                return true;
            }
        }
        return false;
    }

    [[nodiscard]] std::vector<int> line_of(int station) const {
        std::vector<int> line;
        for (int row = 0; row <= last_rows_[static_cast<std::size_t>(station)]; ++row) {
            if (number(node(station, row)) != cut_away) {
                line.push_back(number(node(station, row)));
            }
        }
        return line;
    }

    void name_lines(SheetMesh& mesh) {
        const int n_stations = static_cast<int>(lines_.stations.size());
        const int bend_begin = place_of(lines_.distances, 0);
        const int bend_end = place_of(lines_.distances, blank_.bend_width);
        int before = 0; // the station line before
        for (int station = 0; station < n_stations; ++station) {
            mesh.web_edge.push_back(number(node(station, 0)));
            if (ends_in_notch(station)) {
                continue;
            }
            if (station > 0) {
                name_break(mesh, before, station);
            }
            before = station;
            mesh.station_lines.push_back(line_of(station));
            mesh.free_edge.push_back(mesh.station_lines.back().back());
            mesh.bend_begin.push_back(number(node(station, bend_begin)));
            mesh.bend_end.push_back(number(node(station, bend_end)));
        }
        mesh.start_end = mesh.station_lines.front();
        mesh.far_end = mesh.station_lines.back();
    }

    /// Between two lines that follow each other: a notch, or the side of a tab.
    void name_break(SheetMesh& mesh, int before, int station) {
        const int from = last_rows_[static_cast<std::size_t>(before)];
        const int to = last_rows_[static_cast<std::size_t>(station)];
        if (station == before + 1 && from == to) {
            return;
        }
        mesh.edge_breaks.push_back(mesh.free_edge.size() - 1);
        if (from == to) {
            return;
        }
        // The side belongs to the longer line; a piece of the lower edge leads to it.
        const bool rises = to > from;
        const int side = rises ? station : before;
        Rim rim{Rim::Kind::tab_side, tab_at(side), {}};
        for (int row = std::min(from, to); row <= std::max(from, to); ++row) {
            rim.nodes.push_back(number(node(side, row)));
        }
        rim.nodes.insert(
            rim.nodes.begin(), number(node(rises ? before : station, std::min(from, to)))
        );
        mesh.rims.push_back(std::move(rim));
    }

    [[nodiscard]] std::size_t tab_at(int station) const {
        const double at = lines_.stations[static_cast<std::size_t>(station)];
        const std::vector<outline::Tab>& tabs = blank_.openings.tabs;
        const auto holds = [at](const outline::Tab& tab) {
            return at >= tab.begin - rounding && at <= tab.end + rounding;
        };
        return static_cast<std::size_t>(std::ranges::find_if(tabs, holds) - tabs.begin());
    }

    const SheetMesh& mapped_;
    const BlankGrid& blank_;
    const WindowedLines& lines_;
    std::vector<int> last_rows_;
    std::vector<WindowPlace> places_;
    std::vector<std::array<int, 4>> quads_;
    std::vector<Eigen::Vector3d> new_positions_;
    std::vector<Rim> rims_;
    std::vector<int> numbers_;
    int n_kept_ = 0;
};

} // namespace

Result<SheetMesh>
open_mesh(const SheetMesh& mapped, const BlankGrid& blank, const WindowedLines& lines) {
    return Cutting(mapped, blank, lines).cut();
}

} // namespace flangewright::grid
