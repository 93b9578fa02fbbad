// The user's own sheets as the commands meet them.
#include "io/command_line/check_command.hpp"
#include "io/command_line/materials_command.hpp"
#include "io/command_line/own_sheets.hpp"
#include "io/sheet_library/sheet_library.hpp"
#include "tests/io/case_file/case_text.hpp"
#include "tests/io/command_line/temporary_folder.hpp"

#include <gmock/gmock.h>

#include <sstream>

namespace flangewright::command_line {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

class OwnSheets : public WithFolder {
protected:
    ~OwnSheets() override { sheet_library::use_library({sheet_library::built_in_sheets(), {}}); }

    void write_sheet(const std::string& rate) {
        write(
            "own.toml",
            "name = \"2024-O\"\nyoungs_modulus = 70000\npoisson_ratio = 0.33\n[hardening]\n"
            "law = \"voce\"\nyield_stress = 91\nsaturation_stress = 229\nrate = "
                + rate + "\n"
        );
    }
    CheckArguments good_case() {
        CheckArguments arguments;
        arguments.case_file = write("rib.toml", case_file::good_case);
        return arguments;
    }
    int show(const std::optional<std::string>& name) {
        MaterialsArguments arguments;
        arguments.name = name;
        return show_materials(arguments, terminal_);
    }
    std::ostringstream out_;
    std::ostringstream err_;
    Terminal terminal_{out_, err_, false};
};

TEST_F(OwnSheets, AreUsedAndSaidToBeTheUsers) {
    write_sheet("16.6");
    EXPECT_EQ(use_own_sheets(folder_, terminal_), 0);
    EXPECT_EQ(err_.str(), "");
    EXPECT_EQ(show("2024-O"), 0);
    const std::string own = (folder_ / "own.toml").string();
    EXPECT_THAT(out_.str(), HasSubstr("2024-O (your own data: " + own + ")"));
    EXPECT_THAT(out_.str(), HasSubstr("yield_stress 91 MPa"));
    out_.str("");
    EXPECT_EQ(show(std::nullopt), 0);
    EXPECT_THAT(out_.str(), HasSubstr("your own: " + own));
    out_.str("");
    EXPECT_EQ(check_case(good_case(), terminal_), 0);
    EXPECT_THAT(out_.str(), HasSubstr("Sheet: 2024-O (your own data: " + own + ")"));
}

TEST_F(OwnSheets, AreToldOfWhenWrongAndTheOthersGoOn) {
    write_sheet("\"fast\"");
    EXPECT_EQ(use_own_sheets(folder_, terminal_), 0);
    EXPECT_THAT(err_.str(), HasSubstr("own.toml:8: hardening.rate: found"));
    EXPECT_EQ(show("6061-T6"), 0);
    EXPECT_THAT(out_.str(), Not(HasSubstr("your own data")));
    EXPECT_EQ(show("2024-O"), 2);
    EXPECT_EQ(check_case(good_case(), terminal_), 2);
}

TEST_F(OwnSheets, NeedTheFolderThatWasNamed) {
    EXPECT_EQ(use_own_sheets(folder_ / "nowhere", terminal_), 2);
    EXPECT_THAT(err_.str(), HasSubstr("command line: --sheets: found"));
}

} // namespace
} // namespace flangewright::command_line
