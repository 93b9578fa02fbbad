#include "io/sheet_library/user_folder.hpp"
#include "tests/io/command_line/temporary_folder.hpp"
#include "tests/io/sheet_library/material_text.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>

namespace flangewright::sheet_library {
namespace {

using ::testing::HasSubstr;
using ::testing::StartsWith;

class UserFolder : public command_line::WithFolder {
protected:
    // A sheet of this name that flows from 90 MPa on.
    static std::string sheet(const std::string& name) {
        std::string text = "name = \"" + name + "\"\n" + plain_material;
        return text.replace(text.find("yield_stress = 76"), 17, "yield_stress = 90");
    }
    static const KnownSheet* found(const Library& library, const std::string& name) {
        for (const KnownSheet& sheet : library.sheets) {
            if (sheet.material.name == name) {
                return &sheet;
            }
        }
        return nullptr;
    }
    static double first_yield(const Library& library, const std::string& name) {
        const KnownSheet* sheet = found(library, name);
        return sheet == nullptr ? -1 : sheet->material.hardening->at(0).stress;
    }
    const std::size_t n_built_in_ = built_in_sheets().size();
};

TEST_F(UserFolder, AddsSheetsToTheBuiltInOnes) {
    const auto path = write("lot7.toml", sheet("2024-O lot 7"));
    const Library library = library_with(folder_);
    EXPECT_TRUE(library.problems.empty());
    EXPECT_EQ(library.sheets.size(), n_built_in_ + 1);
    ASSERT_NE(found(library, "2024-O lot 7"), nullptr);
    EXPECT_EQ(found(library, "2024-O lot 7")->material.own_file, path.string());
    EXPECT_DOUBLE_EQ(first_yield(library, "2024-O lot 7"), 90);
    EXPECT_DOUBLE_EQ(first_yield(library, "2024-O"), 76);
    EXPECT_TRUE(found(library, "2024-O")->material.own_file.empty());
}

TEST_F(UserFolder, FileOfTheSameNameTakesTheBuiltInSheetsPlace) {
    write("2024_o.toml", sheet("my 2024"));
    const Library library = library_with(folder_);
    EXPECT_EQ(library.sheets.size(), n_built_in_);
    EXPECT_EQ(found(library, "2024-O"), nullptr);
    EXPECT_DOUBLE_EQ(first_yield(library, "my 2024"), 90);
}

TEST_F(UserFolder, SheetOfTheSameNameTakesTheBuiltInSheetsPlace) {
    write("mine.toml", sheet("2024-o"));
    const Library library = library_with(folder_);
    EXPECT_EQ(library.sheets.size(), n_built_in_);
    EXPECT_DOUBLE_EQ(first_yield(library, "2024-o"), 90);
}

TEST_F(UserFolder, TellsOneProblemOfABadFileAndKeepsTheOthers) {
    std::string bad = sheet("2024-O");
    bad.replace(bad.find("rate = 16.6"), 11, "rate = -1  ");
    bad.replace(bad.find("poisson_ratio = 0.33"), 20, "poisson_ratio = 7   ");
    const auto path = write("2024_o.toml", bad);
    write("good.toml", sheet("2024-O lot 7"));
    const Library library = library_with(folder_);
    ASSERT_EQ(library.problems.size(), 1U);
    const std::string line = key_file::line_for(library.problems.front());
    EXPECT_THAT(
        line, StartsWith(path.string() + ":3: poisson_ratio: found 7, allowed 0.1 to 0.45")
    );
    EXPECT_THAT(line, HasSubstr("do: write 0.33 for aluminium"));
    EXPECT_THAT(line, HasSubstr("left out"));
    EXPECT_NE(found(library, "2024-O lot 7"), nullptr);
    // Nobody computes with the built-in values he has meant to replace.
    EXPECT_EQ(found(library, "2024-O"), nullptr);
    EXPECT_EQ(library.sheets.size(), n_built_in_);
}

TEST_F(UserFolder, TellsWhatIsNoSheetAtAll) {
    write("empty.toml", "");
    write("half.toml", "name = \"x");
    write("nameless.toml", plain_material);
    write("notes.txt", "not a sheet");
    std::filesystem::create_directory(folder_ / "folder.toml");
    const Library library = library_with(folder_);
    EXPECT_EQ(library.sheets.size(), n_built_in_);
    ASSERT_EQ(library.problems.size(), 4U);
    EXPECT_THAT(key_file::line_for(library.problems[0]), HasSubstr("empty.toml"));
    EXPECT_THAT(key_file::line_for(library.problems[1]), HasSubstr("folder.toml"));
    EXPECT_THAT(key_file::line_for(library.problems[2]), HasSubstr("half.toml:1"));
    EXPECT_THAT(key_file::line_for(library.problems[3]), HasSubstr("nameless.toml"));
    EXPECT_THAT(key_file::line_for(library.problems[3]), HasSubstr(": name: "));
}

TEST_F(UserFolder, RefusesTheSameNameTwice) {
    write("a.toml", sheet("2024-O"));
    write("b.toml", sheet("2024 o"));
    const Library library = library_with(folder_);
    ASSERT_EQ(library.problems.size(), 1U);
    EXPECT_THAT(key_file::line_for(library.problems.front()), HasSubstr("b.toml: name: "));
    EXPECT_NE(found(library, "2024-O"), nullptr);
}

TEST_F(UserFolder, MayBeMissing) {
    const Library library = library_with(folder_ / "nowhere");
    EXPECT_TRUE(library.problems.empty());
    EXPECT_EQ(library.sheets.size(), n_built_in_);
}

// A process-wide variable, put back at the end.
class Variable {
public:
    Variable(const char* name, const char* value) : name_(name) {
        if (const char* before = std::getenv(name)) {
            before_ = before;
        }
        set(value);
    }
    ~Variable() { set(before_ ? before_->c_str() : nullptr); }
    Variable(const Variable&) = delete;
    Variable& operator=(const Variable&) = delete;

private:
    void set(const char* value) { value == nullptr ? unsetenv(name_) : setenv(name_, value, 1); }
    const char* name_;
    std::optional<std::string> before_;
};

// Source: XDG Base Directory Specification, from memory.
TEST(UsersOwnFolder, FollowsTheSurroundings) {
    const Variable home("HOME", "/home/shop");
    {
        const Variable config("XDG_CONFIG_HOME", "/etc/own");
        EXPECT_EQ(users_own_folder(), "/etc/own/flangewright/sheets");
    }
    for (const char* no_path : {"", "relative", static_cast<const char*>(nullptr)}) {
        const Variable config("XDG_CONFIG_HOME", no_path);
        EXPECT_EQ(users_own_folder(), "/home/shop/.config/flangewright/sheets");
        const Variable homeless("HOME", nullptr);
        EXPECT_FALSE(users_own_folder().has_value());
    }
}

} // namespace
} // namespace flangewright::sheet_library
