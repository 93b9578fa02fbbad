// Replays the kept inputs: good files, and whatever broke a reader once.
#include "tests/fuzz/feed.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

namespace flangewright::fuzz {
namespace {

namespace fs = std::filesystem;

// Feeds every file of a folder and, cut short, its beginnings; answers how many files there were.
int replay(const std::string& folder, void (*feed)(std::string_view)) {
    int n_files = 0;
    for (const fs::directory_entry& entry :
         fs::directory_iterator(fs::path(FLANGEWRIGHT_SOURCE_DIR) / "tests/fuzz/corpus" / folder)) {
        std::ifstream stream(entry.path(), std::ios::binary);
        std::ostringstream text;
        text << stream.rdbuf();
        const std::string whole = text.str();
        for (std::size_t length = 0; length < whole.size(); length += 37) {
            EXPECT_NO_THROW(feed(std::string_view(whole).substr(0, length)))
                << entry.path() << ", first " << length << " bytes";
        }
        EXPECT_NO_THROW(feed(whole)) << entry.path();
        ++n_files;
    }
    return n_files;
}

TEST(CaseReader, GivesASoundAnswerToEveryKeptInput) {
    EXPECT_GE(replay("case", feed_case), 5);
}

TEST(MaterialReader, GivesASoundAnswerToEveryKeptInput) {
    EXPECT_GE(replay("material", feed_material), 4);
}

TEST(DrawingReader, GivesASoundAnswerToEveryKeptInput) {
    EXPECT_GE(replay("drawing", feed_drawing), 4);
}

} // namespace
} // namespace flangewright::fuzz
