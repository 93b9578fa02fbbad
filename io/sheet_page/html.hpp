// Pieces of a page: text made safe, pictures inside the page, tables.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>

namespace flangewright::sheet_page {

/// The text as a page shows it, whatever is in it: markup characters spelled out, control
/// characters dropped. Units: none. Source: HTML Living Standard, 13.1.4. Fails: never.
[[nodiscard]] std::string safe(std::string_view text);

/// Bytes as letters. Units: none. Source: RFC 4648, section 4. Fails: never.
[[nodiscard]] std::string base64(std::string_view bytes);

/// One table row: a head cell, then the others. The texts must be safe already.
/// Units: none. Source: none needed. Fails: never.
[[nodiscard]] std::string row(const std::string& head, std::initializer_list<std::string> cells);

/// A heading and what stands under it, kept together when printed if it is short.
/// Units: none. Source: none needed. Fails: never.
[[nodiscard]] std::string
section(const std::string& name, const std::string& heading, const std::string& content);

} // namespace flangewright::sheet_page
