#include "io/key_file/nearest_word.hpp"

#include <algorithm>
#include <vector>

namespace flangewright::key_file {

std::size_t edit_distance(std::string_view a, std::string_view b) {
    std::vector<std::vector<std::size_t>> cost(
        a.size() + 1, std::vector<std::size_t>(b.size() + 1)
    );
    for (std::size_t i = 0; i <= a.size(); ++i) {
        for (std::size_t j = 0; j <= b.size(); ++j) {
            if (i == 0 || j == 0) {
                cost[i][j] = i + j;
                continue;
            }
            const std::size_t change = a[i - 1] == b[j - 1] ? 0 : 1;
            cost[i][j] =
                std::min({cost[i - 1][j] + 1, cost[i][j - 1] + 1, cost[i - 1][j - 1] + change});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
                cost[i][j] = std::min(cost[i][j], cost[i - 2][j - 2] + 1);
            }
        }
    }
    return cost[a.size()][b.size()];
}

std::optional<std::string>
nearest_word(std::string_view written, std::span<const std::string> known) {
    std::optional<std::string> nearest;
    std::size_t least = std::string::npos;
    constexpr std::size_t longest_typed = 100; // beyond, it is no slip of the finger
    if (written.size() > longest_typed) {
        return nearest;
    }
    for (const std::string& word : known) {
        const std::size_t distance = edit_distance(written, word);
        if (distance < least && 3 * distance <= std::max(word.size(), written.size())) {
            least = distance;
            nearest = word;
        }
    }
    return nearest;
}

std::string listed(std::span<const std::string> words) {
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (i > 0) {
            text += i + 1 == words.size() ? " or " : ", ";
        }
        text += words[i];
    }
    return text;
}

} // namespace flangewright::key_file
