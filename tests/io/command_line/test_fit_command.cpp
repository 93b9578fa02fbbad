#include "io/command_line/fit_command.hpp"
#include "io/sheet_library/user_folder.hpp"
#include "tests/io/command_line/temporary_folder.hpp"
#include "tests/solver/material/fit/made_test.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>

namespace flangewright::command_line {
namespace {

using ::testing::ContainsRegex;
using ::testing::HasSubstr;
using ::testing::StartsWith;

class FitCommand : public WithFolder {
protected:
    static material::MadeStrip strip() {
        material::MadeStrip made;
        made.law = "voce";
        made.values = material::voce_values;
        made.stress_noise = 0.3;
        made.strain_noise = 1e-5;
        return made;
    }
    std::filesystem::path write_test(const material::MadeStrip& made) {
        const material::TensileTest test = material::made_test(made);
        std::string text = "# made up\nstrain_percent,stress_MPa\n";
        for (std::size_t i = 0; i < test.strain.size(); ++i) {
            text += fmt::format("{:.6f},{:.3f}\n", 100 * test.strain[i], test.stress[i]);
        }
        return write("strip3.csv", text);
    }
    static FitArguments of(const std::filesystem::path& file) {
        FitArguments arguments;
        arguments.test_file = file;
        return arguments;
    }
    int fit(const FitArguments& arguments) {
        Terminal terminal{out_, err_, false};
        return fit_test(arguments, terminal);
    }
    std::ostringstream out_;
    std::ostringstream err_;
};

TEST_F(FitCommand, ShowsWhatTheTestSays) {
    EXPECT_EQ(fit(of(write_test(strip()))), 0);
    EXPECT_EQ(err_.str(), "");
    const std::string text = out_.str();
    EXPECT_THAT(text, HasSubstr("own sheet, strip3: 441 points"));
    EXPECT_THAT(text, ContainsRegex("proof stress, 0.2 % +8[01][.0-9]* MPa"));
    EXPECT_THAT(text, ContainsRegex("uniform elongation +1[56].*strain at maximum load"));
    EXPECT_THAT(text, ContainsRegex("r +unknown +the width was not recorded"));
    EXPECT_THAT(text, ContainsRegex("voce +yield_stress 7[56].*misses 0.3[0-9]? MPa rms"));
    EXPECT_LT(text.find("voce"), text.find("swift"));
}

TEST_F(FitCommand, WritesASheetTheLibraryFinds) {
    FitArguments arguments = of(write_test(strip()));
    arguments.name = "2024-O";
    arguments.out = folder_ / "own.toml";
    EXPECT_EQ(fit(arguments), 0) << err_.str();
    EXPECT_THAT(out_.str(), HasSubstr("own.toml"));
    const sheet_library::Library library = sheet_library::library_with(folder_);
    EXPECT_TRUE(library.problems.empty());
    bool is_there = false;
    for (const sheet_library::KnownSheet& sheet : library.sheets) {
        is_there = is_there || sheet.material.own_file == arguments.out->string();
    }
    EXPECT_TRUE(is_there);
}

TEST_F(FitCommand, SaysWhenNoMaximumLoadWasReached) {
    material::MadeStrip ended = strip();
    ended.last_plastic_strain = 0.08;
    EXPECT_EQ(fit(of(write_test(ended))), 0);
    EXPECT_THAT(out_.str(), ContainsRegex("uniform elongation +unknown +no maximum load"));
    EXPECT_THAT(out_.str(), HasSubstr("before a break"));
}

TEST_F(FitCommand, SaysWhereTheModulusComesFrom) {
    material::MadeStrip coarse = strip();
    coarse.n_elastic = 3;
    FitArguments arguments = of(write_test(coarse));
    EXPECT_EQ(fit(arguments), 0);
    EXPECT_THAT(out_.str(), ContainsRegex("modulus +70 GPa .*ASSUMED"));
    arguments.youngs_modulus = 73'100;
    out_.str("");
    EXPECT_EQ(fit(arguments), 0);
    EXPECT_THAT(out_.str(), ContainsRegex("modulus +73.1 GPa .*as given"));
}

TEST_F(FitCommand, RefusesNonsenseInOneLine) {
    std::string text = "strain,stress_MPa\n";
    for (int i = 0; i < 40; ++i) {
        text += fmt::format("{},{}\n", i == 30 ? 0.01 : 0.001 * i, 10 + i);
    }
    EXPECT_EQ(fit(of(write("back.csv", text))), 2);
    EXPECT_EQ(out_.str(), "");
    const std::string file = (folder_ / "back.csv").string();
    EXPECT_THAT(err_.str(), StartsWith(file + ":32: test: found strain that runs back"));
    EXPECT_EQ(std::ranges::count(err_.str(), '\n'), 1);
    err_.str("");
    EXPECT_EQ(fit(of(write("few.csv", "strain,stress_MPa\n0,1\n"))), 2);
    EXPECT_THAT(err_.str(), HasSubstr("found 1 points up to the break, allowed 20 or more"));
    err_.str("");
    EXPECT_EQ(fit(of(write("empty.csv", ""))), 2);
    EXPECT_THAT(err_.str(), HasSubstr("found an empty file"));
}

TEST_F(FitCommand, TellsOfAPlaceItCanNotWriteTo) {
    FitArguments arguments = of(write_test(strip()));
    arguments.out = folder_ / "nowhere" / "own.toml";
    EXPECT_EQ(fit(arguments), 4);
    EXPECT_THAT(err_.str(), HasSubstr("nowhere"));
}

} // namespace
} // namespace flangewright::command_line
