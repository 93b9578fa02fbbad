// The list of all keys in docs/case-file.md is what the reader asks for, no more and no less.
// FLANGEWRIGHT_WRITE_PAGES=1 in the environment writes the list anew.
#include "io/case_file/case_file.hpp"
#include "solver/material/hardening_law.hpp"
#include "solver/material/yield_law.hpp"
#include "tests/io/case_file/case_text.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>

namespace flangewright::case_file {
namespace {

namespace fs = std::filesystem;
using key_file::AskedKey;

const std::string top = FLANGEWRIGHT_SOURCE_DIR;
const std::string page_file = top + "/docs/case-file.md";
constexpr const char* list_begin = "<!-- list of keys: begin -->\n";
constexpr const char* list_end = "<!-- list of keys: end -->\n";

std::string content_of(const fs::path& file) {
    std::ostringstream text;
    text << std::ifstream(file).rdbuf();
    return text.str();
}

// What each text that the reader may take another way for must hold; the rest comes from cases/.
std::vector<std::string> further_texts() {
    std::vector<std::string> texts{
        good_case,
        good_case
            + "[scatter]\nfriction = 0.1\nthickness = \"4 %\"\nyield_stress = \"4 %\"\n"
              "hardening = \"4 %\"\nnose_radius = \"4 %\"\nedge_limit = \"4 %\"\n[trim]\n"
              "[anneal]\nmaterial = \"2024-O\"\n[heat_treat]\n[return_bend]\n",
        with_line(8, "curve = \"straight\"\nlength = 100"),
        with_line(13, "flat_width = 20"),
        with_line(
            4,
            "[sheet.material]\nuniform_elongation = \"9 %\"\ntotal_elongation = \"9 %\"\n"
            "[sheet.material.edge_limit]\nsnipped = \"9 %\"\nsawn = \"9 %\"\nfiled = "
            "\"9 %\"\npolished = \"9 %\"\n[sheet.material.forming_limit]\nflc0 = 0.2\n"
        ),
        with_line(8, "curve = \"points\"\npoints = [[0, 0], [50, 0], [90, 10]]\nround_kinks = 9"),
        with_line(8, "curve = \"drawing\"\nfile = \"none.dxf\"\nlayer = \"BEND\""),
        with_line(5, "thickness = 0.8\nleast_thickness = 0.7"),
        with_line(
            8,
            "curve = \"drawing\"\nfile = \"../tests/fuzz/corpus/drawing/blank.dxf\"\nlayer = "
            "\"BEND\"\nrelief_layer = \"RELIEF\""
        ),
        with_line(
            8,
            "curve = \"chain\"\npieces = [{ line = 8 }, { concave = 90, sweep = 9 }, "
            "{ convex = 90, sweep = 9 }]"
        ),
        with_line(
            16,
            "end = \"free\"\nholes = [{ station = 9, web = 9, diameter = 5 }, { station "
            "= 9, flange = 9, diameter = 5 }]\nnotches = [{ station = 9, width = 4, "
            "depth = 4 }]\ntabs = [{ from = 3, to = 9, height = 4 }]"
        )};
    const std::string value = "{ value = \"9 %\", grade = \"coupon\", source = \"s\" }";
    const std::string sheet = with_line(4, "") + "[sheet.material]\nname = \"own\"\n"
        + "uniform_elongation = " + value + "\ntotal_elongation = " + value + "\nsmallest_bend = "
        + "{ thickness = [1], radius_over_thickness = [1] }\n[sheet.material.r_values]\n"
        + "[sheet.material.edge_limit]\nsnipped = " + value + "\nsawn = " + value
        + "\nfiled = " + value + "\npolished = " + value
        + "\n[sheet.material.forming_limit]\nflc0 = " + value + "\n";
    for (const material::HardeningEntry& law : material::hardening_laws()) {
        texts.push_back(
            sheet + "[sheet.material." + law.name + "]\n[sheet.material.hardening]\nlaw = \""
            + law.name + "\"\n[sheet.material.hardening.back_stress]\n"
        );
    }
    for (const material::YieldEntry& law : material::yield_laws()) {
        texts.push_back(sheet + "[sheet.material.yield]\nlaw = \"" + law.name + "\"\n");
    }
    return texts;
}

// All that was asked of one key.
struct KeyFacts {
    std::set<std::string> kinds;
    std::set<std::string> allowed;
    int n_required = 0; // texts in which it must be there

    void add(const AskedKey& key) {
        if (!key.kind.empty()) {
            kinds.insert(key.kind);
        }
        if (!key.allowed.empty()) {
            allowed.insert(key.allowed);
        }
        if (kinds.contains("word")) {
            kinds.erase("text"); // a word is a text, too
        }
    }
};

class KeyList {
public:
    void read(const std::string& text, const std::string& file) {
        std::set<std::string> sections;
        std::set<std::string> required_here;
        for (const AskedKey& key : keys_asked(text, file)) {
            sections.insert(key.section);
            const std::string name = key.section.empty() ? key.key : key.section + "." + key.key;
            keys_[name].add(key);
            if (key.is_required && required_here.insert(name).second) {
                ++keys_[name].n_required;
            }
        }
        for (const std::string& section : sections) {
            ++n_texts_[section];
        }
    }

    [[nodiscard]] std::string table() const {
        std::string text = "| key | holds | allowed | must be there |\n|---|---|---|---|\n";
        for (const auto& [name, facts] : keys_) {
            text += fmt::format(
                "| `{}` | {} | {} | {} |\n",
                name,
                fmt::join(facts.kinds, " or "),
                fmt::join(facts.allowed, "; "),
                need(name, facts)
            );
        }
        return text;
    }

    /// Last parts of all names: "radius".
    [[nodiscard]] std::set<std::string> plain_names() const {
        std::set<std::string> names;
        for (const auto& [name, facts] : keys_) {
            names.insert(name.substr(name.rfind('.') + 1));
        }
        return names;
    }

    [[nodiscard]] std::vector<std::string> without_kind() const {
        std::vector<std::string> names;
        for (const auto& [name, facts] : keys_) {
            if (facts.kinds.empty()) {
                names.push_back(name);
            }
        }
        return names;
    }

private:
    [[nodiscard]] std::string need(const std::string& name, const KeyFacts& facts) const {
        const std::size_t dot = name.rfind('.');
        const std::string section = dot == std::string::npos ? "" : name.substr(0, dot);
        if (facts.n_required == 0) {
            return "no";
        }
        return facts.n_required == n_texts_.at(section) ? "yes" : "where it belongs";
    }

    std::map<std::string, KeyFacts> keys_;
    std::map<std::string, int> n_texts_;
};

const KeyList& all_keys() {
    static const KeyList list = [] {
        KeyList keys;
        for (const fs::directory_entry& folder : fs::directory_iterator(top + "/cases")) {
            const fs::path file = folder.path() / "case.toml";
            if (fs::exists(file)) {
                // Ranges are shown in the unit of the file; the list is in mm.
                const std::string text = content_of(file);
                const std::string in_mm =
                    std::regex_replace(text, std::regex("unit = \"in\""), "unit = \"mm\"");
                keys.read(in_mm, file.string());
            }
        }
        for (const std::string& text : further_texts()) {
            keys.read(text, top + "/cases/none.toml");
        }
        return keys;
    }();
    return list;
}

TEST(CaseFileKeys, ListOfThePageIsWhatTheReaderAsksFor) {
    const std::string page = content_of(page_file);
    const std::size_t begin = page.find(list_begin);
    const std::size_t end = page.find(list_end);
    ASSERT_NE(begin, std::string::npos);
    ASSERT_LT(begin, end);
    const std::size_t from = begin + std::string(list_begin).size();
    const std::string wanted = "\n" + all_keys().table() + "\n";
    if (std::getenv("FLANGEWRIGHT_WRITE_PAGES") != nullptr) {
        std::ofstream(page_file) << page.substr(0, from) + wanted + page.substr(end);
        GTEST_SKIP() << "the list is written anew";
    }
    EXPECT_EQ(page.substr(from, end - from), wanted)
        << "FLANGEWRIGHT_WRITE_PAGES=1 writes the list anew; the key's meaning is yours to add";
}

TEST(CaseFileKeys, OfEachTheReaderSaysWhatItHolds) {
    EXPECT_THAT(all_keys().without_kind(), testing::IsEmpty());
}

// What the page says of keys in its own words.
std::string prose() {
    const std::string page = content_of(page_file);
    const std::size_t end = page.find(list_end);
    return page.substr(0, page.find(list_begin))
        + (end == std::string::npos ? "" : page.substr(end));
}

TEST(CaseFileKeys, EachIsExplainedOnThePage) {
    const std::string text = prose();
    for (const std::string& name : all_keys().plain_names()) {
        const bool is_told = text.find("`" + name + "`") != std::string::npos
            || text.find("`[" + name + "]`") != std::string::npos
            || std::regex_search(text, std::regex("[.\\[]" + name + "\\]`"))
            || text.find("`" + name + " = ") != std::string::npos
            || text.find("{ " + name + " = ") != std::string::npos;
        EXPECT_TRUE(is_told) << name << " is read, and docs/case-file.md does not explain it";
    }
}

TEST(CaseFileKeys, ThePageExplainsNoneThatIsNotRead) {
    const std::set<std::string> known = all_keys().plain_names();
    std::set<std::string> words; // laws have rows, too
    for (const material::HardeningEntry& law : material::hardening_laws()) {
        words.insert(law.name);
    }
    for (const material::YieldEntry& law : material::yield_laws()) {
        words.insert(law.name);
    }
    const std::string text = prose();
    const std::regex row("\n\\| (`[a-z_0-9]+`(?:, `[a-z_0-9]+`)*) \\|");
    const std::regex word("`([a-z_0-9]+)`");
    int n_rows = 0;
    for (std::sregex_iterator at(text.begin(), text.end(), row), end; at != end; ++at, ++n_rows) {
        const std::string cell = (*at)[1].str();
        for (std::sregex_iterator key(cell.begin(), cell.end(), word); key != end; ++key) {
            const std::string name = (*key)[1].str();
            EXPECT_TRUE(known.contains(name) || words.contains(name))
                << name << " is explained in docs/case-file.md, and the reader never asks for it";
        }
    }
    EXPECT_GT(n_rows, 50);
}

// The texts above lead the reader to every key it names: each literal it asks with is in the list.
TEST(CaseFileKeys, NoneInTheReadersSourcesIsLeftOut) {
    const std::set<std::string> known = all_keys().plain_names();
    const std::regex asked(
        "(?:\\.key = "
        "|(?:has|holds_text|holds_list|holds_table|text|word|flag|texts|table|tables)\\()"
        "\"([a-z_0-9]+)\""
    );
    int n_found = 0;
    for (const char* folder : {"/io/case_file", "/io/sheet_library"}) {
        for (const fs::directory_entry& entry : fs::directory_iterator(top + folder)) {
            // A sheet's own file holds more than a sheet that stands in a case.
            if (entry.path().extension() != ".cpp" || entry.path().stem() == "sheet_file") {
                continue;
            }
            const std::string source = content_of(entry.path());
            for (std::sregex_iterator at(source.begin(), source.end(), asked), end; at != end;
                 ++at, ++n_found) {
                EXPECT_THAT(known, testing::Contains((*at)[1].str())) << entry.path();
            }
        }
    }
    EXPECT_GT(n_found, 60);
}

} // namespace
} // namespace flangewright::case_file
