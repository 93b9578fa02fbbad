#include "io/part_view/part_view.hpp"

#include "io/part_view/scripts.hpp"
#include "io/part_view/view_data.hpp"
#include "io/part_view/view_state.hpp"

#include <fmt/format.h>

namespace flangewright::part_view {

namespace {

// Numbers in all states together; with library and pictures the page stays below 3 MB.
constexpr std::size_t most_values = 420'000;

constexpr const char* section = R"(<section class="part-view" id="part-view">
<h2>The part, to be turned</h2>
<p class="plain" id="part-view-plain">The part that can be turned by hand needs a browser that runs
scripts and draws in space (WebGL). This one does not, or not here; the pictures at the end of the
page show the same figures.</p>
<div id="part-view-live" hidden>
<p class="controls"><label>Colours: <select id="part-view-field"></select></label>
<button type="button" id="part-view-reset">First view</button></p>
<div class="stage"><div id="part-view-canvas"></div><canvas id="part-view-legend" width="150"
height="300"></canvas></div>
<p class="controls"><label>Step: <input type="range" id="part-view-step" min="0" value="0"
step="1"></label> <output id="part-view-name"></output></p>
<p class="readout" id="part-view-readout">Drag to turn, wheel or two fingers to come nearer, right
button to move. Point at the part to read a figure.</p>
</div>
<p class="note">A forming estimate, not approved data. Colours show the middle of the sheet, both
faces alike; a figure read here is good to half a per cent of its scale, the tables are exact.</p>
</section>
)";

} // namespace

std::string
part_view(const job::Job& job, const process::JobResult& result, units::LengthUnit unit) {
    const std::string data = view_data(result, view_states(job, result, most_values), unit);
    if (data.empty()) {
        return {};
    }
    return section
        + fmt::format(
               "<script type=\"application/json\" id=\"part-view-data\">{}</script>\n"
               "<!-- The drawing library in the next two scripts:\n{}\n-->\n"
               "<script>{}</script>\n<script>{}</script>\n<script>{}</script>\n",
               data,
               library_licence(),
               library_script(),
               controls_script(),
               viewer_script()
        );
}

} // namespace flangewright::part_view
