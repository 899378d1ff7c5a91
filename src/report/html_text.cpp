#include "report/html_text.h"

#include <cstdint>
#include <optional>

#include <fmt/format.h>

namespace coatwright {
namespace {

constexpr std::string_view kReplacement = "\xEF\xBF\xBD";  // U+FFFD

/// How many bytes the character that begins here has by its first byte; 0: none begins so.
std::size_t length_by(unsigned char first) {
  if (first < 0x80U) {
    return 1;
  }
  if (first >= 0xC2U && first < 0xE0U) {
    return 2;
  }
  if (first >= 0xE0U && first < 0xF0U) {
    return 3;
  }
  return first >= 0xF0U && first < 0xF5U ? 4 : 0;
}

std::uint32_t code_of(std::string_view bytes) {
  constexpr unsigned kFirstBits[] = {0x7F, 0x1F, 0x0F, 0x07};
  std::uint32_t code = static_cast<unsigned char>(bytes[0]) & kFirstBits[bytes.size() - 1];
  for (const char byte : bytes.substr(1)) {
    code = code << 6U | (static_cast<unsigned char>(byte) & 0x3FU);
  }
  return code;
}

/// What XML 1.0 (production 2, Char) allows, but for the controls above ASCII, which HTML does not.
bool is_allowed(std::uint32_t code, std::size_t length) {
  constexpr std::uint32_t kLeast[] = {0, 0x80, 0x800, 0x10000};
  if (code < kLeast[length - 1]) {  // written longer than it needs
    return false;
  }
  if (code < 0x20) {
    return code == '\t' || code == '\n' || code == '\r';
  }
  const bool control = code >= 0x7F && code < 0xA0;
  const bool surrogate = code >= 0xD800 && code < 0xE000;
  return !control && !surrogate && code != 0xFFFE && code != 0xFFFF && code < 0x110000;
}

/// The character that begins the text, as bytes; none where it is not allowed.
std::optional<std::string_view> first_character(std::string_view text) {
  const std::size_t length = length_by(static_cast<unsigned char>(text[0]));
  if (length == 0 || length > text.size()) {
    return std::nullopt;
  }
  const std::string_view bytes = text.substr(0, length);
  for (const char byte : bytes.substr(1)) {
    if ((static_cast<unsigned char>(byte) & 0xC0U) != 0x80U) {
      return std::nullopt;
    }
  }
  return is_allowed(code_of(bytes), length) ? std::optional(bytes) : std::nullopt;
}

/// Writes each character by `put`; one that is not allowed as U+FFFD.
template <class Put>
void each_character(std::string_view text, Put put) {
  while (!text.empty()) {
    const auto character = first_character(text);
    put(character.value_or(kReplacement));
    text.remove_prefix(character ? character->size() : 1);
  }
}

}  // namespace

std::string html_escaped(std::string_view text) {
  std::string escaped;
  each_character(text, [&](std::string_view character) {
    if (character == "&") {
      escaped += "&amp;";
    } else if (character == "<") {
      escaped += "&lt;";
    } else if (character == ">") {
      escaped += "&gt;";
    } else if (character == "\"") {
      escaped += "&quot;";
    } else {
      escaped += character;
    }
  });
  return escaped;
}

std::string html_lines(std::string_view text) {
  std::string lines;
  for (const char c : html_escaped(text)) {
    lines += c == '\n' ? "<br/>" : std::string(1, c);
  }
  return lines;
}

std::string css_string(std::string_view text) {
  std::string quoted = "\"";
  each_character(text, [&](std::string_view character) {
    constexpr std::string_view kEscaped = "\"\\<>&\n\r\t";
    if (kEscaped.find(character) != std::string_view::npos) {
      quoted += fmt::format("\\{:x} ", static_cast<unsigned>(character[0]));
    } else {
      quoted += character;
    }
  });
  return quoted + "\"";
}

}  // namespace coatwright
