#include "io/units/written_number.hpp"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <limits>

namespace flangewright::units {

namespace {

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

// Reads from the front of a text and remembers how far it came.
class Scanner {
public:
    explicit Scanner(std::string_view text) : text_(text) {}

    void skip_spaces() {
        while (!rest().empty() && rest().front() == ' ') {
            ++at_;
        }
    }
    [[nodiscard]] std::string_view rest() const { return text_.substr(at_); }
    [[nodiscard]] std::size_t place() const { return at_; }
    void go_to(std::size_t place) { at_ = place; }
    bool take(char wanted) {
        if (rest().empty() || rest().front() != wanted) {
            return false;
        }
        ++at_;
        return true;
    }
    std::string_view take_digits() {
        const std::size_t begin = at_;
        while (!rest().empty() && is_digit(rest().front())) {
            ++at_;
        }
        return text_.substr(begin, at_ - begin);
    }

private:
    std::string_view text_;
    std::size_t at_ = 0;
};

double value_of(std::string_view digits) {
    double value = 0;
    const auto outcome = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    // Beyond what a double holds: no range allows it, so it will be refused there.
    return outcome.ec == std::errc() ? value : std::numeric_limits<double>::infinity();
}

// "1/32"; gives nothing, and stays where it was, when there is no fraction or it divides by 0.
std::optional<double> take_fraction(Scanner& scanner) {
    const std::size_t begin = scanner.place();
    const std::string_view top = scanner.take_digits();
    if (!top.empty() && scanner.take('/')) {
        const std::string_view bottom = scanner.take_digits();
        if (!bottom.empty() && value_of(bottom) > 0) {
            return value_of(top) / value_of(bottom);
        }
    }
    scanner.go_to(begin);
    return std::nullopt;
}

void take_exponent(Scanner& scanner) {
    const std::size_t begin = scanner.place();
    if (scanner.take('e') || scanner.take('E')) {
        if (!scanner.take('-')) {
            scanner.take('+');
        }
        if (!scanner.take_digits().empty()) {
            return;
        }
    }
    scanner.go_to(begin);
}

std::optional<double> take_decimal(Scanner& scanner, std::string_view text) {
    const std::size_t begin = scanner.place();
    const bool has_whole = !scanner.take_digits().empty();
    const bool has_point = scanner.take('.');
    const bool has_part = has_point && !scanner.take_digits().empty();
    if (!has_whole && !has_part) {
        scanner.go_to(begin);
        return std::nullopt;
    }
    take_exponent(scanner);
    return value_of(text.substr(begin, scanner.place() - begin));
}

// "1 1/4" and "1-1/4".
void add_fraction_after_whole(Scanner& scanner, double& value) {
    const std::size_t begin = scanner.place();
    if (!scanner.take('-')) {
        scanner.skip_spaces();
    }
    if (const std::optional<double> part = take_fraction(scanner)) {
        value += *part;
    } else {
        scanner.go_to(begin);
    }
}

} // namespace

std::optional<SplitNumber> split_number(std::string_view text) {
    Scanner scanner(text);
    scanner.skip_spaces();
    const bool is_negative = scanner.take('-');
    if (!is_negative) {
        scanner.take('+');
    }
    std::optional<double> value = take_fraction(scanner);
    if (!value) {
        value = take_decimal(scanner, text);
        if (!value) {
            return std::nullopt;
        }
        if (*value == std::floor(*value)) {
            add_fraction_after_whole(scanner, *value);
        }
    }
    scanner.skip_spaces();
    std::string unit(scanner.rest());
    while (!unit.empty() && unit.back() == ' ') {
        unit.pop_back();
    }
    return SplitNumber{is_negative ? -*value : *value, unit};
}

std::string plain_number(double value, int digits) {
    std::string text = fmt::format("{:.{}f}", value, digits);
    if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') {
            text.pop_back();
        }
    }
    return text == "-0" ? "0" : text;
}

} // namespace flangewright::units
